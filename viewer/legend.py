"""What explains a picture: the scales of colours and the key of marks, in a column at its right edge."""

from typing import Any

import numpy as np

from ..cases.reading import SHARE, Units, show_ticks
from ..cases.shape import BARS, EXTENSIONS, Shape
from .extension import EXTENSION_COLOUR
from .field import STATE, STATES, place_ticks, show_value
from .look import (
    BAR_COLOUR,
    BAR_LIGHTEST,
    BAR_MAP,
    CLOTH_MAP,
    CORD_LIGHTEST,
    CORD_MAP,
    PLAIN_COLOUR,
    SLACK_COLOUR,
    STATE_COLOURS,
    Look,
)
from .mark import WORDS
from .person import FLESH_COLOUR, FLESH_RIM

COLUMN = 0.845  # of the width of a sheet
CORDS, BAR_TITLE = "cords: thicker, more tension", "bars: thrust over capacity"
NOT_CHECKED = "bars: not checked"


def draw_scale(figure: Any, look: Look, units: Units) -> None:  # noqa: ANN401
    """Draw the scale of colours of the cloth and say its limits, so that two pictures can be compared.

    Parameters
    ----------
    figure : matplotlib Figure
        The sheet.
    look : Look
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
    figure.text(COLUMN, 0.683, f"largest {show_value(look.field, look.most, units)}", fontsize=8, va="center")


def draw_line_scales(figure: Any, look: Look, units: Units) -> None:  # noqa: ANN401
    """Draw the scales of cords and bars, lying.

    Parameters
    ----------
    figure : matplotlib Figure
        The sheet.
    look : Look
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


def draw_key(figure: Any, shape: Shape, look: Look, more: dict[str, Any] | None = None) -> None:  # noqa: ANN401
    """Explain marks, cords and bars.

    Parameters
    ----------
    figure : matplotlib Figure
        The sheet.
    shape : Shape
        What is on it.
    look : Look
        What the colours mean.
    more : mapping of words to matplotlib artists or None
        What else is on this sheet.
    """
    from matplotlib.lines import Line2D
    from matplotlib.patches import Patch

    key = _explain_cloth(look)
    if np.isin(shape.part, BARS).any():
        knobs = Line2D([], [], color=BAR_COLOUR, linewidth=4.0, marker="o", markersize=5.5)
        key["spreader bar"] = knobs
    if np.isin(shape.part, EXTENSIONS).any():
        key["cloth beyond a bar,\ncarries nothing"] = Patch(facecolor=EXTENSION_COLOUR, edgecolor="0.45")
    if shape.occupant is not None:
        key["person, paler\nbehind cloth"] = Patch(facecolor=FLESH_COLOUR, edgecolor=FLESH_RIM)
    key |= more or {}
    figure.legend(key.values(), key.keys(), loc="upper left", bbox_to_anchor=(0.835, 0.556), fontsize=7, frameon=False)


def _explain_cloth(look: Look) -> dict[str, Any]:
    """Return what the marks on the cloth mean, and its colours where they are no scale."""
    from matplotlib.lines import Line2D
    from matplotlib.patches import Patch

    marks = WORDS[look.field.key]
    stroke = Line2D([], [], color="0.15", marker=(2, 0, 60), markersize=9, ls="none")
    diamond = Line2D([], [], color="0.1", marker="D", markersize=3.5, ls="none")
    square = Line2D([], [], color="0.15", marker="s", markersize=5, ls="none")
    if look.field.dimension == STATE:
        words = {2: f"{STATES[2]} (no mark)", 1: marks["stroke"], 0: marks["diamond"]}
        signs = {2: (), 1: (stroke,), 0: (diamond,)}
        return {
            words[state]: (Patch(facecolor=colour, edgecolor="none"), *signs[state])
            for state, colour in STATE_COLOURS.items()
        }
    key: dict[str, Any] = {}
    if look.field.key == "larger-stress":
        key["taut (no mark)"] = Patch(facecolor="#31688e", edgecolor="none")
    if "stroke" in marks:
        key[marks["stroke"]] = stroke
    if "diamond" in marks:
        key[marks["diamond"]] = (Patch(facecolor=SLACK_COLOUR, edgecolor="none"), diamond)
    if "square" in marks:
        key[marks["square"]] = square
    if look.field.dimension == "stress":
        key["not pressed"] = Patch(facecolor=PLAIN_COLOUR, edgecolor="0.6")
    elif look.field.dimension == SHARE:
        key["slack"] = Patch(facecolor=SLACK_COLOUR, edgecolor="none")
    return key
