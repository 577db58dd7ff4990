"""Checks in a table for a terminal."""

from collections.abc import Iterable, Iterator

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from ...display.basis_words import show_basis
from ...judging.checks.check import (
    NEVER_CHECKED,
    Check,
    Unchecked,
    merge_sides,
    name_part,
    split_checks,
    write_factor,
    write_utilisation,
)
from ...judging.checks.findings import Findings
from ...judging.verdict.verdict import write_unjudged
from ...result_record import ResultRecord
from ...unit_display import Units, find_main_system, show_alike, write_sentence
from .footnotes import MARKS, write_footnotes


def show_checks(findings: Findings, units: Units, *, most: int | None = None) -> list[RenderableType]:
    """Return the checks: all that fail, then the tightest of every other part; left and right as one.

    Parameters
    ----------
    findings : Findings
        Of a solved design.
    units : {"metric", "imperial", "both"}
        The table has one system only: imperial where that is asked for, else metric.
    most : int or None
        Rows of checks that pass; None is all.

    Returns
    -------
    list of renderable
        Nothing is wider than 80 columns.
    """
    rows = merge_sides(split_checks(findings.checks)[0])
    failed = [check for check in rows if not check.passed]
    shown = rows if most is None else rows[: max(most, len(failed))]
    return [
        *([_build_table(shown, units)] if shown else []),
        *map(Text, write_footnotes(_tell_rest(rows[len(shown) :]), {check.capacity.basis for check in shown})),
    ]


def list_never_checked(findings: Findings) -> Iterator[str]:
    """Yield in one line the parts that nothing in the design file gets checked; nothing without any."""
    if parts := [each.part for each in findings.unchecked if each.part in NEVER_CHECKED]:
        yield f"NOT CHECKED: {', '.join(parts)}. `--details` tells what they bear."


def list_unchecked(unchecked: Iterable[Unchecked], units: Units) -> Iterator[str]:
    """Yield a line for every part that could not be checked, with what to add."""
    for each in unchecked:
        yield f"NOT CHECKED, {each.part}: {write_sentence(each.reason, units)}"


def list_unjudged(record: ResultRecord) -> Iterator[str]:
    """Yield in one line what else is required and was not looked at.

    Parameters
    ----------
    record : ResultRecord
        Of one load.
    """
    if record.judged is not None and record.judged.unjudged:
        yield write_unjudged(record.judged)


def list_factors(findings: Findings) -> Iterator[str]:
    """Yield the sources of the factors required: a heading, then one line for each; nothing without checks.

    Parameters
    ----------
    findings : Findings
        Of a solved design.
    """
    if findings.checks:
        yield "\nRequired factors of safety"
    for factor in dict.fromkeys(check.asked for check in findings.checks):
        yield f"- {factor.value:g}, {factor.kind}: {factor.source} [{show_basis(factor.basis)}]"


def _build_table(checks: list[Check], units: Units) -> Table:
    """Return one row for each check; what fails is bold, and says so."""
    system = find_main_system(units)
    table = Table(
        title="\nStrength: the worst check of each part",
        title_justify="left",
        title_style="bold",
        box=None,
        pad_edge=False,
    )
    for heading in ("", "failure"):
        table.add_column(heading)
    for heading in ("load", "strength", "factor", "required", "used"):
        table.add_column(heading, justify="right", no_wrap=True)
    for check in checks:
        pair = show_alike([check.demand, check.capacity.value], check.capacity.dimension, system)
        factors = (f"{write_factor(check.found)}{MARKS.get(check.capacity.basis, ' ')}", f"{check.asked.value:g}")
        used = write_utilisation(check.margin)
        cells = (name_part(check.part), check.mechanism, *pair, *factors, used if check.passed else f"FAIL {used}")
        table.add_row(*map(Text, cells), style="" if check.passed else "bold")
    return table


def _tell_rest(hidden: list[Check]) -> str:
    """Return what is left out; nothing where that is none."""
    count = "1 more part" if len(hidden) == 1 else f"{len(hidden)} more parts"
    return f"{count}: {write_utilisation(hidden[0].margin)} or less." if hidden else ""
