"""Everything that is cut, as a table for a spreadsheet."""

import csv
import io
from collections.abc import Iterator, Sequence

from ...cutting import ClothPiece
from ..storage.spreadsheet import write_cell
from ..unit_display import Units
from .shopping import ShoppingList

_US = ("length_in", "width_in")  # beside the others, where the design reports in US units too
_INCH = 0.0254  # m
COLUMNS = ("kind", "name", "material", "count", "turned_over", "length_m", "width_m", "area_each_m2", "note")
_DIGITS = 6


def write_cut_list(pieces: Sequence[ClothPiece], shopping: ShoppingList, units: Units = "metric") -> str:
    """Return the cut list as CSV: pieces, cloth, lengths of cord and bar, thread, hardware; SI.

    Parameters
    ----------
    pieces : sequence of ClothPiece
        Of cloth.
    shopping : ShoppingList
        Everything else.
    units : {"metric", "imperial", "both"}
        Of the design; imperial adds length and width in inches, last in each row.
    """
    text = io.StringIO(newline="")
    sheet = csv.writer(text, lineterminator="\n")
    us = units == "imperial"
    sheet.writerow((*COLUMNS, *(_US if us else ())))
    for row in _list_rows(pieces, shopping):
        sheet.writerow([*map(_write_cell, row), *(_write_inches(row) if us else ())])
    return text.getvalue()


def _list_rows(pieces: Sequence[ClothPiece], shopping: ShoppingList) -> Iterator[tuple[object, ...]]:
    """Yield the rows."""
    for piece in pieces:
        length, width = piece.size
        fold = "half of it on the fold is enough" if piece.even else ""
        yield "piece", piece.name, piece.fabric.name, piece.number, piece.mirrored, length, width, piece.cut_area, fold
    for cloth in shopping.cloth:
        note = f"to buy: {cloth.buy('metric')} or {cloth.buy('imperial')}; {cloth.reason}"
        yield "cloth", cloth.fabric, cloth.fabric, 1, 0, cloth.needed, cloth.width, "", note
    for cut in shopping.lengths:
        note = "; ".join([f"finished {cut.finished:.3f} m", *(step.text for step in cut.steps)])
        yield "length", cut.part, cut.material, cut.number, 0, cut.length, "", "", note
    for thread in shopping.threads:
        yield "thread", "all rows, a tenth to spare", thread.material, 1, 0, thread.length, "", "", ""
    for item in shopping.items:
        yield "hardware", item.part, item.material, item.number, 0, "", "", "", ""


def _write_inches(row: tuple[object, ...]) -> list[str]:
    """Return length and width of a row in inches; empty where it has none."""
    sizes = (row[COLUMNS.index(name)] for name in ("length_m", "width_m"))
    return [f"{size / _INCH:.2f}" if isinstance(size, float) else "" for size in sizes]


def _write_cell(cell: object) -> object:
    """Return what stands in a cell, no text of which a spreadsheet would run."""
    return f"{cell:.{_DIGITS}f}" if isinstance(cell, float) else write_cell(cell)
