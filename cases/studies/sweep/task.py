"""Solves one design of a sweep, in any process."""

import time
import traceback
from typing import NamedTuple

import numpy as np
from threadpoolctl import threadpool_limits

from ....hammock import HammockError
from ....materials.short_repr import write_repr, write_value
from ....meshing import Fineness, build_model
from ...design import Design, find_load_factor
from ...judging.cloth.hot_spot import RIM
from ...result import Result
from ...solving.mesh_sequence import Start
from ...solving.no_equilibrium import NoEquilibriumError
from ...solving.solution import solve_equilibrium
from .result_key import find_engine
from .sweep_row import RowStatus
from .sweep_values import SweepValues, measure_result

_NOTHING = SweepValues({}, "", (), ())


class StartShape(NamedTuple):
    """A shape that was found: its design, the distance of its trees, m, and the positions of its nodes, m, as bytes."""

    design: Design
    tree_distance: float
    positions: bytes

    def __repr__(self) -> str:
        return write_repr(self, self.design.name, f"trees {write_value(self.tree_distance, 'length')} apart")


class Task(NamedTuple):
    """A design to be solved.

    Parameters
    ----------
    key : str
        Of its result.
    engine : str
        Version that has to compute it; another one raises.
    design : Design
        With its mesh size.
    hot_spots : bool
        As for ``solve_equilibrium``.
    start : StartShape or None
        Of a design with the same body and person.
    """

    key: str
    engine: str
    design: Design
    hot_spots: bool
    start: StartShape | None

    def __repr__(self) -> str:
        return write_repr(self, self.design.name, self.key)


class TaskResult(NamedTuple):
    """Result of a task.

    Parameters
    ----------
    key : str
        Of the task.
    status : RowStatus
        How it ended.
    reason : str
        Why it is not solved.
    measurement : SweepValues
        What is stored of it; nothing where it is not solved.
    started : str
        ``cold`` from the flat cloth, ``warm`` from another shape, ``cold after warm`` where that failed.
    tree_distance : float
        m.
    positions : bytes
        Of the nodes, m.
    seconds : float
        Of the processor.
    detail : str
        Where in the program it crashed.
    """

    key: str
    status: RowStatus
    reason: str = ""
    measurement: SweepValues = _NOTHING
    started: str = ""
    tree_distance: float = 0.0
    positions: bytes = b""
    seconds: float = 0.0
    detail: str = ""

    def __repr__(self) -> str:
        return write_repr(self, self.key, str(self.status), self.reason, f"{self.seconds:.1f} s")


class EngineError(Exception):
    """A worker that would compute with another version of the program."""


def solve_task(task: Task) -> TaskResult:
    """Solve a design and evaluate it; whatever goes wrong is part of the result.

    Raises
    ------
    EngineError
        If this process runs another version of the program, or other libraries, than the one that asks.
    """
    if find_engine() != task.engine:
        raise EngineError(
            f"a worker runs version {find_engine()} and the sweep version {task.engine}. Install the same on both."
        )
    begun = time.process_time()
    try:
        with threadpool_limits(1):  # as many processes as cores are at work, and sums come out alike everywhere
            result, started = _solve(task)
            measurement = measure_result(result)
    except (NoEquilibriumError, HammockError) as error:
        return TaskResult(task.key, RowStatus.NO_REST, str(error), seconds=time.process_time() - begun)
    except Exception as error:
        words = f"the program crashed: {type(error).__name__}: {error}"
        return TaskResult(task.key, RowStatus.BROKEN, words, detail=traceback.format_exc())
    seconds = time.process_time() - begun
    positions = np.ascontiguousarray(result.state.positions, dtype=np.float64).tobytes()
    distance = result.model.tree_distance
    return TaskResult(task.key, RowStatus.SOLVED, "", measurement, started, distance, positions, seconds)


def _solve(task: Task) -> tuple[Result, str]:
    """Return the result and how it was started."""
    if task.start is None:
        return solve_equilibrium(task.design, hot_spots=task.hot_spots), "cold"
    try:
        start = _restore(task.start, task.hot_spots)
        return solve_equilibrium(task.design, hot_spots=task.hot_spots, start=start), "warm"
    except NoEquilibriumError:
        return solve_equilibrium(task.design, hot_spots=task.hot_spots), "cold after warm"


def _restore(shape: StartShape, hot_spots: bool) -> Start:
    """Return a kept shape with the model it belongs to."""
    design = shape.design
    fineness = Fineness(design.mesh_size, RIM if hot_spots else None)
    factor = find_load_factor(design, design.load)
    model = build_model(
        design.hammock, design.person, fineness, tree_distance=shape.tree_distance, load=design.load, factor=factor
    )
    return Start(model, np.frombuffer(shape.positions).reshape(-1, 3), keeps_trees=False)
