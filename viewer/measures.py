"""A design with its measures written on it: the flat body from above, and the hang from the side."""

from pathlib import Path
from typing import Any, NamedTuple

import numpy as np

from ..cases.design import Design
from ..cases.design_geometry import DesignGeometry, trace_design
from ..cases.storage.atomic import write_beside
from ..cases.unit_display import Units, show_quantity
from .view import CORD_COLOUR, TREE, TREE_COLOUR

SHEET = (11.0, 10.0)  # in
_CLOTH, _BAR, _SKIN, _INK = "#d9e4ea", "#8a4b14", "#b08968", "#1f2933"
_SIZE = 8  # pt, of the words
_APART = 0.14  # m, from what is measured to its arrow
_ARROW = {"arrowstyle": "<->", "color": _INK, "linewidth": 0.8, "shrinkA": 0, "shrinkB": 0}
_NOTE = (
    "Names are the keys of the design file. The hang is drawn as estimated before solving: under a person the lines "
    "are steeper or flatter by some degrees."
)
_BOX = {"facecolor": "white", "edgecolor": "none", "pad": 1.0}


class _MeasuredLength(NamedTuple):
    """A length from one point to another, m, with its key."""

    start: tuple[float, float]
    end: tuple[float, float]
    key: str
    value: float


def draw_measures(design: Design, path: Path, *, units: Units = "both") -> None:
    """Draw a design with the keys and values of its sizes.

    Parameters
    ----------
    design : Design
        From ``read_design``; it need not be solved.
    path : Path
        ``.svg`` or ``.png``; written whole or not at all.
    units : {"metric", "imperial", "both"}
        Of the values.

    Raises
    ------
    OSError
        If the file cannot be written.
    """
    from matplotlib import rc_context

    kind = path.suffix[1:].lower()
    stamps = {"png": {"Software": "tautlay"}, "svg": {"Creator": "tautlay", "Date": None}}
    with rc_context({"svg.hashsalt": "tautlay", "svg.fonttype": "none"}), write_beside(path) as beside:
        compose_measures(design, units).savefig(beside, format=kind, metadata=stamps[kind], dpi=140)


def compose_measures(design: Design, units: Units = "both") -> Any:  # noqa: ANN401
    """Put both views on a sheet.

    Parameters
    ----------
    design : Design
        What is drawn.
    units : {"metric", "imperial", "both"}
        Of the values.

    Returns
    -------
    matplotlib Figure
        Ready to be saved.
    """
    from matplotlib.figure import Figure

    figure = Figure(figsize=SHEET, layout="constrained")
    above, side = figure.subplots(2, 1, height_ratios=(1.15, 1.0))
    geometry = trace_design(design)
    _draw_flat(above, design, geometry, units)
    _draw_hang(side, design, geometry, units)
    figure.suptitle(f"{design.name}: measures", fontsize=13)
    figure.supxlabel(_NOTE, fontsize=_SIZE)
    return figure


def _finish(axes: Any, title: str) -> None:  # noqa: ANN401
    """Give a view its title and one scale."""
    axes.set_title(title, fontsize=10)
    axes.set_aspect("equal")
    axes.axis("off")
    axes.margins(0.06)


def _mark(axes: Any, span: _MeasuredLength, units: Units, turn: float = 0.0) -> None:  # noqa: ANN401
    """Draw a length with arrows at its ends and its words in the middle."""
    axes.annotate("", span.end, span.start, arrowprops=_ARROW)
    middle = tuple(np.mean([span.start, span.end], axis=0))
    words = f"{span.key}\n{show_quantity(span.value, 'length', units)}"
    axes.text(*middle, words, fontsize=_SIZE, ha="center", va="center", rotation=turn, bbox=_BOX, color=_INK)
    axes.update_datalim([span.start, span.end])


def _draw_flat(axes: Any, design: Design, geometry: DesignGeometry, units: Units) -> None:  # noqa: ANN401
    """Draw the flat body, head on the left, with bars and person."""
    body, person = design.hammock.body, design.person
    x, edges = geometry.stations, np.concatenate([geometry.left, geometry.right[::-1]])
    axes.fill(np.concatenate([x, x[::-1]]), edges, facecolor=_CLOTH, edgecolor=_INK)
    half = max(body.head_width, body.foot_width) / 2
    _mark(axes, _MeasuredLength((0.0, half + _APART), (body.length, half + _APART), "body.length", body.length), units)
    for end, place, out in (("head", 0.0, -1.0), ("foot", body.length, 1.0)):
        _draw_bar(axes, design, end, (place, out), units)
    _draw_arcs(axes, design, geometry, units)
    _draw_sleeper(axes, person.head_from_bar, person.stature, -half - _APART, units)
    _draw_grain(axes, body.length, body.grain)
    _finish(axes, "the flat body from above, head on the left")


def _draw_bar(axes: Any, design: Design, end: str, place: tuple[float, float], units: Units) -> None:  # noqa: ANN401
    """Draw a bar, and beside it how long it is and how wide the cloth; ``place``: x, m, and which way is out."""
    x, out = place
    bar = getattr(design.hammock, f"{end}_bar").length
    axes.plot([x, x], [-bar / 2, bar / 2], color=_BAR, linewidth=4, solid_capstyle="round")
    width = getattr(design.hammock.body, f"{end}_width")
    for key, value, away in ((f"{end}_bar.length", bar, 0.16), (f"body.{end}_width", width, 0.40)):
        at = x + out * away
        _mark(axes, _MeasuredLength((at, -value / 2), (at, value / 2), key, value), units, 90)


def _draw_arcs(axes: Any, design: Design, geometry: DesignGeometry, units: Units) -> None:  # noqa: ANN401
    """Draw how deep both sides are cut, from the straight line between the corners."""
    body = design.hammock.body
    half, middle = len(geometry.stations) // 2, body.length / 2
    for side, arc, sign in (("left", body.left_arc, 1.0), ("right", body.right_arc, -1.0)):
        ends = sign * body.head_width / 2, sign * body.foot_width / 2
        axes.plot([0.0, body.length], ends, "--", color=_INK, linewidth=0.7)
        key = "body.arc.depth" if body.left_arc == body.right_arc else f"body.{side}_arc.depth"
        there = float((geometry.left if side == "left" else geometry.right)[half])
        _mark(axes, _MeasuredLength((middle, sum(ends) / 2), (middle, there), key, arc.depth), units)


def _draw_grain(axes: Any, length: float, grain: float) -> None:  # noqa: ANN401
    """Draw which way the warp runs."""
    start = np.array([length * 0.72, 0.12])
    tip = start + 0.3 * np.array([np.cos(grain), np.sin(grain)])
    axes.annotate("", tip, start, arrowprops={"arrowstyle": "->", "color": _INK})
    words = f"warp, body.grain {np.degrees(grain):.0f} deg "
    axes.text(*start, words, fontsize=_SIZE, ha="right", va="center", color=_INK)


def _draw_sleeper(axes: Any, crown: float, stature: float, below: float, units: Units) -> None:  # noqa: ANN401
    """Draw how long the person is and where the head lies."""
    axes.plot([crown, crown + stature], [0.0, 0.0], color=_SKIN, linewidth=9, alpha=0.5, solid_capstyle="round")
    _mark(axes, _MeasuredLength((crown, below), (crown + stature, below), "person.stature", stature), units)
    lower = below - _APART
    axes.plot([crown, crown], [lower, 0.0], ":", color=_INK, linewidth=0.7)
    axes.annotate("", (crown, lower), (0.0, lower), arrowprops=_ARROW)
    words = f"person.head_from_bar {show_quantity(crown, 'length', units)}"
    axes.text(crown + 0.03, lower, words, fontsize=_SIZE, va="center", color=_INK)
    axes.update_datalim([(0.0, lower - 0.06)])


def _draw_hang(axes: Any, design: Design, geometry: DesignGeometry, units: Units) -> None:  # noqa: ANN401
    """Draw trees, lines, legs and body from the side."""
    x, z = geometry.side.T
    axes.fill_between(x, z, z - 0.12, color=_CLOTH)
    axes.plot(x, z, color=CORD_COLOUR, linewidth=1.5)
    for end in ("head", "foot"):
        _draw_end(axes, design, geometry, end, units)
    half = geometry.tree_distance / 2
    axes.axhline(0.0, color=TREE_COLOUR, linewidth=1.0)
    given = design.hammock.suspension.tree_distance is not None
    key = "suspension.tree_distance" if given else "trees apart, bark to bark, as estimated"
    _mark(axes, _MeasuredLength((-half, 0.18), (half, 0.18), key, geometry.tree_distance), units)
    _finish(axes, "hung, from the right side, head on the left")


def _draw_end(axes: Any, design: Design, geometry: DesignGeometry, end: str, units: Units) -> None:  # noqa: ANN401
    """Draw tree, line and legs of one end."""
    ropes, out = design.hammock.suspension.pick(end), -1.0 if end == "head" else 1.0
    tree, apex, bar = geometry.ropes[end]
    axes.plot(*zip(tree, apex, bar, strict=True), color=CORD_COLOUR, linewidth=1.5, marker="o", markersize=3)
    thick = 2 * TREE if ropes.tree is None else ropes.tree.diameter
    axes.fill_betweenx([0.0, tree[1] + 0.25], tree[0], tree[0] + out * thick, color=TREE_COLOUR, linewidth=0)
    at = float(tree[0] + out * (thick + 0.12))
    _mark(axes, _MeasuredLength((at, 0.0), (at, float(tree[1])), f"{end}_strap_height", ropes.strap_height), units, 90)
    for key, value, ends in (("line", ropes.line_length, (tree, apex)), ("leg", ropes.leg_length, (apex, bar))):
        words = f"{end}_{key}_length\n{show_quantity(value, 'length', units)}"
        x, z = np.mean(ends, axis=0)
        axes.text(x, z + 0.2, words, fontsize=_SIZE, ha="center", va="bottom", color=_INK)
    words = f"{np.degrees(geometry.angles[end]):.0f} deg"
    side = "left" if end == "head" else "right"
    axes.text(tree[0] - out * 0.1, tree[1] - 0.28, words, fontsize=_SIZE, ha=side, color=_INK)
