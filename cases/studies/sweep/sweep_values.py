"""Result values of a solved design: numbers, governing check, failed checks."""

from collections.abc import Mapping, Sequence
from math import inf, isfinite
from typing import NamedTuple

from ....materials.short_repr import write_repr
from ...design import Design
from ...judging.checks import Check
from ...judging.comfort.measure_list import MEASURES
from ...judging.forces import Forces
from ...judging.loaded_shape import LoadedShape
from ...judging.trees import TreeLoads
from ...judging.verdict.requirement import Requirement, Topic
from ...judging.verdict.verdict import Verdict, describe_failure
from ...judging.weighing import Weights
from ...result import Result
from ..judge.case_solver import SolvedCase, merge_solved
from .result_value import RESULT_VALUES, SHARES


class SweepValues(NamedTuple):
    """What a sweep stores of a design.

    Parameters
    ----------
    figures : dict of str to float
        By key, SI; of several cases the worst.
    governs : str
        Strength check that governs.
    failed : tuple of str
        Requirements that are not met, the worst first.
    unchecked : tuple of str
        Parts not checked.
    judged, unjudged : tuple of str
        Loads, and people if there are several, that were looked at, and those that are required and were not.
    """

    figures: dict[str, float]
    governs: str
    failed: tuple[str, ...]
    unchecked: tuple[str, ...]
    judged: tuple[str, ...] = ()
    unjudged: tuple[str, ...] = ()

    def __repr__(self) -> str:
        return write_repr(self, f"{len(self.figures)} figures", self.governs, f"{len(self.failed)} checks not met")


def measure_cases(design: Design, solved: tuple[SolvedCase, ...]) -> SweepValues:
    """Return what a sweep stores of a design that was solved under one or several loads.

    Parameters
    ----------
    design : Design
        With what it has to stand.
    solved : tuple of SolvedCase
        Its cases; at least one has an equilibrium.

    Returns
    -------
    SweepValues
        Figures in the order of :data:`~tautlay.cases.studies.sweep.result_value.RESULT_VALUES`.
    """
    verdict, several = merge_solved(design, solved), len(solved) > 1
    found = [_list_figures(each.result) for each in sorted(solved, key=_find_place) if each.result is not None]
    strength = [each for each in verdict.requirements if each.topic is Topic.STRENGTH]
    name = next((f"{each.name} ({each.case})" if several else each.name for each in strength), "")
    return SweepValues(
        _keep_worst(found) | _list_shares(verdict),
        name,
        tuple(_describe(each, case=several) for each in verdict.failed),
        verdict.unchecked,
        verdict.judged,
        verdict.unjudged,
    )


def _list_shares(verdict: Verdict) -> dict[str, float]:
    """Return how much of what is required is used, by topic, and how much is not met without such a share."""
    found: dict[str, float] = {"plainly_unmet": float(sum(each.utilisation is None for each in verdict.failed))}
    if verdict.governing is not None and verdict.governing.utilisation is not None:
        found["worst_used"] = verdict.governing.utilisation
    for key, topic in (("ground_used", Topic.GROUND), ("lay_used", Topic.LAY), ("size_used", Topic.SIZE)):
        used = [each.utilisation for each in verdict.requirements if each.topic is topic]
        known = [share for share in used if share is not None]
        if known:
            found[key] = max(known)
    return {key: found[key] for key in SHARES if isfinite(found.get(key, inf))}


def _describe(failure: Requirement, *, case: bool) -> str:
    """Return what is wrong in a few words; where there is no equilibrium, with the reason."""
    words = describe_failure(failure, case=case)
    return f"{words}: {failure.remedy}" if failure.topic is Topic.EQUILIBRIUM else words


def _find_place(solved: SolvedCase) -> tuple[bool, bool]:
    """Return the sort key by which values that have no better direction are taken: of a person in contact, at rest."""
    return solved.case.load.sudden, not solved.case.load.in_contact


def _keep_worst(found: Sequence[Mapping[str, float]]) -> dict[str, float]:
    """Return the worst of each value; of one that has no better direction the first."""
    worst: dict[str, float] = {}
    for value in RESULT_VALUES:
        given = [each[value.key] for each in found if value.key in each]
        if given:
            choose = {"less": max, "more": min}.get(value.better)
            worst[value.key] = choose(given) if choose else given[0]
    return worst


def _list_figures(result: Result) -> dict[str, float]:
    """Return the values of one result, SI."""
    comfort = result.comfort
    found = {
        **_list_masses(result.weights),
        **_list_factors(result.findings.checks),
        **_list_forces(result.forces, result.trees),
        **_list_lengths(result.shape),
        **({} if comfort is None else {measure.key: measure.read(comfort) for measure in MEASURES}),
    }
    return {key: float(value) for key, value in found.items() if isfinite(value)}


def _list_masses(weights: Weights) -> dict[str, float]:
    """Return the masses of what is not dual-use, kg."""
    return {"packed_kg": weights.packed, **{f"{group}_kg": mass for group, mass in weights.groups.items()}}


def _list_factors(checks: tuple[Check, ...]) -> dict[str, float]:
    """Return the lowest reserve factor, and the lowest factor found and reserve of each kind of part."""
    least = {"least_margin": min(check.margin for check in checks)} if checks else {}
    for check in checks:
        for name, value in (("factor", check.found), ("reserve", check.margin)):
            key = f"{name}_{check.asked.kind}"
            least[key] = min(least.get(key, value), value)
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
