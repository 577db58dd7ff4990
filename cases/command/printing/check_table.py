"""Checks in words and a table for a terminal."""

from collections.abc import Iterator

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from ....materials import System
from ...judging.checks.check import Check, name_part, write_factor
from ...judging.checks.findings import Findings
from ...unit_display import Units, find_main_system, show_alike, write_sentence
from .footnotes import MARKS, explain_marks


def show_checks(findings: Findings, units: Units) -> list[RenderableType]:
    """Return what gives way first, what that rests on, and what was not checked.

    Parameters
    ----------
    findings : Findings
        Of a solved design.
    units : {"metric", "imperial", "both"}
        The table has one system only: imperial where that is asked for, else metric.

    Returns
    -------
    list of renderable
        Nothing is wider than 80 columns.
    """
    return [
        *([_build_table(findings, units)] if findings.checks else []),
        *(Text(line) for line in _write_footnotes(findings)),
        *(Text(f"NOT CHECKED, {each.part}: {write_sentence(each.reason, units)}") for each in findings.unchecked),
    ]


def _build_table(findings: Findings, units: Units) -> Table:
    """Return what fails, and of every other part its weakest way, left and right as one."""
    system: System = find_main_system(units)
    table = Table(title="\nWhat gives way first", title_justify="left", title_style="bold", box=None, pad_edge=False)
    for heading in ("part", "how it fails"):
        table.add_column(heading)
    for heading in ("carries", "bears", "factor", "asked"):
        table.add_column(heading, justify="right", no_wrap=True)
    table.add_column("", no_wrap=True)
    for check in _choose_rows(findings):
        demand, bears = show_alike([check.demand, check.capacity.value], check.capacity.dimension, system)
        mark = MARKS.get(check.capacity.basis, " ")
        verdict = "ok" if check.passed else "NOT ENOUGH"
        factors = (f"{write_factor(check.found)}{mark}", f"{check.asked.value:g}")
        cells = (check.part, check.mechanism, demand, bears, *factors, verdict)
        table.add_row(*map(Text, cells), style="" if check.passed else "bold")
    return table


def _choose_rows(findings: Findings) -> Iterator[Check]:
    """Yield the checks worth a row: all that fail, and the weakest of every part."""
    seen = set()
    for check in findings.checks:
        part = name_part(check.part)
        if not check.passed or part not in seen:
            yield check
        seen.add(part)


def _write_footnotes(findings: Findings) -> Iterator[str]:
    """Yield what the marks mean."""
    marks = explain_marks({check.capacity.basis for check in findings.checks})
    yield "; ".join([*marks, "result.json tells every step"]) + "."


def list_factors(findings: Findings) -> Iterator[str]:
    """Yield where the factors asked come from.

    Parameters
    ----------
    findings : Findings
        Of a solved design.

    Yields
    ------
    str
        A heading, then one line for each factor; nothing where nothing was checked.
    """
    if findings.checks:
        yield "\nWhere the factors asked come from"
    for factor in dict.fromkeys(check.asked for check in findings.checks):
        yield f"- {factor.value:g}, {factor.kind}: {factor.source} [{factor.basis}]"
