"""Cloth tension compared with its strength, one check for each thread direction."""

from collections.abc import Iterator

from ..cloth.hot_spot import THREADS, find_strength
from .case import Case
from .check import TOO_COARSE, Check, Unchecked


def check_cloth(case: Case) -> Iterator[Check | Unchecked]:
    """Yield the checks of warp and weft at the highest tension over a gauge width of 25 mm.

    Parameters
    ----------
    case : Case
        What was solved.

    Yields
    ------
    Check
        N per metre of cloth as cut; away from seams, which have checks of their own.
    """
    if case.cloth_utilisation is None:
        yield Unchecked("cloth", TOO_COARSE)
        return
    for thread in THREADS:
        spot = getattr(case.cloth_utilisation, thread)
        bears = find_strength(case.model, thread, case.workmanship.reductions)
        yield Check("cloth", f"{thread} tears", spot.line_stress, bears, case.workmanship.factors["cloth"], spot.place)
