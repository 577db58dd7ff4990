"""One requirement, met or not, and one that could not be looked at."""

from dataclasses import dataclass
from math import floor, inf, isnan

from ....making import Capacity, Factor
from ...record import Record

_MOST = 99.0  # a larger factor is not worth its digits
_SIDES = (", left", ", right", "left ", "right ", " left", " right")


@dataclass(frozen=True)
class Check:
    """What one part carries in one way of failing, and what it bears.

    Parameters
    ----------
    part : str
        What is checked, such as ``head leg, left``.
    mechanism : str
        How it would fail, such as ``breaks at the splice``.
    demand : float
        What it carries, SI, in the dimension of the capacity.
    capacity : Capacity
        What it bears, and what that rests on.
    asked : Factor
        Factor of safety asked.
    place : str
        Where on the part, in words; may be a ``Sentence``, or empty.

    Raises
    ------
    ValueError
        For a demand or a capacity that is no number: such a check would pass or fail without meaning anything.

    Examples
    --------
    >>> from tautlay.making import FACTORS, Capacity, CapacityStep
    >>> cord = Capacity(4448.0, "force", (CapacityStep("breaking load", "a rope table", "memory"),))
    >>> check = Check("head leg, left", "breaks", 1000.0, cord, FACTORS["cord"])
    >>> round(check.found, 2), check.passed, round(check.margin, 2)
    (4.45, False, 0.89)
    """

    part: str
    mechanism: str
    demand: float
    capacity: Capacity
    asked: Factor
    place: str = ""

    def __post_init__(self) -> None:
        if isnan(self.demand) or isnan(self.capacity.value):
            raise ValueError(f"{self.part}, {self.mechanism}: {self.demand} against {self.capacity.value} is no check.")

    def __repr__(self) -> str:
        """Return what would fail, and both factors; the steps to the capacity are long."""
        return f"Check({self.title!r:.120}, factor {write_factor(self.found)} of {self.asked.value:g})"

    @property
    def title(self) -> str:
        """Part and mechanism, as in ``head leg, left breaks at the splice``."""
        return f"{self.part} {self.mechanism}"

    @property
    def found(self) -> float:
        """Factor of safety found: capacity over demand."""
        return self.capacity.value / self.demand if self.demand > 0.0 else inf

    @property
    def margin(self) -> float:
        """Factor found over factor asked; below 1 it is not enough, and the least of all gives way first."""
        return self.found / self.asked.value

    @property
    def passed(self) -> bool:
        """Whether the factor found is at least the one asked."""
        return self.found >= self.asked.value


@dataclass(frozen=True, repr=False)
class Unchecked(Record):
    """A part that could not be checked.

    Parameters
    ----------
    part : str
        Which part.
    reason : str
        What the design does not tell, and what to write; may be a ``Sentence``.
    """

    part: str
    reason: str


def name_part(part: str) -> str:
    """Return the name of a part without its side.

    Parameters
    ----------
    part : str
        Of a check.

    Examples
    --------
    >>> name_part("head leg, left"), name_part("left side cord"), name_part("corner, head left")
    ('head leg', 'side cord', 'corner, head')
    """
    for side in _SIDES:
        part = part.replace(side, "")
    return part


def write_factor(factor: float) -> str:
    """Return a factor of safety found as it is shown, rounded down: 4.98 is not 5.

    Examples
    --------
    >>> write_factor(4.98), write_factor(inf)
    ('4.9', 'over 99')
    """
    return f"over {_MOST:.0f}" if factor > _MOST else f"{floor(factor * 10) / 10:.1f}"
