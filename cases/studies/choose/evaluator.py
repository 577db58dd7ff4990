"""Solves designs of a search, stores each at once, and keeps all that was solved as one sweep."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from ....materials.short_repr import write_repr
from ...judging.checks.check import write_utilisation
from ..sweep.listed_sweep import list_designs
from ..sweep.plan import Job
from ..sweep.queue import SweepProgress
from ..sweep.run import SweepRunner
from ..sweep.sweep import Sweep
from ..sweep.sweep_row import RowStatus, SweepRow

DoneCallback = Callable[[int], None]


class Tried(NamedTuple):
    """A design that was solved, and its result."""

    job: Job
    row: SweepRow

    def __repr__(self) -> str:
        return write_repr(self, repr(self.row))


class DesignEvaluator:
    """Solves designs of one sweep.

    Parameters
    ----------
    sweep : Sweep
        Whose choices they are.
    runner : SweepRunner
        Solves and stores them.
    unchecked : frozenset of str
        Parts that the design as written leaves unchecked, too; what leaves more unchecked does not pass.
    done : callable or None
        Receives how many of a batch are done.
    """

    def __init__(
        self, sweep: Sweep, runner: SweepRunner, unchecked: frozenset[str], done: DoneCallback | None = None
    ) -> None:
        self.sweep, self.runner, self.unchecked, self.done = sweep, runner, unchecked, done
        self.tried: dict[str, Tried] = {}  # by key of the result

    @property
    def solved(self) -> int:
        """How many designs were tried."""
        return len(self.tried)

    def passes(self, row: SweepRow) -> bool:
        """Return whether a design meets every requirement, every required case was looked at, and no check is lost."""
        return row.earned and not row.list_lost(self.unchecked)

    def explain(self, row: SweepRow) -> str:
        """Return why a design does not pass and by how much, empty where it does.

        Parameters
        ----------
        row : SweepRow
            Of a design that was solved, or could not be.
        """
        if row.status is not RowStatus.SOLVED:
            return row.reason
        if row.failed:
            used = row.figures.get("worst_used")
            return row.failed[0] + (f", {write_utilisation(1.0 / used)} used" if used else "")
        if lost := row.list_lost(self.unchecked):
            return f"can no longer be checked: {', '.join(lost)}"
        return f"not judged: {', '.join(row.unjudged)}" if row.unjudged else ""

    def solve(self, jobs: Sequence[Job], others: Sequence[Job] = ()) -> list[Tried]:
        """Return designs with their results, solved as far as they were not.

        Parameters
        ----------
        jobs : sequence of Job
            What is asked.
        others : sequence of Job
            From whose shapes they start.
        """
        wanted = {job.key: job for job in (*others, *jobs)}
        if wanted.keys() - self.tried.keys():
            self._run(wanted)
        return [self.tried[job.key] for job in jobs]

    def _run(self, wanted: dict[str, Job]) -> None:
        """Solve what was not, and register all that was tried as one sweep."""
        jobs = {key: each.job for key, each in self.tried.items()} | wanted
        listed = list_designs(self.sweep, ((job.variant.picks, job.variant.options) for job in jobs.values()))
        numbered = [
            Job(variant, job.key, job.design, job.refusal, job.start_key, job.cases, job.whole)
            for variant, job in zip(listed.variants, jobs.values(), strict=True)
        ]
        rows = self.runner.run_jobs(listed, numbered, self._tell)
        for job, row in zip(jobs.values(), rows, strict=True):
            self.tried[job.key] = Tried(job, row)

    def _tell(self, news: SweepProgress) -> None:
        """Pass on that one more is done."""
        if self.done is not None:
            self.done(news.done - news.kept)
