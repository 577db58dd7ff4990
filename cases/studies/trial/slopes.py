"""How readings move with each input: one solve for each input and amount of water."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ....hammock.arrays import FloatArray
from ..scatter.drawn_design import put_values
from ..solve_clock import SolveClock
from .bag_places import BagInput
from .trial_inputs import Laws
from .trial_solver import TrialSolver

STEP = 0.25  # of a score: a sixth of the way to the end of its range


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
        values = {
            each: float(law.take(scores[place : place + 1])[0]) for place, (each, law) in enumerate(self.laws.items())
        }
        design, layout = put_values(self.solver.design, values), self.solver.layout
        for source, value in values.items():
            if isinstance(source, BagInput):
                layout = source.put(layout, value)
        with self.clock.solve(words):
            return np.array([self.solver.read(design, layout, water) for water in self.waters])

    def find_slopes(self, scores: FloatArray) -> TrialResponse:
        """Return the readings at scores (inputs,), and their slopes by differences."""
        base = self.read(scores, "as it is")
        columns = []
        for place, source in enumerate(self.laws):
            moved = scores.copy()
            step = STEP if scores[place] <= 0.0 else -STEP  # towards the middle: an even law ends
            moved[place] += step
            columns.append((self.read(moved, str(source.title)) - base) / step)
        return TrialResponse(base, np.stack(columns, axis=-1))
