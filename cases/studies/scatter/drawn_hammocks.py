"""Hammocks with all inputs drawn at once, solved one after the other."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np

from ....hammock import HammockError
from ....hammock.arrays import FloatArray
from ...judging.comfort.measure_list import MEASURES
from ...judging.sensitivity.range_input import Input, list_multipliers
from ...result import Result
from ...solving.no_equilibrium import NoEquilibriumError
from ..sensitivity.tracked_checks import CheckId
from ..sensitivity.variation import Variation
from .distribution import Distribution
from .drawn_design import put_values

_HANG = (  # fields of the loaded shape
    ("ground_clearance", "height of the lowest point", "length"),
    ("sag", "sag below the bars", "length"),
    ("head_line_angle", "head line angle", "angle"),
    ("foot_line_angle", "foot line angle", "angle"),
)


class MeasureId(NamedTuple):
    """A measure that is followed: its words, its dimension."""

    title: str
    dimension: str


@dataclass
class DrawnHammocks:
    """What was found for each drawn hammock.

    Parameters
    ----------
    scores : array (n, inputs)
        Of those that have a shape.
    factors : dict of CheckId to list of float
        Factors over that of the unchanged hammock; NaN where a check is missing.
    measures : dict of MeasureId to list of float
        Shifts from the unchanged hammock, SI.
    lost : list of str
        Why the others have none.
    """

    scores: list[FloatArray] = field(default_factory=list)
    factors: dict[CheckId, list[float]] = field(default_factory=dict)
    measures: dict[MeasureId, list[float]] = field(default_factory=dict)
    lost: list[str] = field(default_factory=list)


def solve_drawn(variation: Variation, inputs: Mapping[Input, Distribution], scores: FloatArray) -> DrawnHammocks:
    """Return what is found with each row of scores, every hammock solved from the unchanged one's shape.

    Parameters
    ----------
    variation : Variation
        With its base solved.
    inputs : mapping of Input to Distribution
        What is drawn, in the order of the columns.
    scores : array (n, inputs)
        Of mean 0 and variance 1.
    """
    found, base = DrawnHammocks(), variation.base
    assert base is not None
    values = np.column_stack([law.take(column) for law, column in zip(inputs.values(), scores.T, strict=True)])
    start = read_measures(base)
    for number, (row, line) in enumerate(zip(values, scores, strict=True)):
        drawn = dict(zip(inputs, (float(each) for each in row), strict=True))
        try:
            result = variation.solve(put_values(variation.design, drawn), f"hammock {number + 1} of {len(values)}")
        except (NoEquilibriumError, HammockError, ValueError) as error:
            found.lost.append(str(error).splitlines()[0])
            continue
        found.scores.append(line)
        for key, ratio in _find_ratios(variation, result, drawn).items():
            found.factors.setdefault(key, []).append(ratio)
        for measure, value in read_measures(result).items():
            found.measures.setdefault(measure, []).append(value - start[measure])
    return found


def _find_ratios(variation: Variation, result: Result, drawn: Mapping[Input, float]) -> dict[CheckId, float]:
    """Return by what each factor is multiplied, shares kept included."""
    after = variation.check(result)
    ratios = {}
    for key in variation.keys:
        if key not in after:
            ratios[key] = float("nan")
            continue
        shares = [source for source in list_multipliers(after[key].capacity.steps) if source in drawn]
        kept = float(np.prod([drawn[source] / source.value for source in shares]))
        ratios[key] = kept * after[key].found / variation.before[key].found
    return ratios


def read_measures(result: Result) -> dict[MeasureId, float]:
    """Return how it hangs, and lying how the person lies, SI."""
    found = {MeasureId(title, dimension): float(getattr(result.shape, name)) for name, title, dimension in _HANG}
    if result.comfort is not None:
        found |= {MeasureId(each.title, each.dimension): each.read(result.comfort) for each in MEASURES}
    return found
