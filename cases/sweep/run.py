"""A sweep worked off: every design solved once, every result kept as soon as it is there."""

from collections import Counter, deque
from collections.abc import Callable, Iterator
from concurrent.futures import FIRST_COMPLETED, Future, wait
from dataclasses import dataclass, field
from pathlib import Path
from typing import NamedTuple

from .key import find_engine
from .plan import Job, plan_jobs
from .row import Row, Status
from .store import Heading, Store, open_store
from .sweep import Sweep
from .task import EngineError, Outcome, Shape, Task, solve_task
from .workers import Crew, Hands, SchedulerError, choose_crew

_TRIES = 3  # of a design over which a worker was lost
_AHEAD = 2  # tasks for each worker, so that none waits for the next


class SweepProgress(NamedTuple):
    """What a listener is told: designs done of how many, how many of them were kept from before, and the last one."""

    done: int
    total: int
    kept: int
    last: str


Listener = Callable[[SweepProgress], None]


def run_sweep(
    sweep: Sweep,
    file: Path,
    *,
    processes: int | None = None,
    scheduler: str | None = None,
    cold: bool = False,
    progress: Listener | None = None,
) -> list[Row]:
    """Solve every design of a sweep that has no result yet, and keep each result at once.

    Parameters
    ----------
    sweep : Sweep
        From :func:`~tautlay.cases.sweep.sweep_file.read_sweep`.
    file : Path
        SQLite file of results; one that is there is gone on with.
    processes : int or None
        How many on this machine; None is one for each core.
    scheduler : str or None
        Address of a dask scheduler that does the work instead.
    cold : bool
        Start every design from the flat cloth.
    progress : callable or None
        Told a :class:`SweepProgress` after each design.

    Returns
    -------
    list of Row
        Every design in order; one that cannot be made or finds no rest says why.

    Raises
    ------
    StoreError
        If the file cannot be used or written.
    SchedulerError
        If the cluster cannot be used.

    Notes
    -----
    A design that differs in one choice from one before it starts from that one's shape, if person, load and flat body
    are the same. Which one that is follows from the sweep file alone, so results do not depend on who was done first.
    """
    return work_off(sweep, plan_jobs(sweep, cold=cold), file, Hands(processes, scheduler), progress)


def work_off(sweep: Sweep, jobs: list[Job], file: Path, hands: Hands, progress: Listener | None = None) -> list[Row]:
    """Solve the jobs of a sweep that have no result yet; see :func:`run_sweep`."""
    with open_store(file, make=True) as store:
        store.register(_describe(sweep), ((j.variant.number, _list_labels(sweep, j), j.key) for j in jobs))
        queue = _Queue(jobs, store, sweep.hot_spots, progress)
        if queue.ready:
            with choose_crew(hands) as crew:
                _work(queue, crew)
        return store.list_rows(sweep.name)


def _describe(sweep: Sweep) -> Heading:
    """Return what is kept of the sweep itself."""
    names = tuple(choice.name for choice in sweep.choices)
    base = sweep.base
    return Heading(
        sweep.name, str(sweep.path), sweep.text, base.text, names, find_engine(), str(base.units), str(base.load)
    )


def _list_labels(sweep: Sweep, job: Job) -> dict[str, str]:
    """Return the labels of what was chosen, by choice."""
    return {choice.name: option.label for choice, option in zip(sweep.choices, job.variant.options, strict=True)}


@dataclass
class _Queue:
    """Jobs on their way: those that wait for a shape, those that can be solved, and what is done."""

    jobs: list[Job]
    store: Store
    hot_spots: bool
    progress: Listener | None
    ready: deque[Job] = field(default_factory=deque)
    waiting: dict[str, list[Job]] = field(default_factory=dict)
    lost: Counter[str] = field(default_factory=Counter)

    def __post_init__(self) -> None:
        known = self.store.list_keys()
        unique = {job.key: job for job in self.jobs}
        self.by_key, self.total = unique, len(unique)
        self.done = self.kept = sum(key in known for key in unique)
        for job in unique.values():
            if job.key in known:
                continue
            if job.design is None:
                self.finish(Outcome(job.key, Status.REFUSED, job.refusal))
            elif job.parent in unique and job.parent not in known:
                self.waiting.setdefault(job.parent, []).append(job)
            else:
                self.ready.append(job)

    def make_task(self, job: Job) -> Task:
        """Return the task of a job whose parent is done; one without a rest hands down its own start."""
        assert job.design is not None
        return Task(job.key, find_engine(), job.design, self.hot_spots, self._find_start(job.parent))

    def _find_start(self, parent: str) -> Shape | None:
        while parent:
            job, found = self.by_key[parent], self.store.find_shape(parent)
            if found is not None and job.design is not None:
                return Shape(job.design, *found)
            parent = job.parent
        return None

    def take(self, running: list[Job], most: int) -> Iterator[Job]:
        """Yield jobs until ``most`` are running; one over which a worker was lost runs alone, to show who ends it."""
        count = len(running)
        if any(job.key in self.lost for job in running):
            return
        while self.ready and count < most:
            alone = self.ready[0].key in self.lost
            if alone and count:
                return
            yield self.ready.popleft()
            if alone:
                return
            count += 1

    def finish(self, outcome: Outcome) -> None:
        """Keep an outcome and let go who waited for it."""
        self.store.save_outcome(outcome)
        self.ready.extend(self.waiting.pop(outcome.key, []))
        self.done += 1
        if self.progress is not None:
            job = self.by_key[outcome.key]
            title = ", ".join(option.label for option in job.variant.options)
            self.progress(SweepProgress(self.done, self.total, self.kept, title))

    def retry(self, job: Job) -> None:
        """Put a job back over which a worker was lost; give it up after a few times."""
        self.lost[job.key] += 1
        if self.lost[job.key] < _TRIES:
            self.ready.appendleft(job)
            return
        words = f"the process that solved it ended {_TRIES} times; perhaps there was too little memory. Run it again."
        self.finish(Outcome(job.key, Status.LOST, words))


def _work(queue: _Queue, crew: Crew) -> None:
    """Hand out jobs until none is left; where a worker was lost, hire others and hand out anew."""
    running: dict[Future[Outcome], Job] = {}
    executor = crew.hire()
    while queue.ready or running:
        try:
            for job in queue.take(list(running.values()), _AHEAD * crew.size):
                running[executor.submit(solve_task, queue.make_task(job))] = job
            done, _ = wait(running, return_when=FIRST_COMPLETED)
            for future in done:
                queue.finish(future.result())
                del running[future]
        except crew.losses:
            _save(running, queue, crew)
            executor = crew.hire()
        except EngineError as error:
            raise SchedulerError(str(error)) from None


def _save(running: dict[Future[Outcome], Job], queue: _Queue, crew: Crew) -> None:
    """Keep what was finished before a worker was lost, and put back the rest."""
    unfinished: tuple[type[BaseException], ...] = (*crew.losses, TimeoutError)
    for future, job in reversed(running.items()):
        try:
            queue.finish(future.result(timeout=0.0))
        except unfinished:
            queue.retry(job)
    running.clear()
