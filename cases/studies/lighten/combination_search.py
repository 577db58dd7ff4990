r"""The lightest combination of swaps that passes: exact where there are few, by an integer programme where many.

Weights are known without solving and strengths are not. With few combinations those lighter than the design are solved
from the lightest up; the first that passes is the lightest of all. With many, an integer linear
programme assumes that each swap changes the logarithm of every reserve factor by what it changes alone,

.. math:: \max \sum_i s_i x_i, \qquad \ln r_k + \sum_i x_i \ln\frac{r_{ki}}{r_k} \ge 0,

with the saving s and the least reserve factor r (factor of safety found over required) of each kind k of part, under
all loads and of everybody; x is 0 or 1, and one swap a part. Its answer is solved; if it fails, it is forbidden and the
programme is solved again.

A coarse mesh underestimates cloth tension, so what passes on it is solved again on the mesh of the design, and
only what passes there too is an answer. The programme takes r from that mesh and the changes from the coarse one.
"""

from collections.abc import Iterator
from math import log, prod
from typing import NamedTuple

import numpy as np

from ....making import FACTORS
from ....materials.short_repr import write_repr, write_value
from ...design_issue import DesignError
from ...judging.weighing import weigh_design
from .evaluation import Evaluation, Selection, SwapEvaluator, select_one

FEW = 400  # combinations that are solved one by one
_FORBIDDEN = -50.0  # of a logarithm: a swap that has no equilibrium even alone


class SearchResult(NamedTuple):
    """The lightest combination that was found.

    Parameters
    ----------
    evaluation : Evaluation or None
        None if nothing lighter passes.
    saved : float
        By how much it is lighter, kg.
    proven : bool
        Whether every lighter combination was solved and fails.
    combinations : int
        How many there are.
    solved : int
        How many of them were solved.
    given_up : bool
        Whether the search ended at the number of combinations allowed.
    refuted : tuple of Evaluation
        Those that pass on the coarse mesh but fail on that of the design, the lightest first.
    """

    evaluation: Evaluation | None
    saved: float
    proven: bool
    combinations: int
    solved: int
    given_up: bool = False
    refuted: tuple[Evaluation, ...] = ()

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"saves {write_value(self.saved, 'mass')}",
            "proven" if self.proven else "likely",
            f"{self.solved} of {self.combinations} solved",
        )


def find_best(
    evaluator: SwapEvaluator,
    *,
    at_once: int,
    most: int,
    few: int = FEW,
    fine: SwapEvaluator | None = None,
) -> SearchResult:
    """Return the lightest combination of swaps that passes.

    Parameters
    ----------
    evaluator : SwapEvaluator
        On which every swap was tried alone.
    at_once : int
        Combinations that are solved together.
    most : int
        Combinations that are solved if there are many.
    few : int
        Up to how many it is searched exactly.
    fine : SwapEvaluator or None
        With the mesh of the design, on which the unchanged design was tried; None if that mesh is not finer.
    """
    count = prod(1 + len(part.feasible) for part in evaluator.parts)
    exact = count <= few
    batches = _list_by_weight(evaluator, at_once) if exact else _propose(evaluator, fine or evaluator, at_once)
    solved, refuted = 0, list[Evaluation]()
    for batch in batches:
        evaluations = evaluator.solve([selection for _, selection in batch])
        solved += len(batch)
        for (saved, selection), coarse in zip(batch, evaluations, strict=True):
            if not coarse.passes:
                continue
            (evaluation,) = (fine or evaluator).solve([selection])
            if evaluation.passes:
                return SearchResult(evaluation, saved, exact, count, solved, refuted=tuple(refuted))
            refuted.append(evaluation)
        if not exact and solved >= most:
            return SearchResult(None, 0.0, exact, count, solved, given_up=True, refuted=tuple(refuted))
    return SearchResult(None, 0.0, exact, count, solved, refuted=tuple(refuted))


def _list_by_weight(evaluator: SwapEvaluator, at_once: int) -> Iterator[list[tuple[float, Selection]]]:
    """Yield all combinations that are lighter than the design, the lightest first, some at once."""
    found = [
        (saved, selection)
        for selection in evaluator.list_all()
        if (saved := find_saving(evaluator, selection)) is not None
    ]
    ordered = sorted((each for each in found if each[0] > 0.0), key=lambda each: (-each[0], each[1]))
    for first in range(0, len(ordered), at_once):
        yield ordered[first : first + at_once]


def find_saving(evaluator: SwapEvaluator, selection: Selection) -> float | None:
    """Return by how much a combination is lighter, kg; None if it cannot be made."""
    sweep = evaluator.list_designs([selection])
    try:
        design = sweep.make_design(sweep.variants[0])
    except DesignError:
        return None
    return evaluator.packed - weigh_design(design).packed.mass


class _Programme:
    """The integer programme: one column for each swap that can be made."""

    def __init__(self, evaluator: SwapEvaluator, fine: SwapEvaluator) -> None:
        self.evaluator, self.fine = evaluator, fine
        self.columns = [
            (place, index)
            for place, part in enumerate(evaluator.parts)
            for index in part.feasible
            if not self._leaves_unchecked(select_one(evaluator.parts, place, index))
        ]
        self.saved = np.array([evaluator.parts[place].swaps[index - 1].saved for place, index in self.columns])
        self.rows: list[np.ndarray] = []
        self.limits: list[float] = []
        for place in range(len(evaluator.parts)):
            self._add([float(other == place) for other, _ in self.columns], 1.0)
        for change, slack in self._list_reserves():
            self._add([-each for each in change], slack)

    def _add(self, row: list[float], limit: float) -> None:
        """Add the condition that a row times x is at most ``limit``."""
        self.rows.append(np.array(row))
        self.limits.append(limit)

    def _leaves_unchecked(self, selection: Selection) -> bool:
        """Return whether a swap removes a check, which no other swap brings back."""
        return bool(self.evaluator.tried[selection].row.list_lost(self.evaluator.unchecked))

    def _list_reserves(self) -> Iterator[tuple[list[float], float]]:
        """Yield for each kind of part what each swap does to ln r, and by how much r may fall."""
        evaluator = self.evaluator
        row, finer = (each.tried[evaluator.as_designed].row for each in (evaluator, self.fine))
        alone = [evaluator.tried[select_one(evaluator.parts, *column)].row for column in self.columns]
        for kind in FACTORS:
            key = f"reserve_{kind}"
            if key in row.figures and key in finer.figures:
                change = [
                    log(one.figures[key] / row.figures[key])
                    if key in one.figures
                    else (0.0 if one.figures else _FORBIDDEN)
                    for one in alone
                ]
                yield change, log(finer.figures[key])

    def solve(self) -> Selection | None:
        """Return the combination that saves most, None if there is none that saves anything; it is then forbidden."""
        from scipy.optimize import Bounds, LinearConstraint, milp

        found = milp(
            -self.saved,
            constraints=LinearConstraint(np.array(self.rows), ub=np.array(self.limits)),
            integrality=np.ones(len(self.columns)),
            bounds=Bounds(0, 1),
        )
        chosen = np.zeros(0) if found.x is None else found.x > 0.5
        if not chosen.any() or self.saved[chosen].sum() <= 0.0:
            return None
        self._add([1.0 if each else -1.0 for each in chosen], float(chosen.sum()) - 1.0)
        selection = list(self.evaluator.as_designed)
        for (place, index), taken in zip(self.columns, chosen, strict=True):
            if taken:
                selection[place] = index
        return tuple(selection)


def _propose(evaluator: SwapEvaluator, fine: SwapEvaluator, at_once: int) -> Iterator[list[tuple[float, Selection]]]:
    """Yield the combinations that the integer programme proposes as the lightest that pass, some at once."""
    programme = _Programme(evaluator, fine)
    while True:
        batch: list[tuple[float, Selection]] = []
        while len(batch) < at_once and (selection := programme.solve()) is not None:
            saved = find_saving(evaluator, selection)
            if saved is not None and saved > 0.0:
                batch.append((saved, selection))
        if not batch:
            return
        yield sorted(batch, key=lambda each: (-each[0], each[1]))
