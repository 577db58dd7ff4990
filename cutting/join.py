"""Which stretch of which edge is sewn to which, and the notches that follow from it."""

import itertools
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from ..hammock.arrays import FloatArray
from ..making import Stitching
from ..materials.short_repr import write_repr, write_value
from .edge import PieceEdge
from .geometry import contains, cross_lines, extend_line
from .piece import ClothPiece, DrillMark, Notch

_CORNER = 1e-6  # m


@dataclass(frozen=True)
class EdgeLine:
    """A line along an edge of a part.

    Parameters
    ----------
    part : str
        Such as ``body``; its panels share the edge.
    edge : str
        Name of the edge.
    outward : float
        On which parallel curve it lies, m beyond the finished line; inboard is negative.
    """

    part: str
    edge: str
    outward: float = 0.0

    def measure(self, pieces: tuple[ClothPiece, ...], first: float, last: float) -> float:
        """Return its length, m, on the pieces of its part between two distances along the finished edge, m."""
        low, high = sorted((first, last))
        edges = [edge for piece in pieces if piece.part == self.part for edge in piece.edges if edge.name == self.edge]
        return sum(
            edge.measure(max(low, edge.start), min(high, edge.end), self.outward)
            for edge in edges
            if edge.start < high and edge.end > low
        )


class Match(NamedTuple):
    """Two points that meet when a join is sewn.

    Parameters
    ----------
    first, second : float
        Distance of each along its own whole edge, m.
    ease : float
        By how much the first line is to be longer from the start of the join to here, m.
    """

    first: float
    second: float
    ease: float


@dataclass(frozen=True)
class Join:
    """Two lines that are sewn together.

    Parameters
    ----------
    name : str
        What is sewn, such as ``left channel strip``.
    first, second : EdgeLine
        What is sewn to what.
    matches : tuple of Match
        Marks that meet, from the head; the first and the last are the ends of the join.
    stitching : Stitching or None
        Its rows; None is not given.
    seam : str
        How it is sewn, in words.
    """

    name: str
    first: EdgeLine
    second: EdgeLine
    matches: tuple[Match, ...]
    stitching: Stitching | None
    seam: str

    def __repr__(self) -> str:
        return write_repr(
            self, self.name, f"{len(self.matches)} marks", f"ease {write_value(self.ease, 'length')}", self.seam
        )

    @property
    def ease(self) -> float:
        """By how much the first line is meant to be longer in all, m."""
        return self.matches[-1].ease

    def measure(self, pieces: tuple[ClothPiece, ...]) -> tuple[float, float]:
        """Return the lengths of both lines, m."""
        ends = self.matches[0], self.matches[-1]
        return (
            self.first.measure(pieces, *(end.first for end in ends)),
            self.second.measure(pieces, *(end.second for end in ends)),
        )

    def list_misfits(self, pieces: tuple[ClothPiece, ...]) -> list[float]:
        """Return by how much the lines differ between each two marks beyond their ease there, m."""
        return [
            self.first.measure(pieces, low.first, high.first)
            - self.second.measure(pieces, low.second, high.second)
            - (high.ease - low.ease)
            for low, high in itertools.pairwise(self.matches)
        ]

    @property
    def is_turned(self) -> bool:
        """Whether an edge is turned onto its own piece."""
        return (self.first.part, self.first.edge) == (self.second.part, self.second.edge)


def mark_joins(pieces: tuple[ClothPiece, ...], joins: tuple[Join, ...]) -> tuple[ClothPiece, ...]:
    """Return the pieces with the marks of all joins.

    A mark is a notch on the cut of the edge; at a corner, and on a line inside a piece that is sewn to itself, a cross.

    Parameters
    ----------
    pieces : tuple of ClothPiece
        Without marks.
    joins : tuple of Join
        Of all their edges.
    """
    notches: dict[str, dict[tuple[str, float], Notch]] = {piece.name: {} for piece in pieces}
    crosses = {piece.name: {_key(cross.point): cross for cross in piece.drills} for piece in pieces}
    for join in joins:
        for side, number in itertools.product((0, 1), range(len(join.matches))):
            line, distance = (join.first, join.second)[side], join.matches[number][side]
            piece, edge = _find_owner(pieces, line, distance)
            inside = join.is_turned and side == 1
            if inside or min(abs(distance - edge.start), abs(distance - edge.end)) < _CORNER:
                at = edge.locate(distance, line.outward) if inside else _find_corner(piece, edge, distance)
                home = next((other for other in pieces if _holds(other, line.part, at)), piece)
                crosses[home.name].setdefault(_key(at), DrillMark(f"{join.name} {number}", at))
            else:  # where several joins put one at the same place, the first stands
                at, ticks = edge.locate(distance, edge.allowance), 2 if number == 1 else 1
                mark = Notch(edge.name, distance, at, -edge.face(distance), join.name, number, ticks)
                notches[piece.name].setdefault((edge.name, round(distance, 9)), mark)
    return tuple(
        replace(piece, notches=tuple(notches[piece.name].values()), drills=tuple(crosses[piece.name].values()))
        for piece in pieces
    )


def _find_owner(pieces: tuple[ClothPiece, ...], line: EdgeLine, distance: float) -> tuple[ClothPiece, PieceEdge]:
    """Return the piece, and its edge, on which a point along a line stands."""
    panels = [piece for piece in pieces if piece.part == line.part]
    found = [(piece, edge) for piece in panels if (edge := piece.find_edge(line.edge, distance)) is not None]
    return found[0]


def _find_corner(piece: ClothPiece, edge: PieceEdge, distance: float) -> FloatArray:
    """Return where the corner of a finished edge is marked; where the cloth ends short of it, on its cut."""
    corner = edge.locate(distance)
    (beside,) = (e for e in piece.edges if e is not edge and np.hypot(*(e.points[[0, -1]] - corner).T).min() < _CORNER)
    short = min(edge.allowance, beside.allowance, 0.0)
    if short == 0.0:
        return corner
    first, second = (extend_line(each.shift(min(each.allowance, 0.0)), -short) for each in (edge, beside))
    return np.asarray(cross_lines(first, second)[0])


def _holds(piece: ClothPiece, part: str, at: FloatArray) -> bool:
    """Return whether a point lies inside a piece of a part."""
    return piece.part == part and bool(contains(piece.boundary, at[None])[0])


def _key(at: FloatArray) -> tuple[float, float]:
    """Return a point by which it is found again."""
    x, y = at.round(9)
    return float(x), float(y)
