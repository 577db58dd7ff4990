"""The page put together from its template and what was drafted."""

from collections.abc import Iterator
from typing import NamedTuple

from markupsafe import Markup

from ...cases.patterns.pattern import Pattern
from ...cases.patterns.sewing_steps import list_steps
from ...cases.patterns.shopping import ClothLength, CutLength
from ...cases.unit_display import SYSTEMS
from ...cutting import ClothPiece, Treatment
from ..report.template import render_page
from ..report.wording import mark_pair, mark_quantity, mark_sentence
from .marks import tell_crosses, tell_notches
from .offsets import OffsetTable, tabulate_offsets
from .piece_plot import list_copies, plot_lay, plot_piece

_FILES = (
    ("pieces.dxf", "every piece for cutters and CAD, one block each, in millimetres; layers after ASTM D6673 as far as "
     "they are known, no conformity claimed"),
    ("pieces.svg", "every piece at true size, for lasers and drawing programs"),
    ("whole.pdf", "every piece at true size, each on one page, for a print shop"),
    ("sheets.pdf", "the pieces on sheets to print at home and glue; the first sheet has a square to measure"),
    ("lay.svg", "how the pieces lie on the cloth"),
    ("cut_list.csv", "everything that is cut, for a spreadsheet"),
    ("pattern.json", "pieces, edges, joins and notches as numbers"),
)  # fmt: skip


class PieceView(NamedTuple):
    """One piece on the page: the piece, its drawing, its edges and marks in words, its tables of offsets."""

    piece: ClothPiece
    drawing: Markup
    edges: list[tuple[str, Markup, Markup, Markup]]
    crosses: Markup
    offsets: tuple[OffsetTable, ...]


def compose_pattern_page(pattern: Pattern) -> str:
    """Return the page to sew from.

    Parameters
    ----------
    pattern : Pattern
        What is sewn.

    Returns
    -------
    str
        A whole HTML document that loads nothing from the network.
    """
    notes = pattern.check()
    return render_page(
        "pattern.html",
        pattern.design.units,
        bundle="pattern.js",
        styles=("page.css", "pattern.css"),
        scene={},
        design=pattern.design,
        body=pattern.design.hammock.body,
        count=sum(piece.number for piece in pattern.pieces),
        failing=[note for note in notes if note.fails],
        notes=[note for note in notes if not note.fails],
        cloth=[(each, _tell_length(each)) for each in pattern.shopping.cloth],
        lengths=[(each, _tell_steps(each)) for each in pattern.shopping.lengths],
        spools=pattern.shopping.spools,
        threads=pattern.shopping.threads,
        items=pattern.shopping.items,
        unlisted=pattern.scales.unweighed,
        views=list(_view_pieces(pattern)),
        lays=[(lay, plot_lay(lay), list_copies(lay)) for lay in pattern.lays],
        steps=list_steps(pattern.design, pattern.draft),
        joins=[(join, *join.measure(pattern.pieces)) for join in pattern.joins],
        files=_FILES,
    )


def _tell_length(cloth: ClothLength) -> Markup:
    """Return the cloth to buy in both systems of units."""
    return mark_pair(*(cloth.buy(system) for system in SYSTEMS))


def _tell_steps(cut: CutLength) -> Markup:
    """Return what is in a cut length."""
    finished = Markup("finished {}").format(mark_quantity(cut.finished, "length", 4))
    return Markup("; ").join([finished, *(mark_sentence(step.text) for step in cut.steps)])


def _view_pieces(pattern: Pattern) -> Iterator[PieceView]:
    """Yield every piece; a body has its offsets with its first panel."""
    for number, piece in enumerate(pattern.pieces):
        edges = [
            (
                edge.name,
                mark_quantity(edge.length, "length", 4),
                _tell_allowance(edge.treatment, edge.allowance),
                tell_notches(piece, place),
            )
            for place, edge in enumerate(piece.edges)
        ]
        offsets = tuple(tabulate_offsets(pattern.draft, system) for system in SYSTEMS) if number == 0 else ()
        yield PieceView(piece, plot_piece(piece), edges, tell_crosses(piece), offsets)


def _tell_allowance(treatment: Treatment, allowance: float) -> Markup:
    """Return what is done to an edge, and the cloth beyond it."""
    if treatment is Treatment.RAW:
        return Markup("raw")
    return Markup("{}, cut {} beyond it").format(str(treatment), mark_quantity(allowance, "length"))
