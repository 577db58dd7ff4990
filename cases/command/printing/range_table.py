"""Factor ranges in tables and words for a terminal."""

from collections.abc import Iterator
from math import log

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from ....materials import System, format_quantity
from ...judging.checks.check import write_factor
from ...judging.sensitivity.factor_range import FactorRange, InputEffect
from ...judging.sensitivity.factor_ranges import FactorRanges, MissingRangeEnd
from ...judging.sensitivity.home_tests import SOURCE, TESTS
from ...judging.sensitivity.range_input import Input
from ...unit_display import Units, find_main_system, write_sentence
from .scatter_table import show_scatter

_LITTLE = 0.005  # of a range, below which an input is not worth a line
_NARROW = 0.05  # width of a range, as a logarithm, that is not worth narrowing


def show_factor_ranges(ranges: FactorRanges, units: Units) -> list[RenderableType]:
    """Return the uncertainty of the checks, and what to measure first.

    Parameters
    ----------
    ranges : FactorRanges
        From :func:`~tautlay.cases.studies.sensitivity.range_search.find_factor_ranges`.
    units : {"metric", "imperial", "both"}
        The tables have one system only: imperial where that is asked for, else metric.

    Returns
    -------
    list of renderable
        Nothing is wider than 80 columns.
    """
    system: System = find_main_system(units)
    if not ranges.ranges:
        return [Text("\nUncertainty: nothing was checked.")]
    first = ranges.ranges[0]
    return [
        _build_table(ranges),
        *(Text(line) for line in _explain_marks(ranges)),
        *([_build_inputs(first, system)] if first.effects else []),
        *(Text(line) for line in _advise(ranges, units)),
        *(Text(_write_failure(each, system)) for each in ranges.failures),
        *(Text(line) for line in _write_limits(ranges)),
        *([] if ranges.scatter is None else show_scatter(ranges.scatter, system)),
    ]


def _build_table(ranges: FactorRanges) -> Table:
    """Return the ranges of the factors."""
    title = "\nUncertainty: likely range of each factor of safety"
    table = Table(title=title, title_justify="left", title_style="bold", box=None, pad_edge=False)
    for heading in ("part", "failure"):
        table.add_column(heading)
    for heading in ("low", "nominal", "high", "required"):
        table.add_column(heading, justify="right", no_wrap=True)
    table.add_column("", no_wrap=True)
    for band in ranges.ranges:
        check = band.check
        mark = ("+" if not band.complete else "") + ("?" if band.unknown else "")
        factors = (
            write_factor(band.least),
            write_factor(check.found),
            f"{write_factor(band.most)}{mark:<2}",
            f"{check.asked.value:g}",
        )
        verdict = "FAIL" if not check.passed else "UNCERTAIN" if band.falls_short else "pass"
        cells = (check.part, check.mechanism, *factors, verdict)
        table.add_row(*map(Text, cells), style="" if verdict == "pass" else "bold")
    return table


def _explain_marks(ranges: FactorRanges) -> Iterator[str]:
    """Yield what the marks in the table mean."""
    if any(band.unknown for band in ranges.ranges):
        yield "? depends also on inputs without a known range: the true range is wider."
    if not all(band.complete for band in ranges.ranges):
        yield "+ not found at every end of every range, see below: the true range is wider."


def _build_inputs(band: FactorRange, system: System) -> Table:
    """Return the effect of each input on the governing check, and by how much knowing it narrows the range."""
    title = f"\nEffect of each input on the first: {band.check.title}"
    table = Table(title=title, title_justify="left", title_style="bold", box=None, pad_edge=False)
    table.add_column("input")
    for heading in ("range", "factor", "narrows range by"):
        table.add_column(heading, justify="right")
    for effect in band.ranked:
        if band.find_share(effect) >= _LITTLE:
            cells = (
                write_sentence(effect.source.title, system),
                _show_range(effect.source, system),
                _show_factors(effect, band.check.found),
                f"{band.find_share(effect):.0%}",
            )
            table.add_row(*map(Text, cells))
    return table


def _show_range(source: Input, system: System) -> str:
    """Return the range of an input, lowest first."""
    assert source.range is not None  # only a range has effects
    return " to ".join(format_quantity(end, source.dimension, system) for end in source.range)


def _show_factors(effect: InputEffect, found: float) -> str:
    """Return the factors at both ends of a range; an end that is what was taken has the factor found."""
    ends = dict(effect.factors)
    low, high = effect.source.range or (effect.source.value, effect.source.value)
    return " to ".join("?" if (factor := ends.get(end, found)) is None else f"{factor:.2f}" for end in (low, high))


def _advise(ranges: FactorRanges, units: Units) -> Iterator[str]:
    """Yield what to measure first, how, and what else for the other checks."""
    first = ranges.ranges[0]
    source = first.worth_measuring
    if source is None:
        yield "No input with a range changes it."
        return
    narrow, title = first.narrow(source), write_sentence(source.title, units)
    yield (
        f"\nMeasure this first: {title}. If it had exactly its nominal value, the range would be "
        f"{write_factor(narrow.least)} to {write_factor(narrow.most)} instead of {write_factor(first.least)} to "
        f"{write_factor(first.most)}."
    )
    yield f"At home: {write_sentence(TESTS[source.test], units)} [{SOURCE}]"
    others: dict[Input, list[str]] = {}
    for band in ranges.ranges[1:]:
        other = band.worth_measuring
        if other is not None and other != source and log(band.most / band.least) > _NARROW:
            others.setdefault(other, []).append(band.check.part)
    for other, parts in others.items():
        yield f"For {' and '.join(parts)}: {write_sentence(other.title, units)}."


def _write_failure(failure: MissingRangeEnd, system: System) -> str:
    """Return why a factor is missing at an end of a range."""
    end = format_quantity(failure.end, failure.source.dimension, system)
    return f"NOT FOUND: {write_sentence(failure.source.title, system)} at {end}: {failure.reason}"


def _write_limits(ranges: FactorRanges) -> Iterator[str]:
    """Yield what was assumed exact, what the ranges mean, and the solves they took."""
    if ranges.unknown:
        names = "; ".join(str(source.title) for source in ranges.unknown)
        yield f"No range known, assumed exact: {names}."
    worst = write_factor(ranges.ranges[0].worst)
    yield (
        "Low and high: each input at both ends of its range, combined as independent errors (root sum of squares of "
        f"logarithms). Not bounds: all inputs at their worst end give {worst} for the first. Person, lengths, bow of "
        "bars and formulas count as exact."
    )
    yield f"{ranges.solves} more solves of {ranges.triangles:,} triangles, {ranges.seconds:.0f} s."
