"""Result values of a solved design: numbers, governing check, failed checks."""

from math import isfinite
from typing import NamedTuple

from ....materials.short_repr import write_repr
from ...judging.checks import Check
from ...judging.clearance import Clearance
from ...judging.comfort.measure_list import MEASURES
from ...judging.forces import Forces
from ...judging.loaded_shape import LoadedShape
from ...judging.trees import TreeLoads
from ...judging.weighing import Weights
from ...result import Result
from .result_value import RESULT_VALUES


class SweepValues(NamedTuple):
    """Figures of a solved design by key, SI; what governs; checks not met; parts not checked."""

    figures: dict[str, float]
    governs: str
    failed: tuple[str, ...]
    unchecked: tuple[str, ...]

    def __repr__(self) -> str:
        return write_repr(self, f"{len(self.figures)} figures", self.governs, f"{len(self.failed)} checks not met")


def measure_result(result: Result) -> SweepValues:
    """Return what a sweep stores of a result.

    Parameters
    ----------
    result : Result
        Of any load case.

    Returns
    -------
    SweepValues
        Figures in the order of :data:`~tautlay.cases.studies.sweep.result_value.RESULT_VALUES`.
    """
    checks, unchecked = result.findings
    comfort = result.comfort
    found = {
        **_list_masses(result.weights),
        **_list_factors(checks),
        **_list_forces(result.forces, result.trees),
        **_list_lengths(result.shape),
        **({} if comfort is None else {measure.key: measure.read(comfort) for measure in MEASURES}),
    }
    figures = {figure.key: float(found[figure.key]) for figure in RESULT_VALUES if figure.key in found}
    clearance = Clearance(result.shape.ground_clearance)
    failed = [
        *(check.title for check in result.findings.failed),
        *([] if clearance.passed else [clearance.verdict]),
    ]
    return SweepValues(
        {key: value for key, value in figures.items() if isfinite(value)},
        checks[0].title if checks else "",
        tuple(failed),
        tuple(each.part for each in unchecked),
    )


def _list_masses(weights: Weights) -> dict[str, float]:
    """Return the masses of what is not dual-use, kg."""
    return {"packed_kg": weights.packed, **{f"{group}_kg": mass for group, mass in weights.groups.items()}}


def _list_factors(checks: tuple[Check, ...]) -> dict[str, float]:
    """Return the lowest reserve factor, and the lowest factor found of each kind of part."""
    least = {"least_margin": min(check.margin for check in checks)} if checks else {}
    for check in checks:
        key = f"factor_{check.asked.kind}"
        least[key] = min(least.get(key, check.found), check.found)
    return least


def _list_forces(forces: Forces, trees: TreeLoads) -> dict[str, float]:
    """Return the largest force of each kind of part, N."""
    return {
        "side_cord_N": max(forces.side_cord_left_max, forces.side_cord_right_max),
        "head_bar_thrust_N": forces.head_bar_thrust,
        "foot_bar_thrust_N": forces.foot_bar_thrust,
        "line_N": max(forces.head_line, forces.foot_line),
        "tree_pull_N": max(trees.head.pull, trees.foot.pull),
    }


def _list_lengths(shape: LoadedShape) -> dict[str, float]:
    """Return how it hangs, m and rad."""
    return {
        "sag_m": shape.sag,
        "ground_clearance_m": shape.ground_clearance,
        "hang_angle_rad": shape.hang_angle,
        "tree_distance_m": shape.tree_distance,
    }
