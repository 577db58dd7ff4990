"""Cross-section of a side channel: layers, cord and rows of stitches."""

from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from ..cases.judging.cloth.fold_record import FoldRecord
from ..cases.storage.atomic import write_beside
from ..cases.storage.result_json import read_record
from ..cases.unit_display import Units, show_quantity
from .palette import save_small
from .section import CLOTH_COLOUR
from .view import CORD_COLOUR

SHEET = (7.0, 3.5)  # in
DOTS = 140  # per inch
STRIP_COLOUR = "#b5651d"
NOTE = (
    "Widths lie flat, before the cord fills the fold. Layers are drawn apart and thick, widths and cord to one scale."
)
STRIP_NOTE = "\nThe seam that joins the strip to the body, where the channel ends, is not drawn."


class _Span(NamedTuple):
    """A width with its words, and the height at which it is drawn, m."""

    start: float
    end: float
    words: str
    height: float


def draw_fold(source: Path, png_path: Path, *, units: Units = "both") -> bool:
    """Draw the channel of a result, if the design states how it is folded.

    Parameters
    ----------
    source : Path
        Folder with the ``result.json``.
    png_path : Path
        Picture to write, whole or not at all.
    units : {"metric", "imperial", "both"}
        Of everything that is written.

    Returns
    -------
    bool
        Whether there was a fold to draw.

    Raises
    ------
    ResultError
        If the result cannot be read.
    OSError
        If the picture cannot be written.
    """
    fold = read_record(source / "result.json").channel.fold
    if fold is None:
        return False
    with write_beside(png_path) as beside:
        save_small(compose_fold(fold, units), beside, DOTS)
    return True


def compose_fold(fold: FoldRecord, units: Units = "both") -> Any:  # noqa: ANN401
    """Put the section of a fold and its words on a sheet.

    Parameters
    ----------
    fold : FoldRecord
        Of one result.
    units : {"metric", "imperial", "both"}
        Of everything that is written.

    Returns
    -------
    matplotlib Figure
        Ready to be saved.
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(SHEET)
    FigureCanvasAgg(figure)
    figure.text(0.03, 0.94, "Channel cross-section", fontsize=13, va="center")
    axes = figure.add_axes((0.03, 0.27, 0.94, 0.62))
    axes.set_axis_off()
    axes.set_aspect("equal")
    paths = [(layer.cloth, np.array(layer.path)) for layer in fold.layers]
    width, room = fold.finished_width, fold.stitching_width
    top = float(max(np.abs(path[:, 1]).max() for _, path in paths))
    for cloth, path in paths:
        _draw_layer(axes, cloth, path)
    for cloth in dict.fromkeys(cloth for cloth, _ in paths):
        _name_cloth(axes, cloth, [path for each, path in paths if each == cloth])
    _draw_cord(axes, fold)
    reach = top + 0.05 * width
    for row in fold.rows:
        axes.plot([row, row], [-reach, reach], color="0.1", linewidth=1.3, linestyle=(0, (4, 2)), zorder=5)
    away = top + 0.10 * width
    _draw_span(axes, _Span(width - room, width, f"stitching {show_quantity(room, 'length', units)}", away))
    _draw_span(axes, _Span(0.0, width, f"finished {show_quantity(width, 'length', units)}", -away))
    axes.set_xlim(-0.2 * width, 2.0 * width)
    axes.set_ylim(-away - 0.1 * width, away + 0.1 * width)
    figure.text(0.03, 0.18, _format_layers(fold), fontsize=8.5, va="center")
    note = NOTE + STRIP_NOTE if fold.strip_width else NOTE
    figure.text(0.03, 0.06, note, fontsize=7.5, va="center", color="0.3")
    return figure


def _draw_layer(axes: Any, cloth: str, path: NDArray[np.float64]) -> None:  # noqa: ANN401
    """Draw one layer: the body's cloth plain, a strip's beaded."""
    colour = CLOTH_COLOUR if cloth == "body" else STRIP_COLOUR
    axes.plot(*path.T, color=colour, linewidth=2.2, zorder=3, solid_capstyle="round")
    if cloth == "strip":
        axes.plot(*_space_out(path).T, color=colour, marker="o", markersize=4.2, linestyle="none", zorder=4)


def _name_cloth(axes: Any, cloth: str, paths: list[NDArray[np.float64]]) -> None:  # noqa: ANN401
    """Write the name of a cloth at the end of its layers: the body's below the line, a strip's above."""
    end = min((path[0] for path in paths), key=lambda point: float(point[1])) if cloth == "body" else paths[0][-1]
    words = f"{cloth}, {len(paths)} layers" if len(paths) > 1 else cloth
    axes.annotate(
        words,
        end,
        (0, -5 if cloth == "body" else 5),
        textcoords="offset points",
        fontsize=8,
        color=CLOTH_COLOUR if cloth == "body" else STRIP_COLOUR,
        ha="right",
        va="top" if cloth == "body" else "bottom",
        zorder=6,
    )


def _space_out(path: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return points at even distances along a path."""
    run = np.concatenate([np.zeros(1), np.cumsum(np.linalg.norm(np.diff(path, axis=0), axis=1))])
    places = np.linspace(0.0, run[-1], 28)
    return np.stack([np.interp(places, run, column) for column in path.T], axis=1)


def _draw_cord(axes: Any, fold: FoldRecord) -> None:  # noqa: ANN401
    """Draw the cord, hatched."""
    from matplotlib.patches import Circle

    radius = fold.cord_diameter / 2
    cord = Circle((fold.cord_centre, 0.0), 0.97 * radius, facecolor="0.85", edgecolor=CORD_COLOUR, hatch="xxx")
    axes.add_patch(cord)
    cord.set_zorder(2)
    axes.annotate(
        "cord",
        (fold.cord_centre - radius, 0.0),
        (-26, 0),
        textcoords="offset points",
        fontsize=8,
        va="center",
        ha="right",
        arrowprops={"arrowstyle": "-", "color": CORD_COLOUR},
    )


def _draw_span(axes: Any, span: _Span) -> None:  # noqa: ANN401
    """Draw a width with arrows at both ends and its words in the middle."""
    y = span.height
    arrow = {"arrowstyle": "<->", "color": "0.25", "shrinkA": 0, "shrinkB": 0}
    axes.annotate("", (span.start, y), (span.end, y), arrowprops=arrow)
    away = 4 if y > 0 else -4
    axes.annotate(
        span.words,
        ((span.start + span.end) / 2, y),
        (0, away),
        textcoords="offset points",
        ha="center",
        va="bottom" if y > 0 else "top",
        fontsize=8,
    )


def _format_layers(fold: FoldRecord) -> str:
    """Return how many layers the cord bears on and the stitches go through, and the stitches."""
    pulled, sewn, rows = fold.layers_pulled, fold.layers_sewn, len(fold.rows)
    return (
        f"The cord bears on {pulled} {'layer' if pulled == 1 else 'layers'}; the stitches go through {sewn}, in "
        f"{rows} {'row' if rows == 1 else 'rows'}\n(dashed) of {fold.stitches_per_inch:.1f} stitches per inch, "
        f"{fold.stitches_per_inch / 2.54:.1f} per cm."
    )
