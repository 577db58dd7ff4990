"""Runs a sweep: every design is solved once, every result is stored at once."""

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Executor, Future, wait
from contextlib import closing, contextmanager
from pathlib import Path
from typing import TypeVar

from ....materials import escape_text
from .plan import Job, StartFrom, plan_jobs
from .queue import Queue, SweepCallback
from .result_key import find_engine
from .store import SweepRecord, SweepStore, open_store
from .sweep import Sweep
from .sweep_row import SweepRow
from .task import EngineError, TaskResult, solve_task
from .worker_pool import PoolSettings, SchedulerError, WorkerPool, choose_pool

Q = TypeVar("Q")
A = TypeVar("A")
_TRIES = 5  # of questions over which a worker was lost
_AHEAD = 2  # tasks for each worker, so that none waits for the next


def run_sweep(
    sweep: Sweep,
    file: Path,
    *,
    processes: int | None = None,
    scheduler: str | None = None,
    cold: bool = False,
    progress: SweepCallback | None = None,
) -> list[SweepRow]:
    """Solve every design of a sweep that has no result yet, and keep each result at once.

    Parameters
    ----------
    sweep : Sweep
        From :func:`~tautlay.cases.studies.sweep.sweep_file.read_sweep`.
    file : Path
        SQLite file of results; an existing one is continued.
    processes : int or None
        How many on this machine; None is one for each core.
    scheduler : str or None
        Address of a dask scheduler that does the work instead.
    cold : bool
        Start every design from the flat cloth.
    progress : callable or None
        Receives a :class:`SweepProgress` after each design.

    Returns
    -------
    list of SweepRow
        Every design in order; one that cannot be made or has no equilibrium says why.

    Raises
    ------
    StoreError
        If the file cannot be used or written.
    SchedulerError
        If the cluster cannot be used.

    Notes
    -----
    The work is done in processes of their own, which read the script that calls this: call it under
    ``if __name__ == "__main__":``, else each of them would start the sweep anew, and Python ends them. With
    ``processes=1`` there are none.

    A design that differs in one choice from one before it starts from that one's shape, if person, load and flat body
    are the same. Which one that is follows from the sweep file alone, so results do not depend on which design was done
    first.
    """
    jobs = plan_jobs(sweep, start_from=StartFrom.COLD if cold else StartFrom.NEAREST)
    with open_runner(file, PoolSettings(processes, scheduler)) as runner:
        return runner.run_jobs(sweep, jobs, progress)


class SweepRunner:
    """A file of results and the workers that fill it, started when the first design is to be solved.

    Parameters
    ----------
    store : SweepStore
        Where results are stored.
    settings : PoolSettings
        Where the work is done.
    """

    def __init__(self, store: SweepStore, settings: PoolSettings) -> None:
        self.store, self.settings = store, settings
        self.pool: WorkerPool | None = None
        self.executor: Executor | None = None

    def run_jobs(self, sweep: Sweep, jobs: list[Job], progress: SweepCallback | None = None) -> list[SweepRow]:
        """Solve the jobs of a sweep that have no result yet, and return all its rows."""
        self.store.register(_describe(sweep), ((j.variant.number, sweep.list_labels(j.variant), j.key) for j in jobs))
        queue = Queue(jobs, self.store, sweep.hot_spots, progress)
        if queue.ready:
            self._work(queue)
            self.store.verify()
        return self.store.list_rows(sweep.name)

    def ask(self, function: Callable[[Q], A], questions: Sequence[Q]) -> list[A]:
        """Let workers answer questions whose answers are not stored, in their order.

        Parameters
        ----------
        function : callable
            Of a module, answers one.
        questions : sequence
            What is asked.
        """
        pool, executor = self._start()
        for _ in range(_TRIES):
            try:
                return [each.result() for each in [executor.submit(function, question) for question in questions]]
            except pool.losses:
                executor = self.executor = pool.start()
        raise SchedulerError(f"a worker process ended {_TRIES} times, perhaps for lack of memory. Run it again.")

    def close(self) -> None:
        """Stop all workers, whatever they are doing."""
        if self.pool is not None:
            self.pool.stop()

    def _start(self) -> tuple[WorkerPool, Executor]:
        """Return the workers, started if they were not."""
        self.pool = self.pool or choose_pool(self.settings)
        self.executor = self.executor or self.pool.start()
        return self.pool, self.executor

    def _work(self, queue: Queue) -> None:
        """Submit jobs until none is left; where a worker was lost, start others and submit again."""
        pool, _ = self._start()
        running: dict[Future[TaskResult], Job] = {}
        while queue.ready or running:
            try:
                self._submit(queue, running, _AHEAD * pool.size)
                done, _ = wait(running, return_when=FIRST_COMPLETED)
                for future in done:
                    queue.finish(future.result())
                    del running[future]
            except pool.losses:
                _save(running, queue, pool)
                self.executor = pool.start()
            except EngineError as error:
                raise SchedulerError(str(error)) from None

    def _submit(self, queue: Queue, running: dict["Future[TaskResult]", Job], most: int) -> None:
        """Submit jobs until ``most`` are running."""
        assert self.executor is not None
        for job in queue.take(list(running.values()), most):
            try:
                running[self.executor.submit(solve_task, queue.make_task(job))] = job
            except BrokenPipeError:
                queue.retry(job)  # counted, lest workers that cannot start are started for ever
                raise
            except BaseException:
                queue.put_back(job)
                raise


def _save(running: dict["Future[TaskResult]", Job], queue: Queue, pool: WorkerPool) -> None:
    """Store what was finished before a worker was lost, and put back the rest."""
    unfinished: tuple[type[BaseException], ...] = (*pool.losses, TimeoutError)
    for future, job in reversed(running.items()):
        try:
            queue.finish(future.result(timeout=0.0))
        except unfinished:
            queue.retry(job)
    running.clear()


@contextmanager
def open_runner(file: Path, settings: PoolSettings) -> Iterator[SweepRunner]:
    """Give a runner that fills a file of results; its workers are stopped at the end of the block.

    Raises
    ------
    StoreError, SchedulerError
        As :func:`run_sweep`.
    """
    with open_store(file, make=True) as store, closing(SweepRunner(store, settings)) as runner:
        yield runner


def _describe(sweep: Sweep) -> SweepRecord:
    """Return the record of the sweep itself."""
    names = tuple(choice.name for choice in sweep.choices)
    base = sweep.base
    return SweepRecord(
        sweep.name,
        escape_text(str(sweep.path.resolve())),
        sweep.text,
        base.text,
        names,
        find_engine(),
        str(base.units),
        ", ".join(dict.fromkeys(str(case.load) for case in sweep.list_cases(base))),
    )
