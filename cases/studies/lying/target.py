"""What a maker may wish of the hang, as it is written and as a measure of comfort."""

import re
from dataclasses import dataclass
from math import radians

from ...judging.comfort.comfort import Comfort
from ...judging.comfort.measures import find_measure

_ALLOWED = 'wish "no slide", or a pitch in degrees such as "trunk 3 deg" or "legs 5 deg"'
_SLIDE = re.compile(r"(no|zero|without) slid(e|ing)|slid(e|ing) (0(\.0*)?|none|zero)( ?%)?")
_PITCH = re.compile(r"(?P<what>trunk|back|legs?)( pitch)? ?(?P<angle>[-+]?[0-9]{1,2}(\.[0-9]+)?) ?(deg|degrees?|°)")
_MEASURES = {"trunk": "trunk_pitch_rad", "back": "trunk_pitch_rad", "leg": "leg_pitch_rad", "legs": "leg_pitch_rad"}


class WishError(ValueError):
    """A wish that cannot be read; the message says what can be wished."""


@dataclass(frozen=True)
class Wish:
    """A value that a measure of comfort is to have.

    Parameters
    ----------
    text : str
        As it was written.
    measure : str
        ``slide``, or the key of a measure of comfort.
    value : float
        SI.
    within : float
        By how much it may be missed.
    """

    text: str
    measure: str
    value: float
    within: float

    def read(self, comfort: Comfort) -> float:
        """Return what the wish is about, SI, from how a person lies."""
        return comfort.slide if self.measure == "slide" else find_measure(self.measure).read(comfort)


def read_wish(text: str) -> Wish:
    """Return what a wish is about; case, spaces and ``deg`` or ``degrees`` make no difference.

    Parameters
    ----------
    text : str
        ``"no slide"``, ``"trunk 3 deg"`` or ``"legs 5 deg"``.

    Raises
    ------
    WishError
        For anything else.

    Examples
    --------
    >>> read_wish("Slide 0").measure, round(read_wish("trunk 3 degrees").value, 4)
    ('slide', 0.0524)
    """
    plain = " ".join(text.lower().replace("=", " ").replace(":", " ").split())
    if _SLIDE.fullmatch(plain):
        return Wish(text, "slide", 0.0, 1e-3)
    found = _PITCH.fullmatch(plain)
    if found is None:
        raise WishError(f"{text!r} is no wish known here; {_ALLOWED}.")
    return Wish(text, _MEASURES[found["what"]], radians(float(found["angle"])), radians(0.1))
