"""The hang from the side, as estimated before solving, and a tree from above."""

import numpy as np

from ...cases.design import Design
from ...cases.design_geometry import DesignGeometry
from .measured_view import MeasuredView

_TREE = 0.3  # m thick, where the design says nothing
_ANGLE = 0.55  # m, from a tree to where its angle is pointed at


def draw_hang(view: MeasuredView, design: Design, geometry: DesignGeometry) -> None:
    """Draw trees, lines, legs and body from the right side, head on the left."""
    x, z = geometry.side.T
    half = geometry.tree_distance / 2
    view.draw(np.column_stack([[*x, *x[::-1]], [*z, *(z[::-1] - 0.12)]]), "cloth", closed=True)
    view.draw(geometry.side, "cord")
    reach = half + max(_find_trunk(design, end) for end in ("head", "foot")) + 0.2
    view.draw([(-reach, 0.0), (reach, 0.0)], "edge")
    view.measure((-half, 0.15), (half, 0.15), "suspension.tree_distance")
    for end in ("head", "foot"):
        _draw_end(view, design, geometry, end)


def _find_trunk(design: Design, end: str) -> float:
    """Return how thick a tree is, m."""
    tree = design.hammock.suspension.pick(end).tree
    return _TREE if tree is None else tree.diameter


def _draw_end(view: MeasuredView, design: Design, geometry: DesignGeometry, end: str) -> None:
    """Draw tree, line and legs of one end, and which angle is meant."""
    out = -1.0 if end == "head" else 1.0
    tree, apex, bar = geometry.ropes[end]
    foot = float(tree[0]), float(tree[0] + out * _find_trunk(design, end))
    view.draw_box((min(foot), 0.0), (max(foot), float(tree[1]) + 0.25), "tree")
    view.draw([tree, apex, bar], "cord")
    view.draw_round((float(apex[0]), float(apex[1])), 0.025, "edge")
    view.draw_round((float(bar[0]), float(bar[1])), 0.03, "bar")
    view.say((float(tree[0]), float(tree[1]) + 0.4), end)
    at = foot[1] + out * 0.12
    heights = f"{end}_tree.height", f"suspension.{end}_strap_height", "suspension.strap_height"
    view.measure((at, 0.0), (at, float(tree[1])), *heights)
    aside = np.array([0.0, 0.12])
    for name, ends in (("line", (tree, apex)), ("leg", (apex, bar))):
        start, stop = (np.asarray(each) + aside for each in ends)
        view.measure(start, stop, f"suspension.{end}_{name}_length", f"suspension.{name}_length")
    if "suspension.hang_angle" in view.sizes:
        level = float(tree[0]) - out * 2 * _ANGLE, float(tree[1])
        view.draw([(float(tree[0]), float(tree[1])), level], "thin")
        turn = np.linspace(0.0, geometry.angles[end], 12)
        arc = np.column_stack([tree[0] - out * _ANGLE * np.cos(turn), tree[1] - _ANGLE * np.sin(turn)])
        view.draw(arc, "thin")
        view.point((float(arc[6, 0]), float(arc[6, 1])), "suspension.hang_angle")


def draw_tree(view: MeasuredView, design: Design, end: str) -> None:
    """Draw a trunk from above, with what goes round it and what leads on to the hammock."""
    trunk = _find_trunk(design, end)
    radius, wrap = trunk / 2, design.hammock.suspension.pick(end).wrap
    reach = 0.8 * trunk if wrap is None else max(wrap.reach, 0.3 * trunk)
    joint = radius + reach
    view.draw_round((0.0, 0.0), radius, "tree")
    view.draw_round((0.0, 0.0), 1.05 * radius, "strap")
    for side in (1.0, -1.0):
        off = np.arccos(radius / joint)
        view.draw([(radius * np.cos(off), side * radius * np.sin(off)), (joint, 0.0)], "cord")
    view.draw([(joint, 0.0), (joint + 0.5 * trunk, 0.0)], "cord")
    view.say((joint + 0.45 * trunk, 0.22 * trunk), "to the hammock")
    homes = (f"{end}_tree", "trees")
    view.measure((-radius, 0.0), (radius, 0.0), f"{end}_tree.diameter", "trees.diameter")
    view.point((-radius * 0.71, radius * 0.71), f"{end}_tree.girth", f"trees.{end}_girth", "trees.girth")
    view.point((-1.05 * radius * 0.71, -1.05 * radius * 0.71), *(f"{home}.strap_length" for home in homes))
    view.measure((radius, 0.0), (joint, 0.0), *(f"{home}.sling_reach" for home in homes))
    near = 0.5 * (radius * np.cos(off) + joint), -0.5 * radius * np.sin(off)
    slings = [f"{home}.sling_{most}" for home in homes for most in ("shortest", "longest")]
    view.point(near, *slings)
