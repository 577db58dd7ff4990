"""The plots of the page: what is shown in each, in words, and the drawing."""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from markupsafe import Markup

from ...cases.judging.forces import Forces
from ...cases.storage.shape import CellTag, FloatArray, Shape
from ...cases.storage.stored_result import StoredResult
from .plot import Axis, Frame, draw_path, draw_plot
from .pressure_map import draw_pressure
from .sections import draw_back_line, draw_sections
from .thrust import draw_thrust
from .wording import mark_quantity


class PlotFigure(NamedTuple):
    """A drawing with its heading and a sentence on what is seen."""

    title: str
    drawing: Markup
    words: Markup


def list_figures(result: StoredResult) -> Iterator[PlotFigure]:
    """Yield every plot there is something to show for.

    Parameters
    ----------
    result : StoredResult
        What was solved.

    Yields
    ------
    PlotFigure
        Ready for the page.
    """
    shape, record = result.shape, result.record
    yield PlotFigure("Side cord tension", _draw_tension(shape), _format_tension(shape, record.forces))
    for title, drawing, words in draw_sections(shape):
        yield PlotFigure(title, drawing, words)
    yield PlotFigure("Along the centre line", *draw_back_line(shape))
    if shape.occupant is not None:
        yield PlotFigure("Contact pressure, from above", *draw_pressure(shape))
    for end in ("head", "foot"):
        checks, thrust = [each for each in record.checks if each.part == f"{end} bar"], record.forces.pick_thrust(end)
        yield PlotFigure(f"{end.capitalize()} bar capacities", *draw_thrust(checks, f"{end} bar", thrust))


def trace_cord(shape: Shape, part: CellTag) -> tuple[FloatArray, FloatArray]:
    """Return the run of a side cord from the head (k + 1,), m, and the tension of each piece (k,), N."""
    ours = shape.segments[shape.part == part]
    lengths = np.linalg.norm(np.diff(shape.points[ours], axis=1)[:, 0], axis=1)
    order = np.argsort(shape.points[ours, 0].mean(axis=1), kind="stable")
    return np.concatenate([np.zeros(1), np.cumsum(lengths[order])]), shape.force[shape.part == part][order]


def _draw_tension(shape: Shape) -> Markup:
    """Draw the tension of both side cords, step by step."""
    runs = {side: trace_cord(shape, CellTag[f"{side.upper()}_SIDE_CORD"]) for side in ("left", "right")}
    longest = max(float(run[-1]) for run, _ in runs.values())
    most = max(float(force.max()) for _, force in runs.values())
    frame = Frame(
        Axis("along the cord from the head", "length", (0.0, longest)),
        Axis("tension", "force", (0.0, 1.1 * most)),
        230.0,
    )
    lines = [
        draw_path(frame, np.stack([run.repeat(2)[1:-1], force.repeat(2)], -1), f"line {side}")
        for side, (run, force) in runs.items()
    ]
    key = [
        Markup('<path class="line {}" d="M60,{:g}h36"/><text x="102" y="{:g}">{}</text>').format(side, y, y + 4, words)
        for side, words, y in (("left", "left cord, full line", 150.0), ("right", "right cord, dashed", 168.0))
    ]
    return draw_plot(frame, "Side cord tension from the head corner to the foot corner", [*lines, *key])


def _format_tension(shape: Shape, forces: Forces) -> Markup:
    """Say how large the tension gets, and how far it falls."""
    least = min(float(trace_cord(shape, part)[1].min()) for part in (CellTag.LEFT_SIDE_CORD, CellTag.RIGHT_SIDE_CORD))
    return Markup("At most {} on the left and {} on the right, at least {} everywhere.").format(
        mark_quantity(forces.side_cord_left_max, "force"),
        mark_quantity(forces.side_cord_right_max, "force"),
        mark_quantity(least, "force"),
    )
