r"""The lightest combination of swaps that does: exactly where there are few, by an integer programme where many.

Weights are known without solving and strengths are not. With few combinations those lighter than the design are solved
from the lightest up; the first that does is the lightest of all, whatever the others are. With many, an integer linear
programme takes each swap to change the logarithm of every factor of safety by what it changes alone,

.. math:: \max \sum_i s_i x_i, \qquad \ln f_k + \sum_i x_i \ln\frac{f_{ki}}{f_k} \ge \ln a_k,

with the saving s, the factor f found of each kind k of part and the factor a asked; x is 0 or 1, and one swap a part.
Its answer is solved; if it does not do, it is forbidden and the programme asked again.

A coarse mesh tells the pull of the cloth too low, so what does on it is solved again on the mesh of the design, and
only what does there too is an answer. The programme takes f from that mesh and the changes from the coarse one.
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
_FORBIDDEN = -50.0  # of a logarithm: a swap that does not even find rest alone


class SearchResult(NamedTuple):
    """The lightest combination that was found.

    Parameters
    ----------
    trial : Evaluation or None
        None if nothing lighter does.
    saved : float
        By how much it is lighter, kg.
    proven : bool
        Whether every lighter combination was solved and does not do.
    combinations : int
        How many there are.
    solved : int
        How many of them were solved.
    given_up : bool
        Whether the search ended at the number of combinations allowed.
    refuted : tuple of Evaluation
        Those that did on the coarse mesh but do not on that of the design, the lightest first.
    """

    trial: Evaluation | None
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
    bench: SwapEvaluator,
    *,
    at_once: int,
    most: int,
    few: int = FEW,
    fine: SwapEvaluator | None = None,
) -> SearchResult:
    """Return the lightest combination of swaps that does.

    Parameters
    ----------
    bench : SwapEvaluator
        On which every swap was tried by itself.
    at_once : int
        Combinations that are solved together.
    most : int
        Combinations that are solved if there are many.
    few : int
        Up to how many it is searched exactly.
    fine : SwapEvaluator or None
        With the mesh of the design, which was tried on it as it is; None if that mesh is no finer.
    """
    count = prod(1 + len(part.feasible) for part in bench.parts)
    exact = count <= few
    batches = _list_by_weight(bench, at_once) if exact else _propose(bench, fine or bench, at_once)
    solved, refuted = 0, list[Evaluation]()
    for batch in batches:
        trials = bench.solve([picks for _, picks in batch])
        solved += len(batch)
        for (saved, picks), coarse in zip(batch, trials, strict=True):
            if not coarse.does:
                continue
            (trial,) = (fine or bench).solve([picks])
            if trial.does:
                return SearchResult(trial, saved, exact, count, solved, refuted=tuple(refuted))
            refuted.append(trial)
        if not exact and solved >= most:
            return SearchResult(None, 0.0, exact, count, solved, given_up=True, refuted=tuple(refuted))
    return SearchResult(None, 0.0, exact, count, solved, refuted=tuple(refuted))


def _list_by_weight(bench: SwapEvaluator, at_once: int) -> Iterator[list[tuple[float, Selection]]]:
    """Yield all combinations that are lighter than the design, the lightest first, some at once."""
    found = [(saved, picks) for picks in bench.list_all() if (saved := find_saving(bench, picks)) is not None]
    ordered = sorted((each for each in found if each[0] > 0.0), key=lambda each: (-each[0], each[1]))
    for first in range(0, len(ordered), at_once):
        yield ordered[first : first + at_once]


def find_saving(bench: SwapEvaluator, picks: Selection) -> float | None:
    """Return by how much a combination is lighter, kg; None if it cannot be made."""
    sweep = bench.list_designs(bench.sweeps[0], [picks])
    try:
        design = sweep.make_design(sweep.variants[0])
    except DesignError:
        return None
    return bench.packed - weigh_design(design).packed.mass


class _Programme:
    """The integer programme: one column for each swap that can be made."""

    def __init__(self, bench: SwapEvaluator, fine: SwapEvaluator) -> None:
        self.bench, self.fine = bench, fine
        self.columns = [
            (place, pick)
            for place, part in enumerate(bench.parts)
            for pick in part.feasible
            if not self._leaves_unchecked(select_one(bench.parts, place, pick))
        ]
        self.saved = np.array([bench.parts[place].swaps[pick - 1].saved for place, pick in self.columns])
        self.rows: list[np.ndarray] = []
        self.limits: list[float] = []
        for place in range(len(bench.parts)):
            self._add([float(other == place) for other, _ in self.columns], 1.0)
        for change, slack in self._list_factors():
            self._add([-each for each in change], slack)

    def _add(self, row: list[float], limit: float) -> None:
        """Add the condition that a row times x is at most ``limit``."""
        self.rows.append(np.array(row))
        self.limits.append(limit)

    def _leaves_unchecked(self, picks: Selection) -> bool:
        """Tell whether a swap takes a check away, which no other swap brings back."""
        return any(set(row.unchecked) - self.bench.unchecked for row in self.bench.tried[picks].rows)

    def _list_factors(self) -> Iterator[tuple[list[float], float]]:
        """Yield for each load and kind of part what each swap does to ln f, and by how much f may fall."""
        bench = self.bench
        base, sure = (each.tried[bench.as_designed].rows for each in (bench, self.fine))
        alone = [bench.tried[select_one(bench.parts, *column)].rows for column in self.columns]
        for load, (row, finer) in enumerate(zip(base, sure, strict=False)):  # as far as both hold
            factors = bench.find_factors(load)
            for kind in FACTORS:
                key = f"factor_{kind}"
                if key in row.figures and key in finer.figures:
                    now = row.figures[key]
                    change = [
                        log(one[load].figures[key] / now)
                        if len(one) > load and key in one[load].figures
                        else (_FORBIDDEN if not one[-1].figures else 0.0)
                        for one in alone
                    ]
                    yield change, log(finer.figures[key] / factors[kind].value)

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
        picks = list(self.bench.as_designed)
        for (place, pick), taken in zip(self.columns, chosen, strict=True):
            if taken:
                picks[place] = pick
        return tuple(picks)


def _propose(bench: SwapEvaluator, fine: SwapEvaluator, at_once: int) -> Iterator[list[tuple[float, Selection]]]:
    """Yield the combinations that the integer programme takes for the lightest that hold, some at once."""
    programme = _Programme(bench, fine)
    while True:
        batch: list[tuple[float, Selection]] = []
        while len(batch) < at_once and (picks := programme.solve()) is not None:
            saved = find_saving(bench, picks)
            if saved is not None and saved > 0.0:
                batch.append((saved, picks))
        if not batch:
            return
        yield sorted(batch, key=lambda each: (-each[0], each[1]))
