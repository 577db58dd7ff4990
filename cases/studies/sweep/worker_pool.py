"""Worker pools of a sweep: processes on this machine, or workers of a cluster."""

import logging
import os
import signal
import threading
from collections.abc import Callable
from concurrent.futures import BrokenExecutor, CancelledError, Executor, Future, ProcessPoolExecutor
from multiprocessing import connection, get_context, parent_process, resource_tracker
from typing import Any, NamedTuple, Protocol, TypeVar

from ....materials import escape_text
from ...design_issue import InputError

T = TypeVar("T")
PATIENCE = 10.0  # s, in which a scheduler answers


class SchedulerError(InputError):
    """A cluster that cannot be reached or used; the message says why."""


class PoolSettings(NamedTuple):
    """Number of processes here, None is one for each core; or the address of a dask scheduler."""

    processes: int | None = None
    scheduler: str | None = None


class WorkerPool(Protocol):
    """Gives executors: the first, and a new one where one broke."""

    size: int
    losses: tuple[type[BaseException], ...]  # that a worker was lost

    def start(self) -> Executor:
        """Return an executor that works."""

    def stop(self) -> None:
        """End the work that is going on."""


class _SerialExecutor(Executor):
    """Runs what is submitted immediately, in this process."""

    def submit(self, fn: Callable[..., T], /, *args: object, **kwargs: object) -> "Future[T]":
        """Return the finished future of a call."""
        future: Future[T] = Future()
        try:
            future.set_result(fn(*args, **kwargs))
        except Exception as error:
            future.set_exception(error)
        return future


class SerialPool:
    """Only the calling process, one design after the other."""

    size = 1
    losses: tuple[type[BaseException], ...] = ()

    def start(self) -> Executor:
        """Return an executor that works here."""
        return _SerialExecutor()

    def stop(self) -> None:
        """Nothing is running."""


class ProcessPool:
    """Processes on this machine.

    Parameters
    ----------
    size : int
        How many.
    """

    losses: tuple[type[BaseException], ...] = (BrokenExecutor, BrokenPipeError)  # the second while one starts

    def __init__(self, size: int) -> None:
        self.size = size
        self.pool: ProcessPoolExecutor | None = None
        self.pipe: Any = None  # what a broken pipe did before

    def start(self) -> Executor:
        """Return new processes in place of those before."""
        self.stop()
        self.pipe = _outlive_workers()
        try:
            # spawned, not forked: a copy of a program with threads may stand still
            self.pool = ProcessPoolExecutor(self.size, mp_context=get_context("spawn"), initializer=_begin_work)
        except BrokenPipeError:
            raise SchedulerError(
                "a worker process ended while it started. Finished designs are stored; run it again."
            ) from None
        return self.pool

    def stop(self) -> None:
        """End all processes, whatever they are doing."""
        if self.pool is None:
            return
        for worker in list((self.pool._processes or {}).values()):  # nothing public names them before Python 3.14
            worker.terminate()
        self.pool.shutdown(cancel_futures=True)
        self.pool = None
        if self.pipe is not None:
            signal.signal(signal.SIGPIPE, self.pipe)
            self.pipe = None


class ClusterPool:
    """Workers that a dask scheduler knows.

    Parameters
    ----------
    address : str
        Of the scheduler, such as ``tcp://10.0.0.4:8786``.

    Raises
    ------
    SchedulerError
        If dask.distributed is not installed, nobody answers, or there is no worker.
    """

    def __init__(self, address: str) -> None:
        try:
            from distributed import KilledWorker
        except ImportError:
            raise SchedulerError(
                "a cluster needs dask.distributed. Install it: `pip install dask distributed`."
            ) from None
        self.address, self.client = address, _connect(address)
        self.losses: tuple[type[BaseException], ...] = (KilledWorker, CancelledError)
        self.size = sum(self.client.nthreads().values())
        if self.size == 0:
            self.client.close()
            raise SchedulerError(f"the scheduler {address} has no workers. Start some with `dask worker {address}`.")

    def start(self) -> Executor:
        """Return an executor on all workers."""
        if self.client.status != "running":
            raise SchedulerError(
                f"the scheduler {self.address} disappeared. Finished designs are stored; run it again."
            )
        executor: Executor = self.client.get_executor(pure=False)
        return executor

    def stop(self) -> None:
        """Let the cluster go; it stays up for others."""
        self.client.close()


def _connect(address: str) -> Any:  # noqa: ANN401 - the client of a package that is not always there
    """Return a client of the scheduler at an address; SchedulerError if nobody answers."""
    from distributed import Client

    logging.getLogger("distributed.client").setLevel(logging.CRITICAL)  # it logs tracebacks of what is reported here
    client: Future[Any] = Future()

    def connect(make: Any = Client) -> None:  # noqa: ANN401
        try:
            client.set_result(make(address, timeout=PATIENCE))
        except Exception as error:
            client.set_exception(error)

    # beside this thread: something that takes the call but never says a word is waited for without end
    threading.Thread(target=connect, daemon=True).start()
    try:
        return client.result(timeout=2 * PATIENCE)
    except Exception as error:  # what is no scheduler may answer anything, and the client then fails in any way
        reason = str(error).split("\n")[0].rstrip(".") or "no message"
        raise SchedulerError(
            escape_text(
                f"the scheduler {address} does not answer ({reason}). Start one with `dask scheduler` and use the "
                "address it prints."
            )
        ) from None


def count_cores() -> int:
    """Return how many cores this program may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def choose_pool(settings: PoolSettings) -> WorkerPool:
    """Return the pool that does the work."""
    if settings.scheduler is not None:
        return ClusterPool(settings.scheduler)
    size = settings.processes or count_cores()
    return ProcessPool(size) if size > 1 else SerialPool()


def _outlive_workers() -> Any:  # noqa: ANN401 - a handler of signals
    """Let writing to a worker that died be an error, where the command has made it the end; return what it was before.

    The process that cleans up after all workers must outlive a terminal that is closed, too.
    """
    if hasattr(signal, "SIGPIPE") and threading.current_thread() is threading.main_thread():
        mask = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGHUP})  # a new process takes that over
        resource_tracker.ensure_running()
        signal.pthread_sigmask(signal.SIG_SETMASK, mask)
        return signal.signal(signal.SIGPIPE, signal.SIG_IGN)
    return None


def _begin_work() -> None:
    """Prepare a process: interrupts are the parent's business, and without a parent there is no work."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    parent = parent_process()
    if parent is not None:
        threading.Thread(target=_end_with, args=(parent.sentinel,), daemon=True).start()


def _end_with(sentinel: int) -> None:
    """End this process as soon as its parent has ended, however that came about."""
    connection.wait([sentinel])
    os._exit(1)
