"""What the colours of a picture or a window mean; both take them from here."""

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

from ..cases.storage.shape import BARS, CellTag, FloatArray, IntegerArray, Shape
from ..cases.unit_display import Units
from .field import SLACK, TAUT, WRINKLED, find_scale, round_end, take_values
from .field_list import STATE, Field

CLOTH_MAP = "viridis"  # perceptually uniform, and readable in grey, as are the others
CORD_MAP, CORD_LIGHTEST = "plasma", 0.85  # the rest is too pale on white
BAR_MAP, BAR_LIGHTEST = "cividis", 0.95
SLACK_COLOUR, PLAIN_COLOUR = (0.87, 0.87, 0.87, 1.0), (0.90, 0.90, 0.88, 1.0)
DARK, LIGHT = (0.1, 0.1, 0.1, 1.0), (0.70, 0.90, 1.0, 1.0)  # not white: no mark looks like a hole in the cloth
BAR_COLOUR = "#9c4a1a"  # of knobs and rims of bars, and of bars of which nothing else is known
STATE_COLOURS = {
    TAUT: (0.19, 0.41, 0.56, 1.0),
    WRINKLED: (0.48, 0.82, 0.32, 1.0),
    SLACK: SLACK_COLOUR,
}  # of the same map as the cloth
POINT = 0.007  # m, what a point of a sheet is in a window and on the page
BAR, KNOB = 3.4, 5.5  # width of a bar and of its ends in points, there
GROWTH = (0.5, 2.3)  # width of a cord without tension, and what the strongest has more


class ColourScheme(NamedTuple):
    """The field on the cloth, the ends of all scales, and what is known of the bars.

    Parameters
    ----------
    field : Field
        What the cloth shows.
    end, most : float
        Value at the top of its scale and largest value, SI.
    cord_end : float
        Tension at the top of the scale of cords, N.
    bars : mapping of CellTag to (float, float)
        Share of the capacity of each bar and the thrust that gives it, N.
    """

    field: Field
    end: float
    most: float
    cord_end: float
    bars: Mapping[CellTag, tuple[float, float]]


def make_look(shape: Shape, field: Field, bar_shares: Mapping[CellTag, float], units: Units = "metric") -> ColourScheme:
    """Return the look of a hammock; stages with less load share that of the whole load.

    Parameters
    ----------
    shape : Shape
        Under the whole load.
    field : Field
        What the cloth shows.
    bar_shares : mapping of CellTag to float
        Demand over capacity; bars left out are plain.
    units : {"metric", "imperial", "both"}
        In which the ends of the scales are round.
    """
    bars = {
        bar: (share, float(np.abs(shape.force[shape.part == bar]).max()))
        for bar, share in bar_shares.items()
        if (shape.part == bar).any()
    }
    return ColourScheme(field, *find_scale(shape, field, units), find_cord_end(shape, units), bars)


def find_cord_end(shape: Shape, units: Units) -> float:
    """Return the tension at the top of the scale of cords, N, round in the units."""
    cords = ~np.isin(shape.part, BARS)
    return round_end(float(np.abs(shape.force[cords]).max(initial=0.0)), "force", units)


def paint_cloth(shape: Shape, look: ColourScheme) -> FloatArray:
    """Return the colour (m, 4) of every triangle; slack cloth is grey, and so is cloth without contact."""
    from matplotlib import colormaps

    values = take_values(shape, look.field)
    if look.field.dimension == STATE:
        return np.array([STATE_COLOURS[int(state)] for state in shape.state])
    colours = np.asarray(colormaps[CLOTH_MAP](np.clip(values / look.end, 0.0, 1.0)))
    if look.field.of_contact:
        return np.where((values > 0.0)[:, None], colours, PLAIN_COLOUR)
    return np.where((shape.state == SLACK)[:, None], SLACK_COLOUR, colours)


def paint_cords(force: FloatArray, look: ColourScheme) -> FloatArray:
    """Return the colour (k, 4) of cords with a tension (k,), N."""
    from matplotlib import colormaps

    return np.asarray(colormaps[CORD_MAP](CORD_LIGHTEST * np.clip(np.abs(force) / look.cord_end, 0.0, 1.0)))


def widen_cords(force: FloatArray, look: ColourScheme) -> FloatArray:
    """Return how wide (k,) cords with a tension (k,), N, are drawn, in points of a sheet."""
    return np.asarray(GROWTH[0] + GROWTH[1] * np.clip(np.abs(force) / look.cord_end, 0.0, 1.0))


def find_bar_share(part: int, force: float, look: ColourScheme) -> float | None:
    """Return demand over capacity of a bar under a thrust, N, or None if the bar was not checked.

    The capacity is a thrust, so that the share grows with the thrust.
    """
    if CellTag(part) not in look.bars:
        return None
    share, thrust = look.bars[CellTag(part)]
    return share * abs(force) / max(thrust, 1e-300)


def paint_bars(part: IntegerArray, force: FloatArray, look: ColourScheme) -> FloatArray:
    """Return the colour (k, 4) of bars."""
    from matplotlib import colormaps
    from matplotlib.colors import to_rgba

    shares = [find_bar_share(int(piece), float(thrust), look) for piece, thrust in zip(part, force, strict=True)]
    painted = [
        to_rgba(BAR_COLOUR) if share is None else colormaps[BAR_MAP](BAR_LIGHTEST * min(share, 1.0)) for share in shares
    ]
    return np.array(painted, dtype=np.float64).reshape(-1, 4)
