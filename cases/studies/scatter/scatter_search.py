"""Find the scatter of a result: chances of its checks, bands of its lie, and where they come from."""

import time
from collections import Counter
from collections.abc import Iterator, Mapping
from math import exp, log

import numpy as np

from ....hammock.arrays import FloatArray
from ...judging.checks import Check
from ...judging.sensitivity.factor_ranges import FactorRanges
from ...judging.sensitivity.range_input import Input, list_mechanical
from ...judging.sensitivity.scatter_record import (
    RULE,
    CheckScatter,
    DrawnInputRecord,
    InputShare,
    LostHammock,
    MeasureScatter,
    ScatterRecord,
)
from ...record import measure
from ...result import Result
from ..line_callback import LineCallback
from ..sensitivity.range_search import MOST
from ..sensitivity.tracked_checks import CheckId, choose_checks, run_checks
from ..sensitivity.variation import Variation
from .chance import draw_spread
from .distribution import Distribution, choose_distribution
from .draw import draw_many, draw_scores
from .drawn_hammocks import DrawnHammocks, MeasureId, read_measures, solve_drawn
from .hang_input import HangInput, list_hang_inputs
from .indices import find_indices
from .rare_chance import find_chance
from .response import Response, fit_response

FEWEST, SEED = 16, 10
_STILL = 1e-9  # SI, of a measure: what rounding alone does
_LITTLE = 0.01  # of a variance, below which an input is not told


def find_scatter(
    result: Result, ranges: FactorRanges, samples: int, *, progress: LineCallback | None = None
) -> ScatterRecord:
    """Find the scatter of the checks of highest utilisation and of how it hangs and how the person lies.

    Parameters
    ----------
    result : Result
        Of any load case.
    ranges : FactorRanges
        Of the same result: its inputs with an effect are drawn, besides lengths, heights, angle and mass.
    samples : int
        How many hammocks to solve.
    progress : callable or None
        Receives a line of text while it works.

    Raises
    ------
    ValueError
        For fewer than 16 samples, or if fewer have a shape.
    NoEquilibriumError
        If the unchanged hammock has no shape on the coarse mesh.

    Notes
    -----
    On a mesh as in ``find_factor_ranges``, between the same trees. Friction changes no check and is not drawn.
    """
    if samples < FEWEST:
        raise ValueError(f"{samples} samples are too few. Ask for {FEWEST} or more.")
    begun = time.perf_counter()
    chosen = choose_checks(run_checks(result.case), MOST)
    inputs = choose_inputs(result, ranges)
    variation = Variation(result, tuple(chosen), progress)
    variation.solve_base(samples)
    laws = list(inputs.values())
    scores = draw_scores(laws, samples, SEED)
    found = solve_drawn(variation, inputs, scores)
    if len(found.scores) < FEWEST:
        raise ValueError(f"only {len(found.scores)} of {samples} drawn hammocks have a shape: {found.lost[0]}")
    many = draw_many(laws)
    return ScatterRecord(
        rule=RULE,
        checks=tuple(_judge_check(check, found, key, inputs, many) for key, check in chosen.items()),
        measures=tuple(_list_measures(result, found, inputs, many)),
        inputs=tuple(_record_input(source, law) for source, law in inputs.items()),
        lost=tuple(LostHammock(count, reason) for reason, count in Counter(found.lost).items()),
        seconds=time.perf_counter() - begun,
    )


def choose_inputs(result: Result, ranges: FactorRanges) -> dict[Input, Distribution]:
    """Return what is drawn and how it scatters: what has an effect on a check, every stiffness, and how it hangs."""
    effects = [effect.source for band in ranges.ranges for effect in band.effects]
    stiffnesses = [source for source in list_mechanical(result.design.hammock) if source.ends]
    known: dict[Input, Distribution] = {}
    for source in [*stiffnesses, *effects]:
        if source.range is not None and source.range[0] < source.range[1]:
            known[source] = choose_distribution(source)
    placed: tuple[HangInput, ...] = list_hang_inputs(result)
    return known | {source: source.distribution for source in placed}


def _judge_check(
    check: Check, found: DrawnHammocks, key: CheckId, inputs: Mapping[Input, Distribution], many: FloatArray
) -> CheckScatter:
    """Return the scatter of one check, on a logarithmic scale."""
    ratios = np.array(found.factors[key])
    known = np.isfinite(ratios)
    response = fit_response(np.array(found.scores)[known], np.log(ratios[known]))
    spread = draw_spread(response, many)
    asked, laws = check.asked.value, list(inputs.values())
    low, middle, high = (check.found * exp(spread.find_quantile(share)) for share in (0.05, 0.5, 0.95))
    return CheckScatter(
        part=check.part,
        mechanism=check.mechanism,
        required=asked,
        low=low,
        middle=middle,
        high=high,
        short_chance=find_chance(response, laws, spread, log(asked / check.found)),
        break_chance=find_chance(response, laws, spread, log(1.0 / check.found)),
        short_count=int((check.found * ratios[known] < asked).sum()),
        solved=int(known.sum()),
        explained=response.explained,
        inputs=_share_out(response, inputs),
    )


def _list_measures(
    result: Result, found: DrawnHammocks, inputs: Mapping[Input, Distribution], many: FloatArray
) -> Iterator[MeasureScatter]:
    """Yield the bands of all measures that vary, as shifts from those of the result on its own mesh."""
    nominal, stiff = read_measures(result), set(list_mechanical(result.design.hammock))
    shaping: dict[Input, Distribution] = {
        source: law for source, law in inputs.items() if isinstance(source, HangInput) or source in stiff
    }
    columns = [place for place, source in enumerate(inputs) if source in shaping]
    scores = np.array(found.scores)[:, columns]
    for key, shifts in found.measures.items():
        if float(np.ptp(shifts)) > _STILL:
            yield _judge_measure(key, nominal[key], fit_response(scores, np.array(shifts)), shaping, many[:, columns])


def _judge_measure(
    key: MeasureId, nominal: float, response: Response, inputs: Mapping[Input, Distribution], many: FloatArray
) -> MeasureScatter:
    """Return the band of one measure; strengths shape nothing and are none of its inputs."""
    spread = draw_spread(response, many)
    low, high = (nominal + spread.find_quantile(share) for share in (0.05, 0.95))
    least, middle, most = (measure(each, key.dimension) for each in (low, nominal, high))
    return MeasureScatter(key.title, least, middle, most, _share_out(response, inputs))


def _share_out(response: Response, inputs: Mapping[Input, Distribution]) -> tuple[InputShare, ...]:
    """Return the inputs by their share of the variance, the largest total first."""
    used = sorted({place for term in response.terms for place in term})
    if not used:
        return ()
    sources, laws, size = list(inputs), list(inputs.values()), len(inputs)

    def compute(scores: FloatArray) -> FloatArray:
        whole = np.zeros((len(scores), size))
        whole[:, used] = scores
        return response.predict(whole)

    found = find_indices(compute, [laws[place] for place in used])
    shares = [
        InputShare(sources[place].title, float(first), float(total))
        for place, first, total in zip(used, found.first, found.total, strict=True)
        if total >= _LITTLE
    ]
    return tuple(sorted(shares, key=lambda share: -share.total))


def _record_input(source: Input, law: Distribution) -> DrawnInputRecord:
    """Return what was drawn, in plain numbers and words."""
    low, high = (measure(end, source.dimension) for end in (law.low, law.high))
    return DrawnInputRecord(source.title, law.kind, low, high, law.source)
