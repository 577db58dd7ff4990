"""The drawings of a pattern, and the files they are written to."""

from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from ...cutting import ClothPiece, Draft
from ...cutting.drawing.drawing import LineDrawing, stack_drawings
from ...cutting.drawing.dxf import write_dxf
from ...cutting.drawing.paper import Paper
from ...cutting.drawing.pdf import write_whole
from ...cutting.drawing.sheets import write_sheets
from ...cutting.drawing.svg import write_svg
from ...cutting.lay import Lay
from ...cutting.lay_drawing import draw_lay
from ...cutting.piece_drawing import draw_piece
from ...materials.short_repr import write_repr
from ..storage.atomic import write_beside, write_text
from ..unit_display import Units, show_quantity

_GAP, _BETWEEN_LAYS = 0.03, 0.12  # m between drawings on one sheet


class DrawnPattern(NamedTuple):
    """All drawings of a pattern.

    Parameters
    ----------
    title : str
        Name of the design.
    pieces : tuple of (ClothPiece, LineDrawing)
        Every piece, whole.
    lays : tuple of LineDrawing
        Every cloth.
    notes : tuple of str
        For the cover of the sheets.
    """

    title: str
    pieces: tuple[tuple[ClothPiece, LineDrawing], ...]
    lays: tuple[LineDrawing, ...]
    notes: tuple[str, ...]

    def __repr__(self) -> str:
        return write_repr(self, self.title, f"{len(self.pieces)} pieces", f"{len(self.lays)} lays")

    def pick(self, piece: ClothPiece, *, half: bool) -> LineDrawing:
        """Return the drawing of a piece, half of it where that is enough and asked for."""
        drawing = next(each for known, each in self.pieces if known is piece)
        return drawing.halve() if half and piece.even else drawing


def draw_all(title: str, draft: Draft, lays: tuple[Lay, ...], units: Units) -> DrawnPattern:
    """Return the drawings of all pieces and lays.

    Parameters
    ----------
    title : str
        Name of the design.
    draft : Draft
        Its pieces.
    lays : tuple of Lay
        On every cloth.
    units : {"metric", "imperial", "both"}
        Of the words.
    """

    def show(length: float) -> str:
        return show_quantity(length, "length", units)

    pieces = tuple((piece, draw_piece(piece, show)) for piece in draft.pieces)
    notes = [
        f"{piece.name}: cut {piece.number}, {show(piece.size[0])} x {show(piece.size[1])}, {piece.fabric.name}"
        for piece in draft.pieces
    ]
    return DrawnPattern(title, pieces, tuple(draw_lay(lay, show) for lay in lays), tuple(notes))


def write_drawings(drawn: DrawnPattern, printed: tuple[LineDrawing, ...], paper: Paper, place: Path) -> None:
    """Write ``pieces.dxf``, ``pieces.svg``, ``whole.pdf``, ``sheets.pdf`` and ``lay.svg``.

    Parameters
    ----------
    drawn : DrawnPattern
        All drawings.
    printed : tuple of LineDrawing
        What goes onto sheets.
    paper : Paper
        Of the sheets.
    place : Path
        Folder.
    """
    drawings = [drawing for _, drawing in drawn.pieces]
    texts = [f"STYLE NAME: {drawn.title}", "UNITS: METRIC", "SAMPLE SIZE: 1"]
    _write_bytes(place / "pieces.dxf", write_dxf([_label(*each) for each in drawn.pieces], texts))
    write_text(place / "pieces.svg", write_svg(stack_drawings(drawings, _GAP), drawn.title))
    _write_bytes(place / "whole.pdf", write_whole(drawings, drawn.title))
    _write_bytes(place / "sheets.pdf", write_sheets(printed, paper, drawn.title, [*drawn.notes, *_tell_use(printed)]))
    write_text(place / "lay.svg", write_svg(stack_drawings(list(drawn.lays), _BETWEEN_LAYS), drawn.title, screen=True))


def _tell_use(printed: tuple[LineDrawing, ...]) -> Iterator[str]:
    """Yield how the sheets are used."""
    yield "Glue the sheets so that their crosses lie on each other; each names its neighbours. Lay the cloth single."
    if any(drawing.name.endswith("half") for drawing in printed):
        yield "A half: trace it, turn the paper over about its fold line, trace it again."


def _label(piece: ClothPiece, drawing: LineDrawing) -> LineDrawing:
    """Return the drawing of a piece with the texts that cutters look for."""
    texts = (
        f"PIECE NAME: {piece.name.upper()}",
        f"QUANTITY: {piece.count},{piece.mirrored}",
        f"MATERIAL: {piece.fabric.name}",
    )
    return drawing.add_texts(texts)


def _write_bytes(path: Path, content: bytes) -> None:
    """Write a file, whole or not at all."""
    with write_beside(path) as beside:
        beside.write_bytes(content)
