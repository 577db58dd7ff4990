"""The flat body from above, head on the left, with bars, arcs, warp and sleeper."""

import numpy as np

from ...cases.design import Design
from ...cases.design_geometry import DesignGeometry
from .measured_view import MeasuredView

_GAP = 0.09  # of the length, from one line of sizes to the next


def draw_flat(view: MeasuredView, design: Design, geometry: DesignGeometry) -> None:
    """Draw the flat body and whoever lies in it."""
    body, gap = design.hammock.body, _GAP * design.hammock.body.length
    x, half = geometry.stations, max(body.head_width, body.foot_width) / 2
    view.draw(np.column_stack([[*x, *x[::-1]], [*geometry.left, *geometry.right[::-1]]]), "cloth", closed=True)
    view.measure((0.0, half + gap), (body.length, half + gap), "body.length")
    for end, place, out in (("head", 0.0, -1.0), ("foot", body.length, 1.0)):
        bar, width = getattr(design.hammock, f"{end}_bar").length / 2, getattr(body, f"{end}_width") / 2
        view.draw([(place, -bar), (place, bar)], "rod")
        for key, reach, away in ((f"{end}_bar.length", bar, gap), (f"body.{end}_width", width, 2 * gap)):
            view.measure((place + out * away, -reach), (place + out * away, reach), key)
        view.say((place + out * gap, half + gap), end)
        if getattr(design.hammock, f"{end}_bar").set_in == 0.0:  # else it has a view of its own
            view.point((place, 0.5 * bar), f"{end}_bar.set_in")
    _draw_sides(view, design, geometry)
    _draw_grain(view, body.length, body.grain)
    _draw_sleeper(view, design, -half - gap)
    size = design.mesh_size
    corner = np.array([0.82 * body.length, -0.3 * half])
    view.draw(corner + size * np.array([(0.0, 0.0), (1.0, 0.0), (0.5, 0.87)]), "edge", closed=True)
    view.point((float(corner[0] + size / 2), float(corner[1])), "mesh.size")


def _draw_sides(view: MeasuredView, design: Design, geometry: DesignGeometry) -> None:
    """Draw how deep both sides are cut, from the straight line between the corners, and where the cord is sewn in."""
    body = design.hammock.body
    half, middle = len(geometry.stations) // 2, body.length / 2
    for side, sign, edge in (("left", 1.0, geometry.left), ("right", -1.0, geometry.right)):
        ends = sign * body.head_width / 2, sign * body.foot_width / 2
        view.draw([(0.0, ends[0]), (body.length, ends[1])], "thin")
        view.measure((middle, sum(ends) / 2), (middle, edge[half]), f"body.{side}_arc.depth", "body.arc.depth")
    at = len(geometry.stations) // 3
    view.point((geometry.stations[at], geometry.left[at]), "channel.cord_length")
    locks = "channel.lock_length", "channel.lock.corner_length"
    length = next((view.sizes[key].value for key in locks if key in view.sizes), 0.0)
    reach = min(int(np.searchsorted(geometry.stations, length)), len(geometry.stations) - 1)
    if length:
        view.draw(np.column_stack([geometry.stations, geometry.right])[: reach + 1], "seam")
        view.measure((0.0, geometry.right[0]), (geometry.stations[reach], geometry.right[reach]), *locks)


def _draw_grain(view: MeasuredView, length: float, grain: float) -> None:
    """Draw which way the warp runs, from a line along the hammock."""
    start = np.array([0.68 * length, 0.05 * length])
    tip = start + 0.16 * length * np.array([np.cos(grain), np.sin(grain)])
    view.draw(np.stack([start, tip]), "warp")
    view.say((float(start[0] - 0.07 * length), float(start[1])), "warp")
    view.point((float(tip[0]), float(tip[1])), "body.grain")


def _draw_sleeper(view: MeasuredView, design: Design, below: float) -> None:
    """Draw how long a person is, where the head lies, and how far from the middle."""
    person, gap = design.person, _GAP * design.hammock.body.length
    crown, aside = person.head_from_bar, person.posture.offset
    view.draw([(crown, aside), (crown + person.stature, aside)], "skin")
    where = next((each for each in ("person", "person.1") if f"{each}.head_from_bar" in view.sizes), "person")
    view.measure((crown, below), (crown + person.stature, below), f"{where}.stature")
    view.draw([(crown, below - gap), (crown, aside)], "thin")
    view.measure((0.0, below - gap), (crown, below - gap), f"{where}.head_from_bar")
    middle = crown + 0.55 * person.stature
    view.measure((middle, 0.0), (middle, aside), f"{where}.offset")
