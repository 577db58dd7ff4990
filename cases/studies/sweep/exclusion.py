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
    pair = find_exclusive_pair(rows)
    if pair is None:
        return None
    nearest = find_nearest([row for row in rows if row.status is RowStatus.SOLVED])
    return f"{write_pair(pair, 'design')} {write_nearest(str(nearest.number), nearest)}"


def write_pair(pair: tuple[str, str], designs: str) -> str:
    """Return in a sentence which two requirements exclude each other in some designs.

    Examples
    --------
    >>> write_pair(("back sag", "seam"), "design that was solved")
    'No design that was solved meets both "back sag" and "seam": each fails one of them.'
    """
    return f'No {designs} meets both "{pair[0]}" and "{pair[1]}": each fails one of them.'


def write_nearest(name: str, row: SweepRow) -> str:
    """Return in a sentence which design is nearest to passing, and what it fails.

    Examples
    --------
    >>> write_nearest("2 mm", SweepRow(1, {}, RowStatus.SOLVED, failed=("back sag", "seam")))
    'Nearest: 2 mm, which fails back sag; seam.'
    """
    return f"Nearest: {name}, which fails {'; '.join(row.failed)}."


def find_exclusive_pair(rows: Sequence[SweepRow]) -> tuple[str, str] | None:
    """Return two requirements of which every design fails one, though some meet each; None where there are none.

    Parameters
    ----------
    rows : sequence of SweepRow
        As for :func:`explain_exclusion`.
    """
    solved = [row for row in rows if row.status is RowStatus.SOLVED]
    if not solved or any(row.holds for row in solved):
        return None
    names = sorted({name for row in solved for name in row.failed})
    pairs = [pair for pair in combinations(names, 2) if _exclude_each_other(solved, *pair)]
    if not pairs:
        return None
    return min(pairs, key=lambda pair: sum(set(pair) <= set(row.failed) for row in solved))


def find_nearest(rows: Sequence[SweepRow]) -> SweepRow:
    """Return the design that is nearest to passing, of at least one."""
    return min(rows, key=rank_nearness)


def rank_nearness(row: SweepRow) -> tuple[int, int, float, int]:
    """Return the sort key of designs that fail, the nearest to passing first."""
    return len(row.unjudged), len(row.failed), -row.figures.get("least_margin", 0.0), row.number


def _exclude_each_other(rows: Sequence[SweepRow], one: str, other: str) -> bool:
    """Return whether every design fails one of two requirements, and each is met by some.

    What a design meets is known only of those under as many loads as any: others were not solved beyond the first
    load under which they fail.
    """
    least = min(len(row.unjudged) for row in rows)
    whole = [row for row in rows if len(row.unjudged) == least]
    fails_one = all(one in row.failed or other in row.failed for row in rows)
    return fails_one and all(any(name not in row.failed for row in whole) for name in (one, other))
