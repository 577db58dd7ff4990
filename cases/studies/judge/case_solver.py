"""Solves a design for each person under each load, each once, from the shape before."""

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from ....hammock import HammockError
from ....materials.short_repr import write_repr
from ...design import Design
from ...judging.verdict.case_requirements import judge_nothing
from ...judging.verdict.limit import SIDE_PUSH
from ...judging.verdict.requirement import Requirement
from ...judging.verdict.terms import JudgedCase
from ...judging.verdict.verdict import Verdict, merge_cases
from ...result import Result
from ...solving.mesh_sequence import Start
from ...solving.no_equilibrium import NoEquilibriumError
from ...solving.solution import solve_equilibrium
from ..lying.side_stability import assess_side_stability
from ..solve_clock import SolveClock


class SolvedCase(NamedTuple):
    """A person under a load, solved.

    Parameters
    ----------
    case : JudgedCase
        Who, and under which load.
    result : Result or None
        None if there is no equilibrium.
    reason : str
        Why there is none.
    started : str
        ``cold`` from the flat cloth, ``warm`` from another shape, ``cold after warm`` where that failed.
    """

    case: JudgedCase
    result: Result | None
    reason: str = ""
    started: str = ""

    def __repr__(self) -> str:
        return write_repr(self, self.case.title, self.reason or self.started)

    @property
    def requirements(self) -> tuple[Requirement, ...]:
        """What it answers, the worst first."""
        return (judge_nothing(self.case, self.reason),) if self.result is None else self.result.requirements

    @property
    def passed(self) -> bool:
        """Whether everything is met under this load."""
        return all(each.passed for each in self.requirements)


def solve_cases(
    design: Design,
    cases: tuple[JudgedCase, ...],
    *,
    hot_spots: bool = True,
    start: Start | None = None,
    quick: bool = False,
    clock: SolveClock | None = None,
) -> Iterator[SolvedCase]:
    """Yield each case solved; one without an equilibrium says why, and the next starts from the one before it.

    Each person hangs the hammock at its hang angle, as `solve` does for that person alone.

    Parameters
    ----------
    design : Design
        With what it has to stand.
    cases : tuple of JudgedCase
        In the order of :meth:`~tautlay.cases.judging.verdict.terms.JudgeTerms.list_cases`.
    hot_spots : bool
        As for :func:`~tautlay.cases.solving.solution.solve_equilibrium`.
    start : Start or None
        For the first case.
    quick : bool
        Whether sideways stability is judged with as few pushes as say whether there is any.
    clock : SolveClock or None
        Told before each case.
    """
    clock = clock or SolveClock(None, len(cases))
    quick = quick and not any(limit.key == SIDE_PUSH for limit in design.terms.limits)
    before: Result | None = None
    for case in cases:
        with clock.solve(case.title):
            begin = start if before is None else _pass_on(before, design.put_in(case))
            solved = _solve(design.put_in(case), case, begin, hot_spots=hot_spots, quick=quick)
        before = solved.result or before
        yield solved


def merge_solved(design: Design, solved: tuple[SolvedCase, ...]) -> Verdict:
    """Return the verdict of all cases that were solved; what else is required is not judged.

    Parameters
    ----------
    design : Design
        With what it has to stand.
    solved : tuple of SolvedCase
        Some or all of its cases.
    """
    cases = tuple(each.case for each in solved)
    results = [each.result for each in solved if each.result is not None]
    return merge_cases(
        [each.requirements for each in solved],
        judged=design.terms.name_cases(cases),
        unjudged=design.terms.list_unjudged(cases),
        unchecked=(part.part for result in results for part in result.findings.unchecked),
    )


def _pass_on(before: Result, design: Design) -> Start:
    """Return the shape before as a start; the trees are kept for the same person, who has hung it already."""
    alike = before.design.person == design.person
    return Start(before.model, before.state.positions, keeps_trees=alike)


def _solve(design: Design, case: JudgedCase, start: Start | None, *, hot_spots: bool, quick: bool) -> SolvedCase:
    """Return a case solved, from the flat cloth where it fails from a shape."""
    try:
        result, started = _find(design, start, hot_spots)
        return SolvedCase(case, replace(result, side_stability=assess_side_stability(result, quick=quick)), "", started)
    except (NoEquilibriumError, HammockError) as error:
        return SolvedCase(case, None, str(error))


def _find(design: Design, start: Start | None, hot_spots: bool) -> tuple[Result, str]:
    """Return the equilibrium and how it was started."""
    if start is None:
        return solve_equilibrium(design, hot_spots=hot_spots), "cold"
    try:
        return solve_equilibrium(design, hot_spots=hot_spots, start=start), "warm"
    except NoEquilibriumError:
        return solve_equilibrium(design, hot_spots=hot_spots), "cold after warm"
