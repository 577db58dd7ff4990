"""Another goal than the least weight: the design that is best in one measure, or all that nothing beats in several.

Of a finite set. Every design is solved that is not excluded for certain, since no measure of the lay is known without;
a limit of weight (``packed_kg`` in ``[judge.most]``) excludes without a solve. Those that pass are compared on the mesh
of the search; each that is named passes on that of the design too, else it is left out and the rest compared anew.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from ..compare.pareto_front import DIGITS, count_costs, find_pareto_front
from ..sweep.result_value import ResultValue
from ..sweep.sweep_row import SweepRow
from .candidate import Candidate
from .evaluator import Tried
from .proven_search import ProvenSearch


@dataclass(repr=False)
class GoalSearch(ProvenSearch):
    """A search through all that is not excluded for certain.

    Parameters
    ----------
    goals : tuple of ResultValue
        What counts; the first decides which design is written.
    passing : list of Tried
        What passes on the mesh of the search.
    fine_rows : dict of int to SweepRow
        Of what passes on its own mesh too its row there, by the number of the design.
    """

    goals: tuple[ResultValue, ...] = ()
    passing: list[Tried] = field(default_factory=list)
    fine_rows: dict[int, SweepRow] = field(default_factory=dict)

    @property
    def ceiling(self) -> float | None:
        """Weight of the lightest that passes so far, kg."""
        return min((self._find(each.job).packed for each in self.passing), default=None)

    @property
    def left(self) -> list[Candidate]:
        """What is not solved and not excluded, the lightest first."""
        return [each for each in self.candidates if each.number not in self.seen and each.number not in self.excluded]

    @property
    def floor(self) -> float | None:
        """Unknown: a heavier design may be better."""
        return None

    def _crown(self, tried: Tried) -> None:
        """Keep a design that passes."""
        self.passing.append(tried)

    @property
    def compared(self) -> int:
        """How many pass on the mesh of the search, but for those that their own mesh refuted."""
        return len(self.passing) - len(self.refuted)

    def settle(self, *, confirm: bool) -> None:
        """Find what nothing that passes beats, the best in the first goal first; of one goal the best alone.

        Parameters
        ----------
        confirm : bool
            Whether each must pass on its own mesh too.
        """
        left, self.confirmed = list(self.passing), confirm
        while left:
            front = pick_unbeaten(left, self.goals)
            refuted = [each for each in front if confirm and not self._confirm(each)]
            if not refuted:
                self.front, self.best = front, front[0]
                self.best_row = self.fine_rows.get(front[0].job.variant.number, front[0].row)
                return
            left = [each for each in left if each not in refuted]

    def _confirm(self, tried: Tried) -> bool:
        """Return whether a design passes on its own mesh; keep its row there."""
        fine = self.confirm(tried) or tried.row
        if not self.evaluator.passes(fine):
            self.refuted.append((tried, fine))
            return False
        self.fine_rows[tried.job.variant.number] = fine
        return True


def pick_unbeaten(passing: Sequence[Tried], goals: Sequence[ResultValue]) -> tuple[Tried, ...]:
    """Return the designs that nothing beats in some goals; of one goal the best, of those alike the lightest.

    Parameters
    ----------
    passing : sequence of Tried
        Designs that pass and have a value of each goal, at least one.
    goals : sequence of ResultValue
        Of each it is known whether less or more is better.
    """
    if len(goals) == 1:
        costs = count_costs([each.row for each in passing], goals, DIGITS)[:, 0]
        return (min(zip(costs, passing, strict=True), key=lambda each: _order(each[0], each[1].row))[1],)
    by_row = {id(each.row): each for each in passing}
    front = find_pareto_front([each.row for each in passing], [goal.key for goal in goals])
    return tuple(by_row[id(row)] for row in front.rows)


def _order(cost: float, row: SweepRow) -> tuple[float, float, int]:
    """Return what sorts designs by one goal."""
    return float(cost), row.figures["packed_kg"], row.number
