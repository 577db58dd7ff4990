"""Requirements that exclude each other in the designs of a sweep."""

from collections.abc import Sequence
from itertools import combinations

from .sweep_row import RowStatus, SweepRow


def explain_exclusion(rows: Sequence[SweepRow]) -> str | None:
    """Return which two requirements no design meets together although some meet each, and the nearest design.

    Parameters
    ----------
    rows : sequence of SweepRow
        Designs of one sweep, none of which passes.

    Returns
    -------
    str or None
        None where one passes, and where there is no such pair.

    Examples
    --------
    >>> kinds = [("back sag",), ("head bar, buckles",), ("head bar, buckles", "TOO LOW")]
    >>> rows = [SweepRow(n, {}, RowStatus.SOLVED, failed=kind) for n, kind in enumerate(kinds, 1)]
    >>> print(explain_exclusion(rows))
    No design meets both "back sag" and "head bar, buckles": each fails one of them. Nearest: 1, which fails back sag.
    """
    solved = [row for row in rows if row.status is RowStatus.SOLVED]
    if not solved or any(row.holds for row in solved):
        return None
    names = sorted({name for row in solved for name in row.failed})
    pairs = [pair for pair in combinations(names, 2) if _exclude_each_other(solved, *pair)]
    if not pairs:
        return None
    one, other = min(pairs, key=lambda pair: sum(set(pair) <= set(row.failed) for row in solved))
    nearest = min(solved, key=lambda row: (len(row.failed), -row.figures.get("least_margin", 0.0), row.number))
    return (
        f'No design meets both "{one}" and "{other}": each fails one of them. Nearest: {nearest.number}, which '
        f"fails {'; '.join(nearest.failed)}."
    )


def _exclude_each_other(rows: Sequence[SweepRow], one: str, other: str) -> bool:
    """Return whether every design fails one of two requirements, and each is met by some."""
    hits = [(one in row.failed, other in row.failed) for row in rows]
    return all(map(any, hits)) and not any(map(all, zip(*hits, strict=True)))
