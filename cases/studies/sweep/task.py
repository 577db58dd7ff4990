"""Solves one design of a sweep, in any process."""

import time
import traceback
from typing import NamedTuple

import numpy as np
from threadpoolctl import threadpool_limits

from ....materials.short_repr import write_repr, write_value
from ....meshing import Fineness, build_model
from ...design import Design, find_load_factor
from ...judging.cloth.hot_spot import RIM
from ...judging.verdict.terms import JudgedCase
from ...solving.mesh_sequence import Start
from ..judge.case_solver import SolvedCase, solve_cases
from .result_key import find_engine
from .sweep_row import RowStatus
from .sweep_values import SweepValues, measure_cases

_NOTHING = SweepValues({}, "", (), ())


class StartShape(NamedTuple):
    """A shape that was found: design and case, distance of the trees, m, and positions of the nodes, m, as bytes."""

    design: Design
    case: JudgedCase
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
    cases : tuple of JudgedCase
        People and loads under which it is solved.
    whole : bool
        Whether all of them are solved; else the first that fails is the last.
    """

    key: str
    engine: str
    design: Design
    hot_spots: bool
    start: StartShape | None
    cases: tuple[JudgedCase, ...]
    whole: bool = True

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
            solved = solve_task_cases(task)
            found = [each for each in solved if each.result is not None]
            measurement = measure_cases(task.design, solved) if found else _NOTHING
    except Exception as error:
        words = f"the program crashed: {type(error).__name__}: {error}"
        return TaskResult(task.key, RowStatus.BROKEN, words, detail=traceback.format_exc())
    seconds = time.process_time() - begun
    if not found:
        return TaskResult(task.key, RowStatus.NO_REST, solved[0].reason, seconds=seconds)
    first = solved[0].result  # later designs start from the shape of the first case, and from none other
    positions = b"" if first is None else np.ascontiguousarray(first.state.positions, dtype=np.float64).tobytes()
    distance = 0.0 if first is None else first.model.tree_distance
    return TaskResult(task.key, RowStatus.SOLVED, "", measurement, solved[0].started, distance, positions, seconds)


def solve_task_cases(task: Task) -> tuple[SolvedCase, ...]:
    """Return the cases of a task solved, one after the other, in this process."""
    start = None if task.start is None else _restore(task.start, task.hot_spots)
    solved = list[SolvedCase]()
    for each in solve_cases(task.design, task.cases, hot_spots=task.hot_spots, start=start, quick=True):
        solved.append(each)
        if not (task.whole or each.passed):
            break
    return tuple(solved)


def _restore(shape: StartShape, hot_spots: bool) -> Start:
    """Return a kept shape with the model it belongs to."""
    design = shape.design.put_in(shape.case)
    fineness = Fineness(design.mesh_size, RIM if hot_spots else None)
    factor = find_load_factor(design, design.load)
    model = build_model(
        design.hammock, design.person, fineness, tree_distance=shape.tree_distance, load=design.load, factor=factor
    )
    return Start(model, np.frombuffer(shape.positions).reshape(-1, 3), keeps_trees=False)
