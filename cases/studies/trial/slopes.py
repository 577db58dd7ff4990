"""How readings move with each input: one solve for each input and amount of water."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from ....hammock.arrays import FloatArray
from ..scatter.drawn_design import put_values
from ..solve_clock import SolveClock
from .bag_places import BagInput
from .trial_inputs import Laws, take_values
from .trial_solver import TrialSolver

_STEP = 0.1  # of a score: a sixteenth of the way to the end of its range; slopes are then within 2 %

ReadScores = Callable[[FloatArray], FloatArray]  # scores (inputs,) -> readings (waters, readings)


class VariedReading(NamedTuple):
    """Scores of which one is moved, by how much, and the readings then."""

    scores: FloatArray
    step: float
    readings: FloatArray


def vary_scores(read: ReadScores, scores: FloatArray) -> Iterator[VariedReading]:
    """Yield the readings with one score after the other moved."""
    for place in range(len(scores)):
        moved = scores.copy()
        step = _STEP if scores[place] <= 0.0 else -_STEP  # towards the middle: an even law ends
        moved[place] += step
        yield VariedReading(moved, step, read(moved))


@dataclass(frozen=True)
class TrialResponse:
    """Readings at given scores, and how they move.

    Parameters
    ----------
    readings : (waters, readings)
        SI.
    slopes : (waters, readings, inputs)
        Change per unit of score.
    """

    readings: FloatArray
    slopes: FloatArray


class TrialReader:
    """Reads varied hammocks by the scores of their inputs.

    Parameters
    ----------
    solver : TrialSolver
        With every amount of water solved.
    laws : dict of Input to Distribution
        In the order of the scores.
    waters : sequence of float
        kg.
    clock : SolveClock
        Tells what is solved.
    """

    def __init__(self, solver: TrialSolver, laws: Laws, waters: Sequence[float], clock: SolveClock) -> None:
        self.solver, self.laws, self.waters, self.clock = solver, laws, tuple(waters), clock

    def read(self, scores: FloatArray, words: str) -> FloatArray:
        """Return the readings (waters, readings), SI, at scores (inputs,)."""
        values = take_values(self.laws, scores)
        design, layout = put_values(self.solver.design, values), self.solver.layout
        for source, value in values.items():
            if isinstance(source, BagInput):
                layout = source.put(layout, value)
        with self.clock.solve(words):
            return np.array([self.solver.read(design, layout, water) for water in self.waters])

    def find_slopes(self, scores: FloatArray) -> TrialResponse:
        """Return the readings at scores (inputs,), and their slopes by differences."""

        def read(moved: FloatArray) -> FloatArray:
            return self.read(moved, "what decides where it hangs")

        base = read(scores)
        columns = [(each.readings - base) / each.step for each in vary_scores(read, scores)]
        return TrialResponse(base, np.stack(columns, axis=-1))
