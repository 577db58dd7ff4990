"""What marks and colours mean, in words: the key of window, pictures and page."""

from typing import NamedTuple

import numpy as np

from ..cases.storage.shape import BARS, Shape
from .field import SLACK, STATES, TAUT, WRINKLED
from .field_list import STATE, Field, MarkRule
from .look import BAR_COLOUR, CLOTH_MAP, PLAIN_COLOUR, SLACK_COLOUR, STATE_COLOURS
from .person import FLESH_COLOUR

CORDS, BAR_TITLE = "cord tension (thicker: more)", "bar thrust over strength"
NOT_CHECKED = "bars: NOT CHECKED"
_WRINKLED = "wrinkled, stroke along the wrinkles"
_TAUT_SAMPLE = 0.33  # of the scale: a colour that stands for all of it


class Sign(NamedTuple):
    """A row of a key: the form of a mark and a colour, ``""`` for none, and what they mean."""

    form: str
    colour: str
    words: str


def list_signs(field: Field) -> list[Sign]:
    """Return what the marks of a field mean, and the colours that are not on its scale.

    Examples
    --------
    >>> from .field_list import NAMES
    >>> [sign.form for sign in list_signs(NAMES["larger-stress"])], list_signs(NAMES["weft"])[0].words
    (['', 'stroke', 'diamond'], 'larger for more')
    """
    from matplotlib import colormaps
    from matplotlib.colors import to_hex

    slack = Sign("diamond", to_hex(SLACK_COLOUR), STATES[SLACK])
    if field.dimension == STATE:
        taut, wrinkled = (to_hex(STATE_COLOURS[state]) for state in (TAUT, WRINKLED))
        return [Sign("", taut, f"{STATES[TAUT]} (no mark)"), Sign("stroke", wrinkled, _WRINKLED), slack]
    if field.marks is MarkRule.WRINKLES:
        sample = to_hex(colormaps[CLOTH_MAP](_TAUT_SAMPLE))
        return [Sign("", sample, f"{STATES[TAUT]} (no mark)"), Sign("stroke", "", _WRINKLED), slack]
    if field.marks is MarkRule.ACROSS:
        return [Sign("stroke", "", "along the smaller tension, longer for more"), slack]
    if field.marks is MarkRule.ALONG:
        return [Sign("stroke", "", "along the larger tension"), slack]
    plain = Sign("", to_hex(SLACK_COLOUR), STATES[SLACK])
    return [
        Sign("square", "", "larger for more"),
        Sign("", to_hex(PLAIN_COLOUR), "no contact") if field.of_contact else plain,
    ]


def list_things(shape: Shape) -> list[Sign]:
    """Return what else is drawn of a hammock."""
    from matplotlib.colors import to_hex

    found = []
    if np.isin(shape.part, BARS).any():
        found.append(Sign("bar", BAR_COLOUR, "spreader bar"))
    if shape.occupant is not None:
        found.append(Sign("", to_hex(FLESH_COLOUR), "person, paler behind cloth"))
    return found
