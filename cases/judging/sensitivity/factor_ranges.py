"""The ranges of the checks of least margin, and what they rest on."""

from dataclasses import dataclass

from .factor_range import FactorRange
from .range_input import Input


@dataclass(frozen=True)
class MissingRangeEnd:
    """An end of a range at which a factor was not found.

    Parameters
    ----------
    source : Input
        The input.
    end : float
        The end of its range, SI.
    reason : str
        Why, in a sentence.
    """

    source: Input
    end: float
    reason: str


@dataclass(frozen=True)
class FactorRanges:
    """How sure the checks of a result are.

    Parameters
    ----------
    ranges : tuple of FactorRange
        Of the checks of least margin, one of a part, the least first.
    failures : tuple of MissingRangeEnd
        Ends that are missing in them.
    triangles : int
        Of the mesh on which the stiffnesses were varied; 0 if no solve was needed.
    solves : int
        How often it was solved.
    seconds : float
        Wall time.
    """

    ranges: tuple[FactorRange, ...]
    failures: tuple[MissingRangeEnd, ...]
    triangles: int
    solves: int
    seconds: float

    def __repr__(self) -> str:
        """Return of how many checks, and how they were found."""
        return f"FactorRanges({len(self.ranges)} checks, {self.solves} solves of {self.triangles} triangles)"

    @property
    def unknown(self) -> tuple[Input, ...]:
        """Inputs of which no range is known, though one of the factors depends on them."""
        return tuple(dict.fromkeys(source for band in self.ranges for source in band.unknown))
