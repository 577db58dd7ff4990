"""A target of `tautlay trim`, as it is written and as a measure of comfort."""

import re
from dataclasses import dataclass
from math import radians

from ...judging.comfort.comfort import Comfort
from ...judging.comfort.measure_list import find_measure

_ALLOWED = 'Write "no slide", or a tilt such as "torso 3 deg" or "legs 5 deg"'
_SLIDE = re.compile(r"(no|zero|without) slid(e|ing)|slid(e|ing) (0(\.0*)?|none|zero)( ?%)?")
_PITCH = re.compile(
    r"(?P<what>torso|trunk|back|legs?)( tilt| pitch)? ?(?P<angle>[-+]?[0-9]{1,2}(\.[0-9]+)?) ?(deg|degrees?|°)"
)
_MEASURES = dict.fromkeys(("torso", "trunk", "back"), "trunk_pitch_rad") | dict.fromkeys(
    ("leg", "legs"), "leg_pitch_rad"
)


class TargetError(ValueError):
    """A target that cannot be read; the message says what is allowed."""


@dataclass(frozen=True)
class Target:
    """A value that a measure of comfort should have.

    Parameters
    ----------
    text : str
        As it was written.
    measure : str
        ``slide``, or the key of a measure of comfort.
    value : float
        SI.
    within : float
        Tolerance.
    """

    text: str
    measure: str
    value: float
    within: float

    def read(self, comfort: Comfort) -> float:
        """Return what the wish is about, SI, from how a person lies."""
        return comfort.slide if self.measure == "slide" else find_measure(self.measure).read(comfort)


def read_target(text: str) -> Target:
    """Return the target in a text; case, spaces and ``deg`` or ``degrees`` make no difference.

    Parameters
    ----------
    text : str
        ``"no slide"``, ``"torso 3 deg"`` (or ``trunk``) or ``"legs 5 deg"``.

    Raises
    ------
    TargetError
        For anything else.

    Examples
    --------
    >>> read_target("Slide 0").measure, round(read_target("trunk 3 degrees").value, 4)
    ('slide', 0.0524)
    """
    plain = " ".join(text.lower().replace("=", " ").replace(":", " ").split())
    if _SLIDE.fullmatch(plain):
        return Target(text, "slide", 0.0, 1e-3)
    found = _PITCH.fullmatch(plain)
    if found is None:
        raise TargetError(f"unknown target {text!r}. {_ALLOWED}.")
    return Target(text, _MEASURES[found["what"]], radians(float(found["angle"])), radians(0.1))
