"""The designs of a sweep on their way from waiting to done."""

from collections import Counter, deque
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from .plan import Job
from .result_key import find_engine
from .store import SweepStore
from .sweep_row import RowStatus
from .task import StartShape, Task, TaskResult

_TRIES = 5  # of a design over which a worker was lost


class SweepProgress(NamedTuple):
    """News for a listener: designs done of how many, how many of them were stored before, and the last one."""

    done: int
    total: int
    kept: int
    last: str


SweepCallback = Callable[[SweepProgress], None]


@dataclass
class Queue:
    """Jobs on their way: those that wait for a shape, those that can be solved, and what is done."""

    jobs: list[Job]
    store: SweepStore
    hot_spots: bool
    progress: SweepCallback | None
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
                self.finish(TaskResult(job.key, RowStatus.REFUSED, job.refusal))
            elif job.start_key in unique and job.start_key not in known:
                self.waiting.setdefault(job.start_key, []).append(job)
            else:
                self.ready.append(job)

    def make_task(self, job: Job) -> Task:
        """Return the task of a job whose start_key is done; one without an equilibrium passes on its own start."""
        assert job.design is not None
        start = self._find_start(job.start_key)
        return Task(job.key, find_engine(), job.design, self.hot_spots, start, job.cases, job.whole)

    def _find_start(self, start_key: str) -> StartShape | None:
        while start_key:
            job, found = self.by_key[start_key], self.store.find_shape(start_key)
            if found is not None and job.design is not None:
                return StartShape(job.design, job.cases[0], *found)
            start_key = job.start_key
        return None

    def take(self, running: list[Job], most: int) -> Iterator[Job]:
        """Yield jobs until ``most`` are running; one whose worker was lost runs alone, to find the cause."""
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

    def finish(self, outcome: TaskResult) -> None:
        """Store an outcome and release the jobs that waited for it."""
        self.store.save_outcome(outcome)
        if outcome.status is not RowStatus.LOST:  # else waiting jobs stay open: their start would be another one
            self.ready.extend(self.waiting.pop(outcome.key, []))
        self.done += 1
        if self.progress is not None:
            job = self.by_key[outcome.key]
            title = ", ".join(option.label for option in job.variant.options)
            self.progress(SweepProgress(self.done, self.total, self.kept, title))

    def put_back(self, job: Job) -> None:
        """Take a job back that was not submitted after all."""
        self.ready.appendleft(job)

    def retry(self, job: Job) -> None:
        """Put a job back whose worker was lost; abandon it after a few times."""
        self.lost[job.key] += 1
        if self.lost[job.key] < _TRIES:
            self.put_back(job)
            return
        words = f"its worker process ended {_TRIES} times, perhaps for lack of memory. Run it again."
        self.finish(TaskResult(job.key, RowStatus.LOST, words))
