"""Sheets of measured views as a picture."""

from collections.abc import Sequence
from typing import Any

from .placed_view import RADIUS, WIDTH
from .svg_sheet import BETWEEN, MARGIN, TOP, measure_height
from .view_sheet import SheetPath, SheetRing, SheetText, ViewSheet, arrange_sheets
from .view_style import KIND_STYLES, LIGHT_INK, PAPER, TEXT_STYLES

DOTS = 108  # per inch: one and a half for each unit of a drawing
_UNITS = 72.0  # per inch


def paint_sheets(name: str, sheets: Sequence[ViewSheet]) -> Any:  # noqa: ANN401
    """Return all sheets of a design as a figure, dark on white, in two columns as in the file of SVG.

    Parameters
    ----------
    name : str
        Of the design.
    sheets : sequence of ViewSheet
        In reading order.

    Returns
    -------
    matplotlib Figure
        Ready to be saved with ``DOTS``.
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    width, height = 2 * (WIDTH + MARGIN) + BETWEEN, measure_height(sheets)
    figure = Figure((width / _UNITS, height / _UNITS), facecolor=PAPER[0])
    FigureCanvasAgg(figure)
    axes = figure.add_axes((0.0, 0.0, 1.0, 1.0), xlim=(0.0, width), ylim=(height, 0.0))
    axes.set_axis_off()
    _paint_text(axes, SheetText((MARGIN + 4.0, 22.0), f"{name}: measures", "title"), (0.0, 0.0), 0)
    for (x, y), sheet in arrange_sheets(sheets, BETWEEN):
        for level, part in enumerate(sheet.parts):
            _paint_part(axes, part, (MARGIN + x, TOP + y), level)
    return figure


def _paint_part(axes: Any, part: SheetPath | SheetText | SheetRing, shift: tuple[float, float], level: int) -> None:  # noqa: ANN401
    """Paint one part of a sheet above those before it."""
    from matplotlib.patches import Circle, Polygon

    if isinstance(part, SheetText):
        _paint_text(axes, part, shift, level)
    elif isinstance(part, SheetRing):
        spot = part.middle[0] + shift[0], part.middle[1] + shift[1]
        axes.add_patch(Circle(spot, RADIUS, facecolor=PAPER[0], edgecolor=LIGHT_INK[0], linewidth=1.0, zorder=level))
    else:
        style = KIND_STYLES[part.kind]
        colour, inside = style.colour or LIGHT_INK[0], style.inside
        axes.add_patch(
            Polygon(
                part.points + shift,
                closed=part.closed,
                facecolor=inside if inside == "none" else (inside, style.cover),
                edgecolor=(colour, style.strength),
                linewidth=style.width,
                linestyle=(0, style.dashes) if style.dashes else "solid",
                zorder=level,
            )
        )


def _paint_text(axes: Any, part: SheetText, shift: tuple[float, float], level: int) -> None:  # noqa: ANN401
    """Paint words."""
    style = TEXT_STYLES[part.kind]
    axes.text(
        part.at[0] + shift[0],
        part.at[1] + shift[1],
        part.text.replace("$", r"\$"),
        fontsize=style.size,
        fontweight=style.weight,
        fontstyle=style.slant,
        ha={"start": "left", "middle": "center", "end": "right"}[style.anchor],
        color=LIGHT_INK[0],
        zorder=level,
    )
