"""How sure a result is: ranges of its factors, and if asked the scatter of all inputs at once."""

from dataclasses import replace

from ...judging.sensitivity.factor_ranges import FactorRanges
from ...result import Result
from ..line_callback import LineCallback
from ..sensitivity.range_search import find_factor_ranges
from .scatter_search import find_scatter


def find_how_sure(result: Result, samples: int | None, *, progress: LineCallback | None = None) -> FactorRanges:
    """Find the factor ranges, and with ``samples`` the scatter.

    Parameters
    ----------
    result : Result
        Of any load case.
    samples : int or None
        How many hammocks to solve with all inputs drawn at once; None is none.
    progress : callable or None
        Receives a line of text while it works.

    Raises
    ------
    ValueError
        For too few samples.
    NoEquilibriumError
        If the unchanged hammock has no shape on the coarse mesh.
    """
    ranges = find_factor_ranges(result, progress=progress)
    if samples is None:
        return ranges
    return replace(ranges, scatter=find_scatter(result, ranges, samples, progress=progress))
