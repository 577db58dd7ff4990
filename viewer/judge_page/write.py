"""The page of a verdict put together from its template, and written to a file."""

from itertools import groupby
from pathlib import Path
from typing import NamedTuple

from markupsafe import Markup

from ...cases.display.judge_rows import HEADINGS, JudgeRow, list_judge_rows
from ...cases.judging.verdict.requirement import Grade
from ...cases.judging.verdict.verdict import write_outcome, write_unasked, write_unjudged
from ...cases.storage.atomic import write_text
from ...cases.studies.judge.judgement import Judgement
from ...cases.studies.sweep.mesh_warning import note_mesh
from ...cases.unit_display import SYSTEMS, Units
from ..report.template import render_page
from ..report.wording import mark_pair

_MARKS = {"good": "\N{CHECK MARK} Passes", "bad": "\N{BALLOT X} Fails", "open": "? Passes in part"}


class JudgeLine(NamedTuple):
    """One row of the page, its values in both systems of units."""

    row: JudgeRow
    found: Markup
    required: Markup


class JudgeGroup(NamedTuple):
    """The requirements that end alike."""

    grade: Grade
    lines: list[JudgeLine]


def compose_judge_page(found: Judgement, *, units: Units | None = None) -> str:
    """Return the page of a verdict.

    Parameters
    ----------
    found : Judgement
        What was judged.
    units : {"metric", "imperial", "both"} or None
        What the page shows first; None is as in the design.

    Returns
    -------
    str
        A whole HTML document that loads nothing from the network.
    """
    verdict, design = found.verdict, found.design
    return render_page(
        "judge.html",
        units or design.units,
        bundle="pattern.js",
        scene={},
        design=design,
        verdict=verdict,
        mark=_MARKS[verdict.kind],
        outcome=write_outcome(verdict),
        unjudged=write_unjudged(verdict),
        unasked=write_unasked(design.terms),
        loads=design.terms.loads,
        headings=HEADINGS,
        groups=_list_groups(found),
        remedies=verdict.remedies,
        caveat=note_mesh(design.mesh_size, hot_spots=True),
    )


def _list_groups(found: Judgement) -> list[JudgeGroup]:
    """Return the requirements by how they end, the worst first."""
    metric, imperial = (list_judge_rows(found.verdict, system) for system in SYSTEMS)
    lines = [
        JudgeLine(one, mark_pair(one.found, other.found), mark_pair(one.required, other.required))
        for one, other in zip(metric, imperial, strict=True)
    ]
    return [JudgeGroup(grade, list(group)) for grade, group in groupby(lines, key=lambda line: line.row.grade)]


def write_judge_page(found: Judgement, html_path: Path, *, units: Units | None = None) -> None:
    """Write the page of a verdict.

    Parameters
    ----------
    found : Judgement
        What was judged.
    html_path : Path
        File to write, whole or not at all.
    units : {"metric", "imperial", "both"} or None
        What the page shows first; None is as in the design.

    Raises
    ------
    OSError
        If the page cannot be written.
    """
    write_text(html_path, compose_judge_page(found, units=units))
