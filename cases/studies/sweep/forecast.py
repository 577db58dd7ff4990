"""Time and disk space that a sweep will need, estimated before anything is solved."""

import shutil
from collections.abc import Sequence
from pathlib import Path
from statistics import median
from typing import NamedTuple

from .plan import Job
from .store import open_store
from .store_file import StoreError
from .sweep import Sweep

# Processor time, measured on two cores of an ordinary machine with 1,400 triangles and a person in contact.
_COLD, _WARM = 0.9e-3, 0.35e-3  # s for each triangle
_CHECKS, _HOT_SPOTS = 0.15, 0.4  # s for each design
_BYTES = 40  # for each triangle: a shape, its copy in the journal
_ROW = 10_000  # bytes of a row and its copy
_SPARE = 20_000_000  # bytes


class Forecast(NamedTuple):
    """How many designs have no result yet, and the time they will take, s."""

    left: int
    seconds: float


def foretell_work(sweep: Sweep, jobs: Sequence[Job], file: Path, workers: int) -> Forecast:
    """Return how many designs are left and how long they take, estimated from earlier designs where there are some.

    Parameters
    ----------
    sweep : Sweep
        What is solved.
    jobs : sequence of Job
        Its designs.
    file : Path
        Of results; it need not be there.
    workers : int
        How many work at once.
    """
    known, spent = set[str](), list[float]()
    if file.is_file() and file.stat().st_size:
        with open_store(file, make=True) as store:  # it may be one whose tables found no room on a full disk
            known, spent = store.list_keys(), store.find_seconds()
    left = [job for job in {job.key: job for job in jobs}.values() if job.design is not None and job.key not in known]
    if spent:
        return Forecast(len(left), len(left) * median(spent) / workers)
    checks = _CHECKS + (_HOT_SPOTS if sweep.hot_spots else 0.0)
    seconds = sum(_foretell_design(job, checks, sweep.triangles) for job in left)
    return Forecast(len(left), seconds / workers)


def _foretell_design(job: Job, checks: float, triangles: int) -> float:
    """Return the time of one design, s: the first case from its start, each other and each push from a shape."""
    pushes = sum(case.load.in_contact for case in job.cases)
    solves = (_WARM if job.start_key else _COLD) + _WARM * (len(job.cases) - 1 + pushes)
    return len(job.cases) * checks + triangles * solves


def check_room(sweep: Sweep, count: int, file: Path) -> None:
    """Refuse a disk on which the results of ``count`` designs have no room.

    Raises
    ------
    StoreError
        One sentence.
    """
    above = next(parent for parent in file.absolute().parents if parent.is_dir())
    needed = count * (_ROW + _BYTES * sweep.triangles) + _SPARE
    free = shutil.disk_usage(above).free
    if free < needed:
        raise StoreError(
            f"{file}: {count} results need up to {needed / 1e6:.0f} MB, but only {free / 1e6:.0f} MB are free. Make "
            "space, or choose a file on another disk with --output."
        )
