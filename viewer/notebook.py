"""A result as it stands in a notebook: verdict, tightest checks, main forces and the picture, as one piece of HTML.

``Result`` lies below the viewer and may not import it. It loads the entry point ``tautlay.result_html`` of the
installed package instead, which pyproject.toml points at this module: so a notebook needs no import of its own, and
whoever never shows a result never loads a drawing library. A registry that the viewer fills when it is imported would
stay empty until somebody imports the viewer.
"""

from base64 import b64encode
from collections.abc import Iterable, Iterator
from io import BytesIO
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from ..cases.display.basis_words import show_basis
from ..cases.display.headings import write_heading
from ..cases.display.result_rows import list_forces
from ..cases.judging.checks.check import Check, pick_tightest, write_factor, write_utilisation
from ..cases.judging.verdict.verdict import write_unjudged
from ..cases.storage.gather_shape import gather_shape
from ..cases.storage.stored_result import find_bar_shares
from ..cases.unit_display import Units, show_quantity, write_sentence
from .palette import save_small
from .picture import NOTE, compose_sheet
from .report.checks import show_verdict

if TYPE_CHECKING:
    from ..cases.result import Result

MOST_CHECKS = 5
DOTS = 100  # per inch: all words can be read, and the picture takes some 100 kB
_HEADINGS = ("closest to its limit first", "failure", "load", "strength", "factor", "required", "used", "", "basis")
_PICTURE = '<img style="max-width:100%;background:#fff" alt="{}" src="data:image/png;base64,{}">'


def write_result_html(result: "Result") -> str:
    """Return what a notebook shows of a result; nothing is solved for it.

    No colour of words or ground is set, so that it reads on a light page and on a dark one; the picture has a white
    ground of its own.

    Parameters
    ----------
    result : Result
        From ``solve_case``.

    Returns
    -------
    str
        HTML without a script, which loads nothing from the network; everything a design states is made harmless.
    """
    record, units = result.record, result.design.units
    heading = write_heading(record.design.name, record.design.load, record.design.load_factor)
    forces = list_forces(record.forces, record.anchors, record.trees)
    notes = [write_sentence(note, units) for note in record.notes]
    unchecked = ", ".join(each.part for each in result.findings.unchecked)
    tightest = pick_tightest(result.findings.checks)[:MOST_CHECKS]
    parts = [
        Markup("<b>{}</b><br>{}<br><b>{}</b>").format(heading.title, heading.meaning, record.verdict),
        _write_table(_HEADINGS, (_write_check(check, units) for check in tightest)),
        _write_table(
            ("force", ""),
            ((line.title, show_quantity(line.value, line.dimension, units)) for line in forces),
        ),
        *(Markup("<div>Note: {}</div>").format(note) for note in notes),
        *([Markup("<div>{}</div>").format(write_unjudged(result.verdict))] if result.verdict.unjudged else []),
        *([Markup("<div>NOT CHECKED: {}.</div>").format(unchecked)] if unchecked else []),
        Markup(_PICTURE).format(heading.title, _draw_picture(result, units)),
        Markup("<div>{}</div>").format(NOTE),
    ]
    return Markup("<div>{}</div>").format(Markup("").join(parts))


def _write_check(check: Check, units: Units) -> Iterator[str]:
    """Yield the cells of one check."""
    yield from (check.part, check.mechanism)
    yield from (show_quantity(value, check.capacity.dimension, units) for value in (check.demand, check.capacity.value))
    yield from (write_factor(check.found), f"{check.asked.value:g}", write_utilisation(check.margin))
    yield show_verdict(passed=check.passed, breaks=check.breaks)
    yield show_basis(check.capacity.basis)


def _write_table(headings: Iterable[str], rows: Iterable[Iterable[str]]) -> Markup:
    """Return a table."""
    head = Markup("").join(Markup("<th>{}</th>").format(text) for text in headings)
    body = [Markup("").join(Markup("<td>{}</td>").format(escape(cell)) for cell in row) for row in rows]
    lines = Markup("").join(Markup("<tr>{}</tr>").format(row) for row in (head, *body))
    return Markup("<table>{}</table>").format(lines)


def _draw_picture(result: "Result", units: Units) -> str:
    """Return the sheet of the loaded shape as the text of a PNG file."""
    shape = gather_shape(result.model, result.state, result.design.workmanship.reductions)
    heading, bars = write_heading(result.design.name), find_bar_shares(result.record.checks)
    page = BytesIO()
    save_small(compose_sheet(shape, heading, units, bars), page, DOTS)
    return b64encode(page.getvalue()).decode("ascii")
