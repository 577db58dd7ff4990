"""Scatter in tables and words for a terminal."""

from collections.abc import Iterator

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from ....materials import System, format_quantity
from ...display.scatter_words import LIMITS, find_likeliest, write_chance, write_scatter
from ...judging.checks.check import write_factor
from ...judging.sensitivity.scatter_record import InputShare, MeasureScatter, ScatterRecord
from ...record import SIValue
from ...unit_display import write_sentence

_MOST_INPUTS, _POOR = 2, 0.8  # told of each quantity; share of the scatter that the polynomial has to explain
_FITTING = 4  # columns that are never wider than they may be


def show_scatter(scatter: ScatterRecord, system: System) -> list[RenderableType]:
    """Return chances, bands and where they come from.

    Parameters
    ----------
    scatter : ScatterRecord
        From :func:`~tautlay.cases.studies.scatter.scatter_search.find_scatter`.
    system : {"metric", "imperial"}
        Of all quantities.

    Returns
    -------
    list of renderable
        Nothing is wider than 80 columns.
    """
    return [
        _build_checks(scatter),
        _build_sources(scatter, system),
        _build_measures(scatter, system),
        *(Text(line) for line in _write_remarks(scatter, system)),
    ]


def _start_table(title: str, *headings: str) -> Table:
    """Return an empty table whose first column is words."""
    table = Table(title=f"\n{title}", title_justify="left", title_style="bold", box=None, pad_edge=False)
    for number, heading in enumerate(headings):
        table.add_column(heading, justify="right" if number else "left", no_wrap=0 < number < _FITTING)
    return table


def _build_checks(scatter: ScatterRecord) -> Table:
    """Return the factors that 5 to 95 of 100 have, and the chances of less than required and less than 1."""
    solved = max((check.solved for check in scatter.checks), default=0)
    title = f"Scatter: all inputs drawn at once, {solved} hammocks solved"
    table = _start_table(title, "check", "5 to 95 of 100", "required", "below it", "fails")
    for check in scatter.checks:
        band = f"{write_factor(check.low)} to {write_factor(check.high)}"
        chances = (write_chance(check.short_chance), write_chance(check.break_chance))
        table.add_row(f"{check.part}, {check.mechanism}", band, f"{check.required:g}", *chances)
    return table


def _build_sources(scatter: ScatterRecord, system: System) -> Table:
    """Return from which inputs the scatter of each check comes."""
    table = _start_table("Where it comes from: share of the scatter, alone and with others", "check", "input", "share")
    for check in scatter.checks:
        for number, share in enumerate(check.inputs[:_MOST_INPUTS]):
            shares = f"{share.first:.0%}, {share.total:.0%}"
            table.add_row("" if number else check.part, write_sentence(share.input, system), shares)
    return table


def _build_measures(scatter: ScatterRecord, system: System) -> Table:
    """Return the bands of the hang and the lie."""
    table = _start_table("Hang and lie, 5 to 95 of 100", "measure", "low", "nominal", "high", "mostly from")
    for each in scatter.measures:
        cells = (_show(end, system) for end in (each.low, each.nominal, each.high))
        table.add_row(each.title, *cells, _name_first(each, system))
    return table


def _show(value: SIValue, system: System) -> str:
    """Return a value with its unit."""
    return format_quantity(value.value, value.dimension, system)


def _name_first(measure: MeasureScatter, system: System) -> str:
    """Return the input that scatters a measure most, without the name of its material."""
    first: InputShare | None = measure.inputs[0] if measure.inputs else None
    return "" if first is None else write_sentence(first.input, system).split(",")[0]


def _write_remarks(scatter: ScatterRecord, system: System) -> Iterator[str]:
    """Yield what it means, what is missing, and what no chance counts."""
    likeliest = find_likeliest(scatter)
    if likeliest is not None:
        yield f"\n{write_scatter(likeliest)}"
    for check in scatter.checks:
        if check.explained < _POOR:
            yield f"Few inputs explain the scatter of {check.part}: ask for more --samples."
    for lost in scatter.lost:
        yield f"NOT FOUND: {lost.count} of the drawn hammocks: {write_sentence(lost.reason, system)}"
    yield LIMITS
