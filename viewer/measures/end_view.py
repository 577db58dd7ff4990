"""What is at one end: the bar, the cloth beyond it, the corner, and how cords end."""

from typing import Any

import numpy as np

from ...cases.design import Design
from .measured_view import MeasuredView

_THICK = 1 / 12  # of a bar's length, its thickness as drawn
_HOMES = {"ends": "head", "head_ends": "head", "foot_ends": "foot"}  # tables, and an end that each is about
_BEND = 1 / 20  # of a bar's length, how far from straight it is drawn


def draw_bar(view: MeasuredView, design: Design, end: str) -> None:
    """Draw a bar and its parts lying across, thickness and bend as much larger as the note says."""
    build = getattr(design.hammock, f"{end}_bar").build
    length, key = build.length, f"{end}_bar"
    most = max(_find_thickness(part.section) for part in build.parts)
    enlarge = _THICK * length / most
    start, low = 0.0, -0.5 * _THICK * length
    for number, part in enumerate(build.parts, 1):
        start -= part.overlap
        end_at, half = start + part.length, _find_thickness(part.section) * enlarge / 2
        tip = half if part.taper_to is None else part.taper_to * enlarge / 2
        view.draw([(start, -half), (end_at, -tip), (end_at, tip), (start, half)], "bar", closed=True)
        _measure_part(view, f"{key}.part.{number}", (start, end_at, half, tip), low - 0.09 * length * (1 + number % 2))
        if part.overlap:
            view.measure((start, -low + 0.06 * length), (start + part.overlap, -low + 0.06 * length),
                         f"{key}.part.{number}.overlap")  # fmt: skip
        start = end_at
    top = -low + (0.16 if len(build.parts) > 1 else 0.06) * length
    view.measure((0.0, top), (length, top), f"{key}.length")
    across = np.linspace(0.0, length, 33)
    bent = low - (0.32 if len(build.parts) > 1 else 0.08) * length - 4 * _BEND * across / length * (length - across)
    view.draw([(0.0, bent[0]), (length, bent[-1])], "thin")
    view.draw(np.column_stack([across, bent]), "rod")
    view.measure((length / 2, bent[0]), (length / 2, bent[16]), f"{key}.bow")
    off = bent[0] + 0.03 * length
    view.draw([(-0.08 * length, off), (0.0, off)], "cord")
    view.measure((-0.03 * length, bent[0]), (-0.03 * length, off), f"{key}.eccentricity")


def _find_thickness(section: Any) -> float:  # noqa: ANN401 - a tube or a rod, of a room that is not read here
    """Return the outer diameter of a tube or rod, m."""
    return float(section.outer_diameter if hasattr(section, "outer_diameter") else section.diameter)


def _measure_part(view: MeasuredView, key: str, box: tuple[float, float, float, float], below: float) -> None:
    """Show the sizes of one part; ``box``: where it starts and ends, and half its thickness there."""
    start, end, half, tip = box
    view.measure((start, below), (end, below), f"{key}.length")
    inside = start + 0.3 * (end - start)
    view.measure((inside, -half), (inside, half), f"{key}.outer_diameter", f"{key}.diameter")
    view.point((start + 0.45 * (end - start), half), f"{key}.wall")
    view.measure((end, -tip), (end, tip), f"{key}.taper_to")
    view.point((start, -half), f"{key}.play")


def draw_extension(view: MeasuredView, design: Design, end: str) -> None:
    """Draw the cloth beyond a bar from above, between its legs, towards the tree on the left."""
    bar, leg = getattr(design.hammock, f"{end}_bar"), design.hammock.suspension.pick(end).leg_length
    half, extension = bar.length / 2, bar.extension
    apex = float(np.sqrt(max(leg**2 - half**2, (0.2 * half) ** 2)))
    out = np.array([-apex, -half]) / np.hypot(apex, half)  # along the upper leg
    share = min(bar.set_in / apex, 1.0)
    cloth = [(0.0, half), (-bar.set_in, half * (1 - share)), (-bar.set_in, -half * (1 - share)), (0.0, -half)]
    view.draw(cloth, "cloth", closed=True)
    view.draw([(0.0, half), (0.35 * half, 0.93 * half), (0.35 * half, -0.93 * half), (0.0, -half)], "cloth")
    for side in (1.0, -1.0):
        view.draw([(0.0, side * half), (-apex, 0.0)], "cord")
    view.draw([(0.0, -half), (0.0, half)], "rod")
    view.say((-apex, 0.12 * half), "apex")
    view.say((0.18 * half, 0.0), "body")
    view.measure((-bar.set_in, 0.0), (0.0, 0.0), f"{end}_bar.set_in")
    corner = np.array([0.0, half])
    room = corner + extension.corner_room * out + np.array([0.0, 0.08 * half])
    view.measure(corner + np.array([0.0, 0.08 * half]), room, f"{end}_extension.corner_room")
    view.measure((0.06 * half, -half), (0.06 * half, -half + extension.opening), f"{end}_extension.opening")


def draw_plate(view: MeasuredView) -> None:
    """Draw a corner plate with its holes: leg on the left, side cord on the right, tip of the bar between."""
    size = {key.partition(".")[2]: each.value for key, each in view.sizes.items() if key.startswith("corner.")}
    width, edge = size["width"], size["cord_edge"]
    length = size.get("length", 2 * (size["tip_edge"] + edge))
    view.draw_box((0.0, 0.0), (length, width), "plate")
    tip = length / 2, width - size["tip_edge"]
    holes = {"leg": (edge, width / 2), "side cord": (length - edge, width / 2), "tip of the bar": tip}
    for name, at in holes.items():
        view.draw_round(at, size["tip_hole" if at == tip else "cord_hole"] / 2, "edge")
        if at != tip:
            view.say((at[0], -0.14 * width), name)
    view.say((tip[0], 1.14 * width), "tip of the bar")
    radius = size["cord_hole"] / 2
    view.measure((length * 1.1, 0.0), (length * 1.1, width), "corner.width")
    view.measure((0.0, -0.42 * width), (length, -0.42 * width), "corner.length")
    view.measure((tip[0] - size["tip_hole"] / 2, tip[1]), (tip[0] + size["tip_hole"] / 2, tip[1]), "corner.tip_hole")
    view.measure(tip, (tip[0], width), "corner.tip_edge")
    view.measure((edge, width / 2 - radius), (edge, width / 2 + radius), "corner.cord_hole")
    view.measure((length - edge, width / 2), (length, width / 2), "corner.cord_edge")
    view.point((length - edge - radius * 0.71, width / 2 + radius * 0.71), "corner.edge_radius")


def draw_loop(view: MeasuredView, design: Design) -> None:
    """Draw the eyes of cord and leg over the tip of a bar, from above."""
    tip = view.sizes["corner.tip"].value
    tube = max(_find_thickness(design.hammock.head_bar.build.parts[-1].section), 1.2 * tip)
    view.draw_box((0.0, -tube / 2), (3.5 * tube, tube / 2), "bar")
    view.draw_box((-2.0 * tip, -tip / 2), (0.0, tip / 2), "bar")
    turn = np.linspace(0.0, 2 * np.pi, 33)
    for at, side, name in ((-1.4 * tip, 1.0, "leg"), (-0.6 * tip, -1.0, "side cord")):
        view.draw(np.column_stack([at + 0.22 * tip * np.cos(turn), 0.62 * tip * np.sin(turn)]), "cord", closed=True)
        view.draw([(at, side * 0.62 * tip), (at, side * 1.8 * tip)], "cord")
        view.say((at, side * 2.2 * tip), name)
    view.say((2.0 * tube, 0.0), "bar")
    view.measure((-2.4 * tip, -tip / 2), (-2.4 * tip, tip / 2), "corner.tip")


def draw_cord_end(view: MeasuredView, design: Design, *, sewn: bool) -> None:
    """Draw the end of a cord as an eye over what it bends round, buried in itself or sewn over a lap."""
    view.draw([(-6.0, 0.0), (0.0, 0.0)], "cord")
    turn = np.linspace(np.pi, -np.pi, 41)
    view.draw(np.column_stack([1.5 + 1.5 * np.cos(turn), np.sin(turn)]), "cord")
    view.draw_round((2.25, 0.0), 0.7, "plate")
    view.draw([(-4.0, 0.18), (0.0, 0.18)], "cord")
    if sewn:
        across = np.linspace(-4.0, 0.0, 17)
        view.draw(np.column_stack([across, 0.09 + 0.09 * (-1.0) ** np.arange(17)]), "arrow")
    ends = [key for key in view.sizes if key.partition(".")[0] in _HOMES and _is_sewn(design, key) == sewn]
    view.measure((-4.0, 0.8), (0.0, 0.8), *(key for key in ends if key.endswith((".bury", ".lap"))))
    view.measure((2.25, -0.7), (2.25, 0.7), *(key for key in ends if key.endswith(".over")))
    view.point((0.6, -0.8), *(key for key in ends if key.endswith(".tail")))


def _is_sewn(design: Design, key: str) -> bool:
    """Whether the end that a key is about is a sewn loop."""
    home, name, _ = key.split(".")
    return str(getattr(design.workmanship.pick_rigging(_HOMES[home]), name).method) == "sewn loop"
