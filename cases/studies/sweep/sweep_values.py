"""Result values of a solved design: numbers, governing check, failed checks."""

from math import isfinite
from typing import NamedTuple

from ....making import WeightGroup
from ...judging.checks import Check
from ...judging.clearance import Clearance
from ...judging.comfort.comfort import describe_comfort
from ...judging.forces import describe_forces
from ...judging.loaded_shape import describe_shape
from ...judging.trees import describe_trees
from ...judging.weighing import weigh_design
from ...result import Result
from .result_value import RESULT_VALUES


class SweepValues(NamedTuple):
    """Figures of a solved design by key, SI; what governs; checks not met; parts not checked."""

    figures: dict[str, float]
    governs: str
    failed: tuple[str, ...]
    unchecked: tuple[str, ...]


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
    shape = describe_shape(result.model, result.state)
    found = {
        **_weigh(result),
        **_list_factors(checks),
        **_list_forces(result),
        **{key: value for key, value in shape.items() if not key.endswith("line_angle_rad")},
        **(describe_comfort(result.model, result.state) if result.model.frame is not None else {}),
    }
    figures = {figure.key: float(found[figure.key]) for figure in RESULT_VALUES if figure.key in found}
    clearance = Clearance(shape["ground_clearance_m"])
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


def _weigh(result: Result) -> dict[str, float]:
    """Return the masses of what is not dual-use, kg."""
    scales = weigh_design(result.design)
    groups = {f"{group}_kg": scales.add(group, carried=False).mass for group in WeightGroup}
    return {"packed_kg": scales.packed.mass, **groups}


def _list_factors(checks: tuple[Check, ...]) -> dict[str, float]:
    """Return the lowest reserve factor, and the lowest factor found of each kind of part."""
    least = {"least_margin": checks[0].margin} if checks else {}
    for check in checks:
        key = f"factor_{check.asked.kind}"
        least[key] = min(least.get(key, check.found), check.found)
    return least


def _list_forces(result: Result) -> dict[str, float]:
    """Return the largest force of each kind of part, N."""
    forces, trees = describe_forces(result.model, result.state), describe_trees(result.model, result.state)
    return {
        "side_cord_N": max(forces["side_cord_left_max_N"], forces["side_cord_right_max_N"]),
        "head_bar_thrust_N": forces["head_bar_thrust_N"],
        "foot_bar_thrust_N": forces["foot_bar_thrust_N"],
        "line_N": max(forces["head_line_N"], forces["foot_line_N"]),
        "tree_pull_N": max(float(tree["pull_N"] or 0.0) for tree in trees.values()),
    }
