"""The cloth against its strength, thread direction by thread direction."""

from collections.abc import Iterator

from ..cloth.hot_spot import THREADS, find_strength
from .case import Case
from .check import Check, Unchecked


def check_cloth(case: Case) -> Iterator[Check | Unchecked]:
    """Yield whether warp and weft bear the largest pull over a gauge width of 25 mm.

    Parameters
    ----------
    case : Case
        What was solved.

    Yields
    ------
    Check
        N per metre of cloth as cut; away from seams, which are checked by themselves.
    """
    if case.cloth_utilisation is None:
        yield Unchecked("cloth", "the mesh was not made fine enough along channels and bars; solve with hot spots.")
        return
    for thread in THREADS:
        spot = getattr(case.cloth_utilisation, thread)
        bears = find_strength(case.model, thread, case.workmanship.reductions)
        yield Check("cloth", f"{thread} tears", spot.line_stress, bears, case.workmanship.factors["cloth"], spot.place)
