"""Find the factor ranges: every input at both ends of its range, one at a time."""

import time
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import NamedTuple

from ....hammock import HammockError
from ....making import WET
from ....materials import BarSection
from ...judging.checks import Case, Check
from ...judging.sensitivity.factor_range import FactorRange, InputEffect
from ...judging.sensitivity.factor_ranges import FactorRanges, MissingRangeEnd
from ...judging.sensitivity.material_replacement import swap_material
from ...judging.sensitivity.range_input import Input, MaterialInput, list_capacities, list_mechanical, list_multipliers
from ...result import Result
from ...solving.no_equilibrium import NoEquilibriumError
from ..line_callback import LineCallback
from .tracked_checks import CheckId, choose_checks, list_checkers, run_checks
from .variation import Variation

MOST = 5  # checks
_NOTHING = 1e-6  # by which a factor changes where it does not depend on an input
_PROBE = 1.01  # times a value of which no range is known, to see whether anything depends on it

Ratios = Mapping[CheckId, float]  # by what the factors are multiplied


class RangeEndResult(NamedTuple):
    """Result at one end of the range of an input: the factors it changes, or why that was not found."""

    source: Input
    end: float
    ratios: Ratios
    reason: str = ""


def find_factor_ranges(result: Result, *, most: int = MOST, progress: LineCallback | None = None) -> FactorRanges:
    """Find the likely range of the factors of the checks of highest utilisation.

    Every input is set to the low and to the high end of its range, one at a time. Stiffnesses of cloth, cords, lines
    and straps change shape and forces: each end is solved, beginning from the shape that was found, between the same
    trees, on a mesh of at least 8 cm that is as fine along channels and bars as the checks need. Strengths, sizes and
    shares only change capacities: their checks are made again. Combined in ``factor_range``.

    Parameters
    ----------
    result : Result
        Of any load case.
    most : int
        How many checks, the highest utilisation first, one for each part.
    progress : callable or None
        Receives a line of text while it works.

    Returns
    -------
    FactorRanges
        An end at which no shape was found is among its ``failures``.

    Notes
    -----
    Lengths, masses, the person, the bow of bars and the formulas count as exact, and so does every input of which no
    range is known, which is listed. Bars count as stiff: their modulus changes their capacity, not the
    shape.
    """
    begun = time.perf_counter()
    found = choose_checks(run_checks(result.case), most)
    variation = Variation(result, tuple(found), progress)
    outcomes = [
        *_vary_stiffness(result, variation),
        *_vary_capacity(result.case, found),
        *_vary_wet(result.case, found),
        *_vary_multipliers(found),
    ]
    unknown = _find_unknown(result.case, found)
    return FactorRanges(
        tuple(
            FactorRange(check, _list_effects(key, check, outcomes), tuple(unknown[key])) for key, check in found.items()
        ),
        tuple(_list_failures(found, outcomes)),
        len(variation.base.model.triangles) if variation.base else 0,
        variation.solves,
        time.perf_counter() - begun,
    )


def _vary_stiffness(result: Result, variation: Variation) -> Iterator[RangeEndResult]:
    """Yield the effect of each stiffness, by solves."""
    tasks = [(source, end) for source in list_mechanical(result.design.hammock) for end in source.ends]
    if not tasks or not variation.keys:
        return
    try:
        variation.solve_base(len(tasks))
    except NoEquilibriumError as error:
        yield from (
            RangeEndResult(source, end, {}, f"no equilibrium on the coarse mesh: {error}") for source, end in tasks
        )
        return
    for source, end in tasks:
        try:
            material = source.take(end)
        except ValueError as error:
            yield RangeEndResult(source, end, {}, str(error))
            continue
        try:
            yield RangeEndResult(source, end, variation.find_ratios(source, material))
        except (NoEquilibriumError, HammockError) as error:
            yield RangeEndResult(source, end, {}, str(error))


def _vary_capacity(case: Case, found: Mapping[CheckId, Check]) -> Iterator[RangeEndResult]:
    """Yield the effect of each number that changes only capacities."""
    for source in list_capacities(case.hammock, case.workmanship):
        for end in source.ends:
            yield _try_value(case, found, source, end)


def _try_value(case: Case, found: Mapping[CheckId, Check], source: MaterialInput, value: float) -> RangeEndResult:
    """Return the effect of another value of a number on capacities."""
    try:
        material = source.take(value)
    except ValueError as error:
        return RangeEndResult(source, value, {}, str(error))
    hammock = swap_material(case.hammock, source.material, material)
    work = swap_material(case.workmanship, source.material, material)
    varied = case._replace(model=replace(case.model, hammock=hammock), workmanship=work)
    bars = isinstance(source.material, BarSection)
    return RangeEndResult(source, value, _compare(varied, found, bars=bars))


def _compare(varied: Case, found: Mapping[CheckId, Check], *, bars: bool) -> Ratios:
    """Return the ratios of the factors of some checks in another case; 1 for bars that are unchanged."""
    after = run_checks(varied, list_checkers(found, bars=bars))
    kept = {key for key in found if key.checker not in list_checkers(found, bars=bars)}
    return {
        key: 1.0 if key in kept else after[key].found / check.found
        for key, check in found.items()
        if key in kept or key in after
    }


def _vary_wet(case: Case, found: Mapping[CheckId, Check]) -> Iterator[RangeEndResult]:
    """Yield the effect of the loss of wet nylon."""
    reductions = case.workmanship.reductions
    if not reductions.wet:
        return
    source = Input("wet nylon, share kept", reductions.wet_keeps, WET, "ratio", "wet")
    for end in source.ends:
        work = replace(case.workmanship, reductions=replace(reductions, wet_keeps=end))
        yield RangeEndResult(source, end, _compare(case._replace(workmanship=work), found, bars=False))


def _vary_multipliers(found: Mapping[CheckId, Check]) -> Iterator[RangeEndResult]:
    """Yield the effect of each share that a capacity is multiplied with."""
    has = {key: list_multipliers(check.capacity.steps) for key, check in found.items()}
    for source in dict.fromkeys(each for sources in has.values() for each in sources):
        for end in source.ends:
            yield RangeEndResult(source, end, {key: end / source.value if source in has[key] else 1.0 for key in found})


def _list_effects(key: CheckId, check: Check, outcomes: list[RangeEndResult]) -> tuple[InputEffect, ...]:
    """Return the effects on one check of all inputs that change it, or may."""
    factors: dict[Input, list[tuple[float, float | None]]] = {}
    for each in outcomes:
        ratio = each.ratios.get(key)
        if ratio is None or abs(ratio - 1) > _NOTHING:
            factors.setdefault(each.source, []).append((each.end, None if ratio is None else ratio * check.found))
    return tuple(InputEffect(source, tuple(ends)) for source, ends in factors.items())


def _list_failures(found: Mapping[CheckId, Check], outcomes: list[RangeEndResult]) -> Iterator[MissingRangeEnd]:
    """Yield the ends of ranges at which a factor is missing, and why."""
    for each in outcomes:
        missing = [check for key, check in found.items() if key not in each.ratios]
        if each.reason:
            yield MissingRangeEnd(each.source, each.end, each.reason)
        elif missing:
            words = "; ".join(check.title for check in missing)
            yield MissingRangeEnd(
                each.source, each.end, f"a part then fails in another mode, and this check is missing: {words}."
            )


def _find_unknown(case: Case, found: Mapping[CheckId, Check]) -> dict[CheckId, list[Input]]:
    """Return by check the inputs without a range on which it depends."""
    stiff = [source for source in list_mechanical(case.hammock) if source.range is None]
    unknown: dict[CheckId, list[Input]] = {key: [*stiff] for key in found}
    for source in list_capacities(case.hammock, case.workmanship) if found else ():
        if source.range is None:
            tried = _try_value(case, found, source, source.value * _PROBE).ratios
            for key in found:
                if abs(tried.get(key, 0.0) - 1) > _NOTHING:
                    unknown[key].append(source)
    for key, check in found.items():
        unknown[key] += [source for source in list_multipliers(check.capacity.steps) if source.range is None]
    return unknown
