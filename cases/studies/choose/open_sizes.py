"""Sizes and materials together: several starts side by side, and the lightest confirmed on the mesh of the design.

While searching, designs are solved only under the cases that are the worst for something, as the first start tells:
mostly those of the heaviest person. What is chosen is then solved under all.
"""

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import Any

from ..sweep.result_key import find_engine
from ..sweep.sweep_row import RowStatus, SweepRow
from ..sweep.task import Task
from .evaluator import DesignEvaluator
from .frozen_shape import Foretold, Question, foretell
from .no_answer import SHORT_LATER, explain_sizes
from .open_design import OpenDesign
from .outcome import ChooseResult, ChosenDesign, NextLighter, StartEnd
from .point import Picks, PointSet
from .shortfall_list import add_shortfalls, find_offsets
from .side_by_side import run_side_by_side
from .size_search import Ask, Ladders, SizeSearch
from .start_points import draw_starts

Pairs = list[tuple[Picks, Picks]]
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
        self.asked, self.coarse, self.every, self.fine, self.tell = asked, coarse, coarse, fine, tell
        self.points = PointSet(coarse.sweep)
        self.searches: list[SizeSearch] = []
        self.refuted: list[tuple[SweepRow, str]] = []
        self.used = [coarse]  # on the mesh of the search, under all cases or some
        coarse.done = self._report

    def run(self) -> ChooseResult:
        """Return the lightest that was found; where it is stopped, the best so far."""
        terms = self.asked.terms
        try:
            starts = draw_starts(self.points, terms.starts, terms.seed)
            self._take_deciding(starts[0])
            offsets = self._compare(starts[0])
            self.searches = [SizeSearch(self.points, start, offsets, terms.most // terms.starts) for start in starts]
            run_side_by_side([partial(_run, each) for each in self.searches], self._answer)
            ends = tuple(self._name_end(each) for each in self.searches)
            found = self._confirm()
        except KeyboardInterrupt:
            return replace(self._stop(), stopped=True)
        result = replace(self._make_result(found[0], confirmed=found[1]), starts=ends)
        if found[0] is None:
            return replace(result, exclusion=self._explain_failure())
        return replace(result, lighter=tuple(self._list_lighter(found[0])))

    def _stop(self) -> ChooseResult:
        """Return the best so far, confirmed unless that is stopped too."""
        point = self._find_best()
        if point is None:
            return self._make_result(None, confirmed=None)
        try:
            fine = _solve_alone(self.fine, point)
        except KeyboardInterrupt:
            fine = None
        passes = fine is not None and self.fine.passes(fine)
        return self._make_result(point, confirmed=fine if passes else None)

    def _take_deciding(self, start: Picks) -> None:
        """Search under those cases alone that are the worst for something at the first start."""
        every = self.asked.sweep.list_cases(self.asked.sweep.base)
        if len(every) == 1:
            return
        (found,) = self._foretell([Ladders(start, (), {})])
        if 0 < len(found.deciding) < len(every):
            self.coarse = self._limit(self.every, found.deciding)
            self.used.append(self.coarse)
            self.points.sweep = self.coarse.sweep

    def _limit(self, evaluator: DesignEvaluator, titles: tuple[str, ...]) -> DesignEvaluator:
        """Return what solves designs under some cases alone."""
        sweep = evaluator.sweep
        limited = replace(sweep, cases=titles, name=f"{sweep.name}, deciding cases")
        return DesignEvaluator(limited, evaluator.runner, evaluator.unchecked, evaluator.done)

    def _compare(self, start: Picks) -> dict[str, float]:
        """Return what the mesh of the design adds to each reserve factor, from one design on both."""
        if not self.asked.rough:
            return {}
        titles = self.coarse.sweep.cases
        fine = self._limit(self.fine, titles) if titles else self.fine
        row = _solve_alone(fine, start)
        coarse = self._solve([[(start, start)]])[0][0]
        return {} if coarse is None or row is None else find_offsets(coarse, row)

    def _answer(self, questions: list[Pairs | Ladders]) -> list[list[SweepRow | None] | Foretold]:
        """Answer what the searches ask in one round."""
        rows = iter(self._solve([each for each in questions if not isinstance(each, Ladders)]))
        told = iter(self._foretell([each for each in questions if isinstance(each, Ladders)]))
        return [next(told) if isinstance(each, Ladders) else next(rows) for each in questions]

    def _foretell(self, asked: list[Ladders]) -> list[Foretold]:
        """Answer what is to be foretold; it is not stored."""
        return self.coarse.runner.ask(foretell, [self._make_question(each) for each in asked])

    def _make_question(self, asked: Ladders) -> Question:
        """Return a question for a worker."""
        job = self.points.plan(asked.begin, asked.begin)
        assert job is not None  # a search starts from what can be made
        assert job.design is not None
        task = Task(job.key, find_engine(), job.design, self.coarse.sweep.hot_spots, None, job.cases)
        ladders = tuple(tuple(map(self.points.make_variant, each)) for each in asked.lists)
        return Question(task, self.coarse.sweep, ladders, asked.offsets)

    def _solve(self, questions: list[Pairs]) -> list[list[SweepRow | None]]:
        """Answer with rows, solved together."""
        jobs = {each: self.points.plan(*each) for asked in questions for each in asked}
        starts = [self.points.plan(start, start) for _, start in jobs]
        made = {each: job for each, job in jobs.items() if job is not None}
        others = [job for job in starts if job is not None and job.key in {each.start_key for each in made.values()}]
        rows = dict(zip(made, (each.row for each in self.coarse.solve(list(made.values()), others)), strict=True))
        return [[self._read(rows.get(each)) for each in asked] for asked in questions]

    def _read(self, row: SweepRow | None) -> SweepRow | None:
        """Return a row; None of a design of which something can no longer be checked, as of one that cannot be made."""
        return None if row is None or row.list_lost(self.coarse.unchecked) else row

    def _find_best(self) -> Picks | None:
        """Return the lightest of all searches that passes, as far as the mesh of the search tells."""
        found = [point for each in self.searches if (point := each.best) is not None]
        return min(found, key=lambda point: (self.points.weigh(point) or 0.0, point), default=None)

    def _confirm(self) -> tuple[Picks | None, SweepRow | None]:
        """Return the lightest that passes on its own mesh too, else the last that does not, and its row there."""
        point = self._find_best()
        if point is None:
            return None, None
        for _ in range(_CONFIRMATIONS):
            fine, coarse = _solve_alone(self.fine, point), self._find_row(point)
            if fine is not None and self.fine.passes(fine):
                return point, fine
            if fine is None or coarse is None:
                break
            self.refuted.append((coarse, self.fine.explain(fine)))
            offsets = find_offsets(coarse, fine)
            self._look_at_all(point, coarse)
            point = self._go_on(point, offsets)
            if point is None:
                break
        return point, None

    def _look_at_all(self, point: Picks, coarse: SweepRow) -> None:
        """Search on under all cases, and forget what was found under some, where another one is the worst after all."""
        every = _solve_alone(self.every, point)
        if self.coarse is not self.every and add_shortfalls(every, {}) > add_shortfalls(coarse, {}):
            self.coarse, self.points.sweep = self.every, self.every.sweep
            for each in self.searches:
                each.rows.clear()

    def _go_on(self, point: Picks, offsets: dict[str, float]) -> Picks | None:
        """Return what a search finds that goes on from a refuted design with its offsets."""
        known = {key: row for each in self.searches for key, row in each.rows.items()}
        again = SizeSearch(self.points, point, offsets, len(known) + _AGAIN, known)
        self.searches = [again]
        run_side_by_side([partial(_run, again)], self._answer)
        return again.best

    def _count(self) -> int:
        """Return how many designs were solved on the mesh of the search."""
        return sum(each.solved for each in self.used)

    def _find_row(self, point: Picks | None) -> SweepRow | None:
        """Return what was found of a point on the mesh of the search."""
        rows = [each.rows[point] for each in self.searches if point in each.rows]
        return rows[0] if rows else None

    def _make_result(self, point: Picks | None, *, confirmed: SweepRow | None) -> ChooseResult:
        """Return the result: what is confirmed has its row on its own mesh."""
        chosen, row = None, confirmed or self._find_row(point)
        if point is not None and row is not None:
            name = self.coarse.sweep.name if confirmed is None else self.fine.sweep.name
            design = self.asked.fine.make_design(self.points.make_variant(point))
            chosen = ChosenDesign(row, self.points.weigh(point) or 0.0, confirmed is not None, name, design)
        return ChooseResult(self.asked, chosen, solved=self._count(), refuted=tuple(self.refuted))

    def _name_end(self, search: SizeSearch) -> StartEnd:
        """Return where a search ended."""
        row = self._find_row(search.nearest)
        packed = None if search.best is None else self.points.weigh(search.best)
        return StartEnd(packed, "" if row is None else row.title, len(search.rows))

    def _explain_failure(self) -> str:
        """Return which requirements exclude each other in what was solved, and the design nearest to passing."""
        search = min(self.searches, key=lambda each: add_shortfalls(each.rows[each.nearest], each.offsets))
        rows = {point: row for each in self.searches for point, row in each.rows.items() if row is not None}
        return explain_sizes(list(rows.values()), search.rows[search.nearest])

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
                self._explain(found, row, add_shortfalls(row, offsets)),
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

    def _explain(self, point: Picks, row: SweepRow | None, missing: float) -> str:
        """Return why a design was not taken."""
        if row is None:
            return "cannot be made, or no longer be checked"
        seen = row if row.failed or row.status is not RowStatus.SOLVED else _solve_alone(self.every, point)
        told = "" if seen is None else self.every.explain(seen)
        if told:
            return told
        if missing > 0.0:
            return SHORT_LATER
        return "nothing fails: give the search more designs (most in [choose])"

    def _report(self, done: int) -> None:
        """Say where the search is."""
        best = self._find_best()
        most = self.asked.terms.most
        solved = min(self._count() + done, most)
        self.tell(solved, None if best is None else self.points.weigh(best), most - solved)


def _solve_alone(evaluator: DesignEvaluator, point: Picks) -> SweepRow | None:
    """Return a design solved from the flat cloth; None if it cannot be made."""
    job = PointSet(evaluator.sweep).plan(point, point)
    return None if job is None else evaluator.solve([job])[0].row


def _run(search: SizeSearch, ask: Callable[[Any], Any]) -> SizeSearch:
    """Run one search with the function that answers it."""
    return search.run(Ask(lambda points: ask(list(points)), ask))
