"""Sheets of paper that together show a drawing."""

from typing import NamedTuple

from ...materials.short_repr import write_repr
from .drawing import LineDrawing
from .paper import Paper
from .pdf import PageWindow


class PaperSheet(NamedTuple):
    """One sheet of a drawing: its name, place in the grid, and what of the plane it shows."""

    name: str
    column: int
    row: int
    window: PageWindow

    def __repr__(self) -> str:
        return write_repr(self, self.name)


class Tiling(NamedTuple):
    """A drawing on sheets: its paper as it is turned, and the sheets that carry a line."""

    drawing: LineDrawing
    paper: Paper
    sheets: tuple[PaperSheet, ...]

    def __repr__(self) -> str:
        return write_repr(self, self.drawing.name, self.paper.name, f"{len(self.sheets)} sheets")
