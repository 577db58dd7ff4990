"""One check, passed or failed, and one that could not be made."""

from collections.abc import Callable, Hashable, Iterable
from dataclasses import dataclass
from math import ceil, floor, inf, isfinite, isnan, log10
from typing import Protocol, TypeVar

from ....making import Capacity, Factor
from ...record import Record

_MOST = 99.0  # a larger factor is not worth its digits
_SIDES = ("left ", "right ")
RINGS, BAR_TIPS = "apex rings", "bar tips"
NEVER_CHECKED = frozenset({RINGS, BAR_TIPS})  # whatever the design file states of them
TOO_COARSE = "the mesh is too coarse along channels and bars. Solve with hot_spots = true."


@dataclass(frozen=True)
class Check:
    """Demand on one part in one failure mode, and its capacity.

    Parameters
    ----------
    part : str
        What is checked, such as ``left head leg``.
    mechanism : str
        How it would fail, such as ``splice breaks``.
    demand : float
        Load on the part, SI, in the dimension of the capacity.
    capacity : Capacity
        What it can take, and how that is derived.
    asked : Factor
        Factor of safety required: ``asked.value``.
    place : str
        Where on the part, in words; may be a ``Sentence``, or empty.

    Raises
    ------
    ValueError
        For a demand or a capacity that is not a number: such a check would pass or fail without meaning anything.

    Examples
    --------
    >>> from tautlay.making import FACTORS, Capacity, CapacityStep
    >>> cord = Capacity(4448.0, "force", (CapacityStep("breaking load", "a rope table", "memory"),))
    >>> check = Check("left head leg", "breaks", 1000.0, cord, FACTORS["cord"])
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
            raise ValueError(f"{self.title}: demand {self.demand}, capacity {self.capacity.value} cannot be compared.")

    def __repr__(self) -> str:
        """Return what would fail, and both factors; the steps to the capacity are long."""
        return f"Check({self.title!r:.120}, factor {_round_down(self.found)} of {self.asked.value:g})"

    @property
    def title(self) -> str:
        """Part and mechanism, as in ``left head leg, splice breaks``."""
        return f"{self.part}, {self.mechanism}"

    @property
    def found(self) -> float:
        """Factor of safety found: capacity over demand."""
        return self.capacity.value / self.demand if self.demand > 0.0 else inf

    @property
    def margin(self) -> float:
        """Reserve factor: factor found over factor required; below 1 the check fails. Utilisation is its inverse."""
        return self.found / self.asked.value

    @property
    def breaks(self) -> bool:
        """Whether the part fails at this load itself, whatever factor is required."""
        return self.found < 1.0

    @property
    def passed(self) -> bool:
        """Whether the factor found is at least the one required."""
        return self.found >= self.asked.value


@dataclass(frozen=True, repr=False)
class Unchecked(Record):
    """A part that could not be checked.

    Parameters
    ----------
    part : str
        Which part.
    reason : str
        What the design does not state, and what to add; may be a ``Sentence``.
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
    >>> name_part("left head leg"), name_part("left side cord"), name_part("right head corner")
    ('head leg', 'side cord', 'head corner')
    """
    for side in _SIDES:
        part = part.removeprefix(side)
    return part


class Judged(Protocol):
    """Whatever tells of one check: the check itself, or its record."""

    @property
    def part(self) -> str:
        """What is checked."""

    @property
    def mechanism(self) -> str:
        """How it would fail."""

    @property
    def passed(self) -> bool:
        """Whether it passes."""


_Judged = TypeVar("_Judged", bound=Judged)


def pick_tightest(checks: Iterable[_Judged]) -> list[_Judged]:
    """Return the first check of every part, left and right as one; in the order of checks that is its tightest.

    Parameters
    ----------
    checks : iterable of Check or CheckRecord
        In their order.
    """
    return _keep_first(checks, lambda check: name_part(check.part))


def merge_sides(checks: Iterable[_Judged]) -> list[_Judged]:
    """Return the first check of every failure mode of every part, left and right as one.

    Parameters
    ----------
    checks : iterable of Check or CheckRecord
        In their order.
    """
    return _keep_first(checks, lambda check: (name_part(check.part), check.mechanism))


def _keep_first(checks: Iterable[_Judged], name: Callable[[_Judged], Hashable]) -> list[_Judged]:
    """Return the first check of every name, in their order."""
    first: dict[Hashable, _Judged] = {}
    for check in checks:
        first.setdefault(name(check), check)
    return list(first.values())


def split_checks(checks: Iterable[_Judged]) -> tuple[list[_Judged], list[_Judged]]:
    """Return the checks worth a row, all that fail and the tightest of every part, and the rest, each in their order.

    Parameters
    ----------
    checks : iterable of Check or CheckRecord
        In their order.
    """
    listed = list(checks)
    tightest = {id(check) for check in pick_tightest(listed)}
    worth = [not check.passed or id(check) in tightest for check in listed]
    pairs = list(zip(listed, worth, strict=True))
    return [check for check, shown in pairs if shown], [check for check, shown in pairs if not shown]


def rank_factor(found: float, required: float) -> tuple[bool, float]:
    """Return the sort key of a factor: what fails at the load itself first, by its factor; then by reserve factor.

    Parameters
    ----------
    found, required : float
        Factor of safety found, and the one required.

    Examples
    --------
    >>> sorted([(2.4, 2.5), (0.9, 2.0), (6.4, 5.0), (0.8, 1.0)], key=lambda pair: rank_factor(*pair))
    [(0.8, 1.0), (0.9, 2.0), (2.4, 2.5), (6.4, 5.0)]
    """
    return found >= 1.0, found / required if found >= 1.0 else found


def _round_down(factor: float) -> str:
    """Return a factor to three digits, rounded down so that one that is too low never shows what is required."""
    if not isfinite(factor):
        return "without end"
    digits = max(2 - floor(log10(factor)), 0) if factor > 0.0 else 0
    return f"{floor(factor * 10**digits) / 10**digits:.{digits}f}"


def write_factor(factor: float) -> str:
    """Return a factor of safety found as it is shown, rounded down: 4.98 is not 5; below 1 with a digit more.

    Examples
    --------
    >>> write_factor(4.98), write_factor(0.098), write_factor(inf)
    ('4.9', '0.09', 'over 99')
    """
    if factor > _MOST:
        return f"over {_MOST:.0f}"
    return f"{floor(factor * 10) / 10:.1f}" if factor >= 1.0 else f"{floor(factor * 100) / 100:.2f}"


def write_utilisation(margin: float) -> str:
    r"""Return the utilisation that belongs to a reserve factor, rounded up: a check that fails never shows 100 %.

    .. math:: u = \lceil 100 / m \rceil

    Parameters
    ----------
    margin : float
        Factor of safety found over required, positive.

    Examples
    --------
    >>> write_utilisation(1.28), write_utilisation(0.999)
    ('79 %', '101 %')
    """
    return f"{ceil(100.0 / margin)} %"
