"""What explains a picture: the scales of colours and the key of marks, in a column at its right edge."""

from collections.abc import Mapping
from textwrap import fill
from typing import TYPE_CHECKING, Any

import numpy as np

from ..cases.storage.shape import Shape
from ..cases.unit_display import Units, show_ticks
from .field import place_ticks, show_value
from .field_list import STATE
from .legend_words import BAR_TITLE, CORDS, NOT_CHECKED, Sign, list_signs, list_things
from .look import BAR_LIGHTEST, BAR_MAP, CLOTH_MAP, CORD_LIGHTEST, CORD_MAP, ColourScheme

if TYPE_CHECKING:
    from matplotlib.artist import Artist

COLUMN = 0.845  # of the width of a sheet
_WIDE = 24  # letters of a row of the key
_FORMS: dict[str, tuple[Any, float]] = {  # marker and its size, points
    "stroke": ((2, 0, 60), 9.0),
    "diamond": ("D", 3.5),
    "square": ("s", 5.0),
}


def draw_scale(figure: Any, look: ColourScheme, units: Units) -> None:  # noqa: ANN401
    """Draw the scale of colours of the cloth and its limits, so that two pictures can be compared.

    Parameters
    ----------
    figure : matplotlib Figure
        The sheet.
    look : ColourScheme
        What the colours mean.
    units : {"metric", "imperial", "both"}
        Of the words.
    """
    from matplotlib.cm import ScalarMappable
    from matplotlib.colors import Normalize

    figure.text(COLUMN, 0.925, look.field.title, fontsize=9, va="center")
    if look.field.dimension == STATE:
        return
    ticks = place_ticks(look.end, look.field.dimension, units)
    words = show_ticks(ticks, look.field.dimension, units)
    figure.text(COLUMN, 0.893, f"colours from 0\nto {words[-1]}", fontsize=7, va="center", color="0.3")
    bar = figure.colorbar(
        ScalarMappable(Normalize(0.0, look.end), CLOTH_MAP),
        cax=figure.add_axes((COLUMN + 0.005, 0.705, 0.018, 0.155)),
        extend="max",
    )
    bar.set_ticks(ticks, labels=words)
    bar.ax.tick_params(labelsize=7)
    figure.text(COLUMN, 0.683, f"max {show_value(look.field, look.most, units)}", fontsize=8, va="center")


def draw_line_scales(figure: Any, look: ColourScheme, units: Units) -> None:  # noqa: ANN401
    """Draw the horizontal scales of cords and bars.

    Parameters
    ----------
    figure : matplotlib Figure
        The sheet.
    look : ColourScheme
        What the colours mean.
    units : {"metric", "imperial", "both"}
        Of the words.
    """
    from matplotlib import colormaps

    ends = show_ticks([0.0, look.cord_end], "force", units)
    rows = [(0.655, CORDS, CORD_MAP, CORD_LIGHTEST, ends)]
    if look.bars:
        rows.append((0.597, BAR_TITLE, BAR_MAP, BAR_LIGHTEST, ["0 %", "100 %"]))
    for top, title, name, lightest, words in rows:
        figure.text(COLUMN, top, title, fontsize=8, va="center")
        axes = figure.add_axes((COLUMN + 0.005, top - 0.023, 0.13, 0.011), label=title)
        axes.imshow(colormaps[name](np.linspace(0.0, lightest, 128))[None], aspect="auto", extent=(0, 1, 0, 1))
        axes.set_axis_off()
        for place, text, anchor in ((0.005, words[0], "left"), (0.135, words[1], "right")):
            figure.text(COLUMN + place, top - 0.033, text, fontsize=7, va="center", ha=anchor)
    if not look.bars:
        figure.text(COLUMN, 0.597, NOT_CHECKED, fontsize=8, va="center")


def draw_key(figure: Any, shape: Shape, look: ColourScheme, more: "Mapping[str, Artist] | None" = None) -> None:  # noqa: ANN401
    """Explain marks, cords and bars.

    Parameters
    ----------
    figure : matplotlib Figure
        The sheet.
    shape : Shape
        What is on it.
    look : ColourScheme
        What the colours mean.
    more : mapping of words to matplotlib artists or None
        What else is on this sheet.
    """
    key = {fill(sign.words, _WIDE): _draw_sign(sign) for sign in (*list_signs(look.field), *list_things(shape))}
    key |= more or {}
    figure.legend(key.values(), key.keys(), loc="upper left", bbox_to_anchor=(0.835, 0.556), fontsize=7, frameon=False)


def _draw_sign(sign: Sign) -> Any:  # noqa: ANN401
    """Return what stands before the words in a key."""
    from matplotlib.lines import Line2D
    from matplotlib.patches import Patch

    if sign.form == "bar":
        return Line2D([], [], color=sign.colour, linewidth=4.0, marker="o", markersize=5.5)
    drawn: list[Any] = [Patch(facecolor=sign.colour, edgecolor="0.6")] if sign.colour else []
    if sign.form:
        marker, size = _FORMS[sign.form]
        drawn.append(Line2D([], [], color="0.1", ls="none", marker=marker, markersize=size))
    return tuple(drawn)
