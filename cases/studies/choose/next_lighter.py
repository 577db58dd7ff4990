"""Why nothing lighter was chosen: for each thing that is open the next lighter value, and what fails there."""

from collections.abc import Iterator, Sequence

from ..sweep.plan import Job
from .outcome import NextLighter
from .proven_search import SHAPE, WEAK, ProvenSearch


def list_next_lighter(search: ProvenSearch, jobs: Sequence[Job]) -> tuple[NextLighter, ...]:
    """Return of each thing that is open the next lighter value with all else as chosen, and why it was not taken.

    Parameters
    ----------
    search : ProvenSearch
        That has found something.
    jobs : sequence of Job
        All combinations.
    """
    assert search.best is not None and search.ceiling is not None  # noqa: PT018 - for the type checker alone
    chosen = search.best.job.variant
    found = []
    for place, choice in enumerate(search.evaluator.sweep.choices):
        others = [job for job in jobs if _differs_alone(job.variant.picks, chosen.picks, place)]
        lighter = [each for each in _weigh(search, others) if each[0] < search.ceiling]
        if lighter:
            packed, job = max(lighter, key=lambda each: each[0])
            labels = chosen.options[place].label, job.variant.options[place].label
            found.append(NextLighter(choice.name, *labels, search.ceiling - packed, _explain(search, job)))
    return tuple(found)


def _differs_alone(picks: tuple[int, ...], chosen: tuple[int, ...], place: int) -> bool:
    """Return whether two designs differ in one choice and no other."""
    return [number for number, (one, other) in enumerate(zip(picks, chosen, strict=True)) if one != other] == [place]


def _weigh(search: ProvenSearch, jobs: Sequence[Job]) -> Iterator[tuple[float, Job]]:
    """Yield weight, kg, and design of those that can be made."""
    for job in jobs:
        candidate = search.by_number.get(job.variant.number)
        if candidate is not None:
            yield candidate.packed, job


def _explain(search: ProvenSearch, job: Job) -> str:
    """Return why a design was not taken."""
    number, evaluator = job.variant.number, search.evaluator
    for tried, row in search.refuted:
        if tried.job.key == job.key:
            return evaluator.explain(row)
    if number in search.seen:
        return evaluator.explain(evaluator.tried[job.key].row)
    candidate = search.by_number[number]
    if search.excluded.get(number) == WEAK:
        weak = candidate.weak[0]
        return f"{weak.part}: strength {weak.strength:.0f} N, at least {weak.required * weak.force:.0f} N are required"
    if search.excluded.get(number) == SHAPE:
        return "does not lie or hang as required, whatever its strength"
    return "not solved"
