"""Sheets of measured views as SVG: one for a page, or all of a design as a file."""

from collections.abc import Iterable, Iterator, Sequence

from markupsafe import Markup

from ..svg_path import trace_path
from .placed_view import RADIUS, WIDTH
from .view_sheet import SheetPath, SheetRing, SheetText, ViewSheet, arrange_sheets
from .view_style import write_alone_style, write_style

BETWEEN, MARGIN, TOP = 28.0, 14.0, 40.0  # between the drawings of a file, around them, and above for its heading


def embed_sheets(sheets: Iterable[ViewSheet]) -> Iterator[Markup]:
    """Yield each sheet as an element of one page, whose ink they take; the first has the style of all.

    Parameters
    ----------
    sheets : iterable of ViewSheet
        In the order of the page.
    """
    style = Markup("<style>{}</style>").format(Markup(write_style()))
    for sheet in sheets:
        told = ", ".join(part.text for part in sheet.parts if isinstance(part, SheetText) and part.kind == "key")
        yield Markup(
            '<svg class="measures" viewBox="0 0 {:g} {:.5g}" role="img" aria-label="{}: {}">{}{}</svg>'
        ).format(WIDTH, sheet.height, sheet.title, told, style, _write_parts(sheet))
        style = Markup("")


def write_file(name: str, sheets: Sequence[ViewSheet]) -> str:
    """Return all sheets of a design as a file, in two columns.

    Parameters
    ----------
    name : str
        Of the design.
    sheets : sequence of ViewSheet
        In reading order.
    """
    placed = list(arrange_sheets(sheets, BETWEEN))
    group = Markup('<g transform="translate({:g} {:.5g})">{}</g>')
    return str(
        Markup(
            '<svg xmlns="http://www.w3.org/2000/svg" class="measures alone" viewBox="0 0 {0:g} {1:.5g}" width="{0:g}" '
            'height="{1:.5g}">\n<title>{2}</title>\n<metadata xmlns:dc="http://purl.org/dc/elements/1.1/">'
            "<dc:title>tautlay</dc:title></metadata>\n<style>{3}</style>\n"
            '<rect class="sheet" width="100%" height="100%"/>\n<text class="title" x="{4:g}" y="22">{2}</text>\n{5}\n'
            "</svg>\n"
        ).format(
            2 * (WIDTH + MARGIN) + BETWEEN,
            measure_height(sheets),
            f"{name}: measures",
            Markup(write_alone_style()),
            MARGIN + 4.0,
            Markup("\n").join(group.format(MARGIN + x, TOP + y, _write_parts(sheet)) for (x, y), sheet in placed),
        )
    )


def measure_height(sheets: Sequence[ViewSheet]) -> float:
    """Return how high all sheets together stand in two columns."""
    return TOP + MARGIN + max(y + sheet.height for (_, y), sheet in arrange_sheets(sheets, BETWEEN))


def _write_parts(sheet: ViewSheet) -> Markup:
    """Return what is on a sheet."""
    found = []
    for part in sheet.parts:
        if isinstance(part, SheetPath):
            outline = trace_path(part.points, closed=part.closed)
            found.append(Markup('<path class="{}" d="{}"/>').format(part.kind, outline))
        elif isinstance(part, SheetRing):
            found.append(Markup('<circle class="ring" cx="{:.5g}" cy="{:.5g}" r="{:g}"/>').format(*part.middle, RADIUS))
        else:
            words = Markup('<text class="{}" x="{:.5g}" y="{:.5g}">{}</text>')
            found.append(words.format(part.kind, *part.at, part.text))
    return Markup("").join(found)
