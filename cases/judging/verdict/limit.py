"""What a maker can set a limit to: every measure of the lay, and how the hammock hangs, holds and weighs."""

from dataclasses import dataclass
from typing import Literal, NamedTuple

from ..clearance import MARGIN
from ..comfort.measure_list import MEASURES, STRAIGHT_KNEES

Side = Literal["least", "most"]
CLEARANCE, PACK_WEIGHT, SIDE_PUSH, FOOT_ROOM, KNEES, HOLD = (
    "ground_clearance_m", "packed_kg", "side_push_N", "foot_room_m", "knee_flexion_rad", "hold_N",
)  # fmt: skip


class LimitedValue(NamedTuple):
    """One value that can be limited.

    Parameters
    ----------
    key : str
        Its end names the SI unit.
    title : str
        In words.
    dimension : str
        A dimension known to materials.
    """

    key: str
    title: str
    dimension: str


LIMITED: tuple[LimitedValue, ...] = (
    LimitedValue(CLEARANCE, "lowest point above ground", "length"),
    LimitedValue(FOOT_ROOM, "cloth left beyond the soles", "length"),
    LimitedValue(PACK_WEIGHT, "added pack weight", "mass"),
    LimitedValue(SIDE_PUSH, "push that moves the person 4 cm", "force"),
    *(LimitedValue(measure.key, measure.title, measure.dimension) for measure in MEASURES),
)


@dataclass(frozen=True)
class Limit:
    """A limit to one value.

    Parameters
    ----------
    key : str
        Of ``LIMITED``.
    side : {"least", "most"}
        Whether the value must be at least or at most this.
    value : float
        SI.

    Examples
    --------
    >>> sag = Limit("back_sag_m", "most", 0.2)
    >>> sag.is_kept(0.25), sag.find_utilisation(0.25)
    (False, 1.25)
    """

    key: str
    side: Side
    value: float

    @property
    def title(self) -> str:
        """What is limited, in words."""
        return find_limited(self.key).title

    @property
    def dimension(self) -> str:
        """Of the value."""
        return find_limited(self.key).dimension

    def is_kept(self, found: float) -> bool:
        """Return whether a value lies on the right side."""
        return found >= self.value if self.side == "least" else found <= self.value

    def find_utilisation(self, found: float) -> float | None:
        """Return how much of the limit is used: above 1 it is not kept; None where neither is a part of the other."""
        demand, room = (self.value, found) if self.side == "least" else (found, self.value)
        if demand <= 0.0 < room:
            return 0.0
        if demand > 0.0:
            return demand / room if room > 0.0 else None
        return None


def find_limited(key: str) -> LimitedValue:
    """Return the value of that key.

    Raises
    ------
    KeyError
        For any other key.

    Examples
    --------
    >>> find_limited("packed_kg").title
    'added pack weight'
    """
    return {each.key: each for each in LIMITED}[key]


USUAL_LIMITS = (Limit(CLEARANCE, "least", MARGIN), Limit(KNEES, "least", STRAIGHT_KNEES))  # unless set
