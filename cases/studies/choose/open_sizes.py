"""Sizes and materials together: several starts side by side, and the lightest confirmed on the mesh of the design."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from ..sweep.sweep_row import SweepRow
from .evaluator import DesignEvaluator
from .open_design import OpenDesign
from .outcome import ChooseResult, ChosenDesign, NextLighter, StartEnd
from .point import Picks, PointSet
from .shortfall_list import add_shortfalls, find_offsets
from .side_by_side import run_side_by_side
from .size_search import SizeSearch
from .start_points import draw_starts

Questions = list[tuple[Picks, Picks]]
Tell = Callable[[int, float | None, int], None]
_CONFIRMATIONS = 3  # designs that are solved on the mesh of the design before it is given up
_AGAIN = 40  # designs with which a search goes on from what its own mesh refutes


class OpenSizes:
    """Searches for sizes.

    Parameters
    ----------
    asked : OpenDesign
        What is open.
    coarse, fine : DesignEvaluator
        On the mesh of the search and on that of the design.
    tell : callable
        Receives how many are solved, the best so far, kg, and how many are left at most.
    """

    def __init__(self, asked: OpenDesign, coarse: DesignEvaluator, fine: DesignEvaluator, tell: Tell) -> None:
        self.asked, self.coarse, self.fine, self.tell = asked, coarse, fine, tell
        self.points, self.fine_points = PointSet(coarse.sweep), PointSet(fine.sweep)
        self.searches: list[SizeSearch] = []
        self.refuted: list[tuple[SweepRow, str]] = []
        coarse.done = self._report

    def run(self) -> ChooseResult:
        """Return the lightest that was found; where it is stopped, the best so far."""
        terms = self.asked.terms
        try:
            starts = draw_starts(self.points, terms.starts, terms.seed)
            offsets = self._compare(starts[0])
            self.searches = [SizeSearch(self.points, start, offsets, terms.most // terms.starts) for start in starts]
            run_side_by_side([partial(_run, each) for each in self.searches], self._solve)
            ends = tuple(self._name_end(each) for each in self.searches)
            found = self._confirm()
        except KeyboardInterrupt:
            return replace(self._make_result(self._find_best(), confirmed=None), stopped=True)
        result = replace(self._make_result(found[0], confirmed=found[1]), starts=ends)
        if found[0] is None:
            return replace(result, exclusion=self._name_nearest())
        return replace(result, lighter=tuple(self._list_lighter(found[0])))

    def _compare(self, start: Picks) -> dict[str, float]:
        """Return what the mesh of the design adds to each reserve factor, from one design on both."""
        if not self.asked.rough:
            return {}
        coarse, fine = self._solve([[(start, start)]])[0][0], self._solve_fine(start)
        return {} if coarse is None or fine is None else find_offsets(coarse, fine)

    def _solve(self, questions: list[Questions]) -> list[list[SweepRow | None]]:
        """Answer what the searches ask in one round."""
        jobs = {each: self.points.plan(*each) for asked in questions for each in asked}
        starts = [self.points.plan(start, start) for _, start in jobs]
        made = {each: job for each, job in jobs.items() if job is not None}
        others = [job for job in starts if job is not None and job.key in {each.start_key for each in made.values()}]
        rows = dict(zip(made, (each.row for each in self.coarse.solve(list(made.values()), others)), strict=True))
        return [[self._read(rows.get(each)) for each in asked] for asked in questions]

    def _read(self, row: SweepRow | None) -> SweepRow | None:
        """Return a row; None of a design of which something can no longer be checked, as of one that cannot be made."""
        return None if row is None or row.list_lost(self.coarse.unchecked) else row

    def _solve_fine(self, point: Picks) -> SweepRow | None:
        """Return a design on its own mesh; None if it cannot be made."""
        job = self.fine_points.plan(point, point)
        return None if job is None else self.fine.solve([job])[0].row

    def _find_best(self) -> Picks | None:
        """Return the lightest of all searches that passes, as far as the mesh of the search tells."""
        found = [point for each in self.searches if (point := each.best) is not None]
        return min(found, key=lambda point: (self.points.weigh(point) or 0.0, point), default=None)

    def _confirm(self) -> tuple[Picks | None, SweepRow | None]:
        """Return the lightest that passes on its own mesh too, else the last that does not, and its row there."""
        point = self._find_best()
        if point is None or not self.asked.rough:
            return point, self._find_row(point)
        for _ in range(_CONFIRMATIONS):
            fine, coarse = self._solve_fine(point), self._find_row(point)
            if fine is not None and self.fine.passes(fine):
                return point, fine
            if fine is None or coarse is None:
                break
            self.refuted.append((coarse, self.fine.explain(fine)))
            point = self._go_on(point, find_offsets(coarse, fine))
            if point is None:
                break
        return point, None

    def _go_on(self, point: Picks, offsets: dict[str, float]) -> Picks | None:
        """Return what a search finds that goes on from a refuted design with its offsets."""
        known = {key: row for each in self.searches for key, row in each.rows.items()}
        again = SizeSearch(self.points, point, offsets, len(known) + _AGAIN, known)
        self.searches = [again]
        run_side_by_side([partial(_run, again)], self._solve)
        return again.best

    def _find_row(self, point: Picks | None) -> SweepRow | None:
        """Return what was found of a point on the mesh of the search."""
        rows = [each.rows[point] for each in self.searches if point in each.rows]
        return rows[0] if rows else None

    def _make_result(self, point: Picks | None, *, confirmed: SweepRow | None) -> ChooseResult:
        """Return the result: what is confirmed has its row on its own mesh."""
        chosen, row = None, confirmed or self._find_row(point)
        if point is not None and row is not None:
            fine = confirmed is not None and self.asked.rough
            name = self.fine.sweep.name if fine else self.coarse.sweep.name
            chosen = ChosenDesign(row, self.points.weigh(point) or 0.0, confirmed is not None, name)
        return ChooseResult(self.asked, chosen, solved=self.coarse.solved, refuted=tuple(self.refuted))

    def _name_end(self, search: SizeSearch) -> StartEnd:
        """Return where a search ended."""
        row = self._find_row(search.nearest)
        packed = None if search.best is None else self.points.weigh(search.best)
        return StartEnd(packed, "" if row is None else row.title, len(search.rows))

    def _name_nearest(self) -> str:
        """Return the design nearest to passing, and what it fails."""
        search = min(self.searches, key=lambda each: add_shortfalls(each.rows[each.nearest], each.offsets))
        row = search.rows[search.nearest]
        return "" if row is None else f"Nearest: {row.title}, which fails {'; '.join(row.failed) or row.reason}."

    def _list_lighter(self, point: Picks) -> list[NextLighter]:
        """Return of each thing that is open the next lighter value, solved, and what fails there."""
        tries = {place: found for place in range(len(point)) if (found := self._step(point, place)) is not None}
        rows = self._solve([[(each, point) for each in tries.values()]])[0]
        mass, offsets = self.points.weigh(point) or 0.0, self.searches[0].offsets
        return [
            NextLighter(
                self.points.sweep.choices[place].name,
                self.points.label(point, place),
                self.points.label(found, place),
                mass - (self.points.weigh(found) or mass),
                self._explain(row, add_shortfalls(row, offsets)),
            )
            for (place, found), row in zip(tries.items(), rows, strict=True)
        ]

    def _step(self, point: Picks, place: int) -> Picks | None:
        """Return the next lighter design with one value changed; of a size two hundredths of its range away."""
        mass = self.points.weigh(point) or 0.0
        found = [
            (light, each)
            for each in self.points.list_near(point, place)
            if (light := self.points.weigh(each) or mass) < mass
        ]
        return max(found)[1] if found else None

    def _explain(self, row: SweepRow | None, missing: float) -> str:
        """Return why a design was not taken."""
        if row is None:
            return "cannot be made, or no longer be checked"
        told = self.coarse.explain(row)
        if told:
            return told
        if missing > 0.0:
            return "passes on the mesh of the search; on that of the design too little is expected to be left"
        return "nothing fails: give the search more designs (most in [choose])"

    def _report(self, done: int) -> None:
        """Say where the search is."""
        best = self._find_best()
        most = self.asked.terms.most
        solved = min(self.coarse.solved + done, most)
        self.tell(solved, None if best is None else self.points.weigh(best), most - solved)


def _run(search: SizeSearch, ask: Callable[[Questions], list[SweepRow | None]]) -> SizeSearch:
    """Run one search with the function that answers it."""
    return search.run(lambda points: ask(list(points)))
