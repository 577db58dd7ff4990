"""What to say where nothing passes: which two requirements exclude each other, and the nearest design."""

from collections.abc import Sequence
from dataclasses import replace

from ..sweep.exclusion import find_exclusive_pair, find_nearest, rank_nearness, write_nearest, write_pair
from ..sweep.plan import Job, StartFrom, plan_jobs
from ..sweep.run import SweepRunner
from ..sweep.sweep import Sweep
from ..sweep.sweep_row import RowStatus, SweepRow
from .evaluator import DesignEvaluator
from .proven_search import HEAVY, WEAK, ProvenSearch

SHORT_LATER = "passes on the mesh of the search; on that of the design too little is expected to be left"
_DESIGNS = "design that was solved"
_WHOLE = 16  # designs nearest to passing that are solved under all loads, so that what they meet is known


def explain_failure(sweep: Sweep, search: ProvenSearch, runner: SweepRunner) -> str:
    """Return in one sentence or two which requirements exclude each other, and the design that is nearest to passing.

    Parameters
    ----------
    sweep : Sweep
        Of all combinations.
    search : ProvenSearch
        That has solved or excluded all of them.
    runner : SweepRunner
        Solves the nearest under all loads, and of those that were excluded the lightest that are heavier than the limit
        and those nearest to the least force.
    """
    tried = search.evaluator.tried
    refuted = {each.job.key: fine for each, fine in search.refuted}
    rows = {key: each.row for key, each in tried.items()} | refuted
    near = sorted((key for key, row in rows.items() if row.failed), key=lambda key: rank_nearness(rows[key]))
    wanted = [tried[key].job for key in near[:_WHOLE] if key not in refuted] + _list_excluded(search)
    if wanted:
        variants = tuple(job.variant for job in wanted)
        thorough = replace(sweep, thorough=None, name=f"{sweep.name}, nearest", variants=variants)
        whole = DesignEvaluator(thorough, runner, search.evaluator.unchecked)
        solved = whole.solve(plan_jobs(thorough, start_from=StartFrom.FIRST))
        rows |= {job.key: each.row for job, each in zip(wanted, solved, strict=True)}
    return explain_rows(list(rows.values()))


def _list_excluded(search: ProvenSearch) -> list[Job]:
    """Return some designs that were excluded without a solve: the lightest too heavy, then the least weak."""
    heavy = [each.job for each in search.candidates if search.excluded.get(each.number) == HEAVY and not each.weak]
    weak = [each for each in search.candidates if search.excluded.get(each.number) == WEAK]
    weak.sort(key=lambda each: -min(part.strength / (part.required * part.force) for part in each.weak))
    return [*heavy[:_WHOLE], *(each.job for each in weak[:_WHOLE])]


def explain_rows(rows: Sequence[SweepRow]) -> str:
    """Return which two requirements none of the designs that were solved meets together, and the nearest; may be empty.

    Parameters
    ----------
    rows : sequence of SweepRow
        Of designs of which none passes.
    """
    failed = [row for row in rows if row.failed]
    if not failed:
        return ""
    return _write(rows, find_nearest(failed))


def explain_sizes(rows: Sequence[SweepRow], nearest: SweepRow | None) -> str:
    """Return the same of a search for sizes, on its mesh.

    Parameters
    ----------
    rows : sequence of SweepRow
        Of all designs that were tried and can be made.
    nearest : SweepRow or None
        That misses least; None if it can no longer be checked.

    Examples
    --------
    >>> kinds = [("back sag",), ("seam",)]
    >>> rows = [SweepRow(n, {"leg": f"{n}"}, RowStatus.SOLVED, failed=each) for n, each in enumerate(kinds, 1)]
    >>> print(explain_sizes(rows, rows[1]))
    No design that was solved meets both "back sag" and "seam": each fails one of them. Nearest: 2, which fails seam.
    """
    if nearest is None:
        return "Of no design that was tried can everything be checked that is checked of the design as written."
    if nearest.status is not RowStatus.SOLVED:
        return f"Nearest: {nearest.title}: {nearest.reason}"
    if not nearest.failed:
        return f"Nearest: {nearest.title}, which {SHORT_LATER}."
    return _write(rows, nearest)


def _write(rows: Sequence[SweepRow], nearest: SweepRow) -> str:
    """Return both sentences; the second alone where no two requirements exclude each other."""
    pair, end = find_exclusive_pair(rows), write_nearest(nearest.title, nearest)
    return end if pair is None else f"{write_pair(pair, _DESIGNS)} {end}"
