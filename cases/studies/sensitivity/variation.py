"""One result solved again with its stiffnesses varied, between the same trees."""

from collections.abc import Mapping
from dataclasses import replace

from ....materials import Material
from ...design import Design
from ...judging.checks import Check
from ...judging.checks.cloth_checks import check_cloth
from ...judging.cloth.hot_spot import find_cloth_utilisation, is_fine_enough
from ...judging.sensitivity.material_replacement import swap_material
from ...judging.sensitivity.range_input import MaterialInput
from ...result import Result
from ...solving.solution import solve_equilibrium
from ..line_callback import LineCallback, tell_residual
from ..solve_clock import SolveClock
from .tracked_checks import CheckId, list_checkers, run_checks

COARSE = 0.08  # m: tensions and thrusts then shift by what they do at 0.04 m, to 2 in 10,000 of themselves


class Variation:
    """Solves a result again and again on a mesh that is coarse but as fine along the rim as the checks need.

    Parameters
    ----------
    result : Result
        What was solved.
    keys : sequence of CheckId
        Checks that are followed.
    report : callable or None
        Receives a line of text after each step.
    """

    def __init__(self, result: Result, keys: tuple[CheckId, ...], report: LineCallback | None) -> None:
        self.result, self.keys, self.report = result, keys, report
        self.checkers = list_checkers(keys)
        self.rim = is_fine_enough(result.model) and any(key.needs_rim for key in keys)
        self.design = result.design.hang_between(result.model.tree_distance)
        self.clock = SolveClock(report, 0)
        self.base: Result | None = None

    @property
    def solves(self) -> int:
        """How many solves there were."""
        return len(self.clock.spent)

    def solve_base(self, total: int) -> None:
        """Solve it unchanged, for the factors that the varied ones are compared with; raises NoEquilibriumError."""
        self.clock.expect(total + 1)
        size = max(self.result.mesh_size, COARSE)
        self.base = self._solve(self.design, self.result, size, f"uncertainty, 1 of {total + 1}: unchanged")
        self.before = self.check(self.base)

    def find_ratios(self, source: MaterialInput, material: Material) -> Mapping[CheckId, float]:
        """Return by what each factor is multiplied with an input at an end of its range, as ``material`` has it.

        Raises
        ------
        HammockError
            For a hammock that cannot hang.
        NoEquilibriumError
            If the solver ends without an equilibrium.
        """
        assert self.base is not None
        hammock = swap_material(self.design.hammock, source.material, material)
        varied = replace(self.design, hammock=hammock)
        side = "low" if getattr(material, source.field) < source.value else "high"
        after = self.check(
            self.solve(varied, f"uncertainty, {self.solves + 1} of {self.clock.expected}: {source.title}, {side}")
        )
        return {key: after[key].found / self.before[key].found for key in self.keys if key in after}

    def solve(self, design: Design, title: str) -> Result:
        """Solve a varied design from the shape of the unchanged one; raises as :meth:`find_ratios`."""
        assert self.base is not None
        return self._solve(design, self.base, self.base.mesh_size, title)

    def _solve(self, design: Design, start: Result, size: float, title: str) -> Result:
        """Solve it once more from a shape that was found."""
        load = str(self.result.load)
        with self.clock.solve(title) as line:
            told = tell_residual(self.report, line)
            return solve_equilibrium(design, load=load, mesh_size=size, hot_spots=self.rim, start=start, progress=told)

    def check(self, result: Result) -> dict[CheckId, Check]:
        """Return the checks that are followed."""
        heat = None
        if check_cloth in self.checkers:  # hot spots take longer than a solve
            heat = find_cloth_utilisation(result.model, result.state, result.design.workmanship.reductions)
        return run_checks(result.make_case(heat), self.checkers)
