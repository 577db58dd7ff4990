"""The verdict on a design, with the equilibria it rests on."""

from typing import NamedTuple

from ....materials.short_repr import write_repr
from ...design import Design
from ...judging.verdict.verdict import Verdict
from ..line_callback import LineCallback
from ..solve_clock import SolveClock
from .case_solver import SolvedCase, merge_solved, solve_cases


class Judgement(NamedTuple):
    """The verdict on a design.

    Parameters
    ----------
    design : Design
        What was judged.
    cases : tuple of SolvedCase
        Each person under each load.
    verdict : Verdict
        Of all of them together.
    """

    design: Design
    cases: tuple[SolvedCase, ...]
    verdict: Verdict

    def __repr__(self) -> str:
        return write_repr(self, self.design.name, self.verdict.kind, *(each.case.title for each in self.cases))


def judge_design(design: Design, *, hot_spots: bool = True, progress: LineCallback | None = None) -> Judgement:
    """Solve a design for each of its people under each load that it has to stand, and return the verdict.

    Parameters
    ----------
    design : Design
        From :func:`~tautlay.cases.read_design`; its table ``[judge]`` says what it has to stand.
    hot_spots : bool
        Whether meshes are fine enough along channels and bars to check cloth and seams.
    progress : callable or None
        Receives a line before each solve, with the time left.

    Returns
    -------
    Judgement
        With ``verdict``; a case without an equilibrium is a requirement that fails.

    Examples
    --------
    >>> from importlib.resources import files
    >>> from tautlay.cases import read_design
    >>> design = read_design(str(files("tautlay.cases") / "larch_ridge.toml"), mesh_size=0.15)
    >>> judge_design(design).verdict.kind
    'good'
    """
    cases = design.terms.list_cases()
    solved = tuple(solve_cases(design, cases, hot_spots=hot_spots, clock=SolveClock(progress, len(cases))))
    return Judgement(design, solved, merge_solved(design, solved))
