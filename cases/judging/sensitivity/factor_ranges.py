"""The ranges of the checks of highest utilisation, and what they are based on."""

from dataclasses import dataclass

from .factor_range import FactorRange
from .range_input import Input
from .scatter_record import ScatterRecord


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
    """Uncertainty of the checks of a result.

    Parameters
    ----------
    ranges : tuple of FactorRange
        Of the checks of highest utilisation, one for each part, the highest first.
    failures : tuple of MissingRangeEnd
        Ends that are missing in them.
    triangles : int
        Of the mesh on which the stiffnesses were varied; 0 if no solve was needed.
    solves : int
        Number of solves.
    seconds : float
        Wall time.
    scatter : ScatterRecord or None
        With all inputs drawn at once; None was not asked.
    """

    ranges: tuple[FactorRange, ...]
    failures: tuple[MissingRangeEnd, ...]
    triangles: int
    solves: int
    seconds: float
    scatter: ScatterRecord | None = None

    def __repr__(self) -> str:
        """Return of how many checks, and how they were found."""
        return f"FactorRanges({len(self.ranges)} checks, {self.solves} solves of {self.triangles} triangles)"

    @property
    def unknown(self) -> tuple[Input, ...]:
        """Inputs of which no range is known, though one of the factors depends on them."""
        return tuple(dict.fromkeys(source for band in self.ranges for source in band.unknown))
