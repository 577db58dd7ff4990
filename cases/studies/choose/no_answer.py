"""What to say where nothing passes: which two requirements exclude each other, and the nearest design."""

from dataclasses import replace

from ..sweep.exclusion import find_exclusive_pair, find_nearest, rank_nearness
from ..sweep.plan import StartFrom, plan_jobs
from ..sweep.run import SweepRunner
from ..sweep.sweep import Sweep
from .evaluator import DesignEvaluator
from .proven_search import HEAVY, ProvenSearch

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
        Solves the nearest under all loads, and the lightest of those that are heavier than the limit.
    """
    rows = {key: tried.row for key, tried in search.evaluator.tried.items()}
    failed = [each for each in search.evaluator.tried.values() if each.row.failed]
    near = [each.job for each in sorted(failed, key=lambda each: rank_nearness(each.row))[:_WHOLE]]
    heavy = [each.job for each in search.candidates if search.excluded.get(each.number) == HEAVY and not each.weak]
    wanted = [*near, *heavy[:_WHOLE]]
    if not wanted:
        return ""
    variants = tuple(job.variant for job in wanted)
    thorough = replace(sweep, thorough=None, name=f"{sweep.name}, nearest", variants=variants)
    evaluator = DesignEvaluator(thorough, runner, search.evaluator.unchecked)
    whole = evaluator.solve(plan_jobs(thorough, start_from=StartFrom.FIRST))
    rows |= {job.key: each.row for job, each in zip(wanted, whole, strict=True)}
    nearest = find_nearest([each.row for each in whole])
    end = f"Nearest: {nearest.title}, which fails {'; '.join(nearest.failed)}."
    pair = find_exclusive_pair(list(rows.values()))
    if pair is None:
        return end
    return f'No design that was solved meets both "{pair[0]}" and "{pair[1]}": each fails one of them. {end}'
