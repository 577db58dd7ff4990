"""A verdict in words and a table for a terminal."""

from collections.abc import Iterator
from itertools import groupby
from textwrap import fill

from rich.console import Console, Group, RenderableType
from rich.table import Table
from rich.text import Text

from ...display.judge_rows import HEADINGS, JudgeRow, list_judge_rows
from ...display.safety_cautions import CAUTIONS
from ...judging.verdict.verdict import write_outcome, write_unasked, write_unjudged
from ...studies.judge.judgement import Judgement
from ...studies.sweep.mesh_warning import note_mesh
from ...unit_display import WIDTH, Units, find_main_system, show_quantity, write_sentence
from .footnotes import MARKS, write_footnotes

_MOST = 12  # requirements that pass
_BULLET = " ! "


def print_judgement(found: Judgement, units: Units, console: Console) -> None:
    """Print the verdict, what it would take to pass, every requirement that fails and those closest to their limit.

    Parameters
    ----------
    found : Judgement
        What was judged.
    units : {"metric", "imperial", "both"}
        Units; the table has one system only.
    console : Console
        Where to; nothing is wider than 80 columns.
    """
    width, verdict = min(console.width, WIDTH), found.verdict
    rows = list(list_judge_rows(verdict, find_main_system(units)))
    failed = [row for row in rows if not row.passed]
    shown, rest = rows[: len(failed) + _MOST], rows[len(failed) + _MOST :]
    left = f"{len(rest)} more, all {rest[0].used} used or less." if rest else ""
    parts: list[RenderableType] = [
        Text(fill(_write_title(found, units), width), style="bold"),
        Text(fill(write_outcome(verdict), width), style="bold"),
        *(Text(fill(line, width)) for line in filter(None, [write_unjudged(verdict)])),
        *(Text(line) for line in _list_remedies(found, units, width)),
        *_build_tables(shown),
        *map(Text, write_footnotes(left, {row.basis for row in shown})),
        *(Text(fill(line, width)) for line in _list_ends(found, units)),
    ]
    console.print(Group(*parts), width=width)


def _write_title(found: Judgement, units: Units) -> str:
    """Return what was judged: the design, each load, each person."""
    *first, last = map(str, found.design.terms.loads)
    loads = f"{', '.join(first)} and {last}" if first else last
    people = (
        f"{who.name}{' ' if who.name else ''}{show_quantity(who.person.mass, 'mass', units)}"
        for who in found.design.terms.people
    )
    return f"{found.design.name}, judged under {loads}: {'; '.join(people)}"


def _list_remedies(found: Judgement, units: Units, width: int) -> Iterator[str]:
    """Yield what it would take to pass, one paragraph each."""
    if found.verdict.remedies:
        yield "\nTo pass"
    for remedy in found.verdict.remedies:
        words = write_sentence(remedy, units)
        yield fill(words, width, initial_indent=_BULLET, subsequent_indent=" " * len(_BULLET))


def _build_tables(rows: list[JudgeRow]) -> Iterator[Table]:
    """Yield a table for each grade."""
    for grade, group in groupby(rows, key=lambda row: row.grade):
        title = f"\n{grade.value[:1].upper()}{grade.value[1:]}"
        table = Table(title=title, title_justify="left", title_style="bold", box=None, pad_edge=False)
        for heading, right in zip(HEADINGS, (False, True, True, True, False), strict=True):
            table.add_column(heading, justify="right" if right else "left", no_wrap=right)
        for row in group:
            name, found, *others = row.cells
            found += MARKS.get(row.basis, " ") if found else ""
            table.add_row(*map(Text, (name, found, *others)), style="" if row.passed else "bold")
        yield table


def _list_ends(found: Judgement, units: Units) -> Iterator[str]:
    """Yield how to read the table, what was not checked or asked for, what a coarse mesh hides, the first caution."""
    yield "Each line is the worst of left and right, of all loads and all people."
    if any(load.sudden for load in found.design.terms.loads):
        yield "Under a sudden load half the factor of safety is required, but at least 1 (our judgement)."
    if found.verdict.unchecked:
        yield f"\nNOT CHECKED: {', '.join(found.verdict.unchecked)}. `tautlay solve --details` says what to do."
    if unasked := write_unasked(found.design.terms):
        yield unasked
    if (coarse := note_mesh(found.design.mesh_size, hot_spots=True)) is not None:
        yield write_sentence(coarse, units)
    yield CAUTIONS[0].text
