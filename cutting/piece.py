"""One piece of cloth: its edges, its cut, and everything that is drawn on it."""

from dataclasses import dataclass, field
from enum import StrEnum
from functools import cached_property

import numpy as np

from ..hammock.arrays import FloatArray
from ..hammock.polygon import measure_area
from ..materials import Fabric
from ..materials.short_repr import write_repr, write_value
from .boundary import trace_boundary
from .edge import PieceEdge, Treatment


class GuideKind(StrEnum):
    """What a line inside a piece is for."""

    FOLD = "fold"  # folded along
    PLACE = "place"  # something else is sewn along it
    ROW = "row"  # of stitches
    MIDDLE = "middle"  # middle line, along which an even piece is folded for paper


@dataclass(frozen=True)
class GuideLine:
    """A line that is drawn on a piece and not cut.

    Parameters
    ----------
    name : str
        What it is.
    kind : GuideKind
        What it is for.
    points : (n, 2)
        m.
    """

    name: str
    kind: GuideKind
    points: FloatArray

    def __repr__(self) -> str:
        return write_repr(self, self.name, str(self.kind))


@dataclass(frozen=True)
class Notch:
    """A mark on the cut of an edge, which meets another one when the edges are sewn.

    Parameters
    ----------
    edge : str
        Edge of the piece.
    distance : float
        Along the whole edge, m.
    point : (2,)
        Where it stands on the cut, m.
    inward : (2,)
        Unit vector into the cloth.
    join : str
        Join that it belongs to.
    number : int
        Its place among the marks of that join, counted from the head; 0 is the corner.
    ticks : int
        2 for the one nearest to the head, else 1.
    """

    edge: str
    distance: float
    point: FloatArray
    inward: FloatArray
    join: str
    number: int
    ticks: int = 1

    def __repr__(self) -> str:
        return write_repr(self, f"{self.join} {self.number}", self.edge, write_value(self.distance, "length"))


@dataclass(frozen=True)
class DrillMark:
    """A point that is marked through the cloth."""

    name: str
    point: FloatArray

    def __repr__(self) -> str:
        return write_repr(self, self.name)


@dataclass(frozen=True)
class ClothPiece:
    """One piece, lying with its right side up.

    Parameters
    ----------
    name : str
        Such as ``body``.
    part : str
        What it is a part of: of a body in several panels ``body``, else its own name.
    edges : tuple of PieceEdge
        All around it, with the cloth on the left of each.
    fabric : Fabric
        What it is cut from.
    count : int
        How many are cut as drawn.
    mirrored : int
        How many more are cut turned over.
    grain : float
        Angle from the x axis to the warp, rad.
    even : bool
        Whether its half above the x axis mirrors the other, so that half of it serves on the fold.
    guides : tuple of GuideLine
        Lines that are drawn on it.
    notches : tuple of Notch
        Marks on its cut.
    drills : tuple of DrillMark
        Marks inside it.
    """

    name: str
    part: str
    edges: tuple[PieceEdge, ...]
    fabric: Fabric
    count: int = 1
    mirrored: int = 0
    grain: float = 0.0
    even: bool = False
    guides: tuple[GuideLine, ...] = ()
    notches: tuple[Notch, ...] = field(default=(), repr=False)
    drills: tuple[DrillMark, ...] = field(default=(), repr=False)

    def __repr__(self) -> str:
        return write_repr(
            self,
            self.name,
            f"{write_value(self.size[0], 'length')} x {write_value(self.size[1], 'length')}",
            f"{write_value(self.cut_area, 'area')} of {self.fabric.name}",
            f"cut {self.number}",
            f"{len(self.notches)} notches",
        )

    @property
    def number(self) -> int:
        """How many are cut in all."""
        return self.count + self.mirrored

    @cached_property
    def cuts(self) -> tuple[FloatArray, ...]:
        """The cut along each edge (k, 2), m, from corner to corner."""
        return tuple(trace_boundary(self.edges))

    @cached_property
    def boundary(self) -> FloatArray:
        """Vertices of the cut (n, 2), m, closed by the first."""
        return np.concatenate([cut[:-1] for cut in self.cuts])

    @cached_property
    def outline(self) -> FloatArray:
        """Vertices of the finished lines (n, 2), m, closed by the first."""
        return np.concatenate([edge.points[:-1] for edge in self.edges])

    @property
    def cut_area(self) -> float:
        """Cloth in one piece as cut, m2."""
        return measure_area(self.boundary)

    @property
    def finished_area(self) -> float:
        """Cloth inside the finished lines of one piece, m2."""
        return measure_area(self.outline)

    @cached_property
    def size(self) -> tuple[float, float]:
        """Length and width of the box round the cut, m."""
        length, width = np.ptp(self.boundary, axis=0)
        return float(length), float(width)

    @property
    def is_rectangle(self) -> bool:
        """Whether a rule and its measures are enough to cut it."""
        length, width = self.size
        return abs(self.cut_area - length * width) < 1e-9

    @property
    def corners(self) -> FloatArray:
        """Where the cut turns from one edge to the next (m, 2), m."""
        return np.array([cut[0] for cut in self.cuts])

    def measure_allowances(self, treatment: Treatment) -> float:
        """Return the cloth, m2, of one piece beyond the finished lines of all edges that are treated like that."""
        bands = [
            measure_area(np.concatenate([edge.points[::-1], cut]))
            for edge, cut in zip(self.edges, self.cuts, strict=True)
            if edge.treatment is treatment
        ]
        return float(sum(bands))

    def find_edge(self, name: str, distance: float) -> PieceEdge | None:
        """Return the edge, or part of it, of a name at a distance along the whole edge, m; None if it is elsewhere."""
        found = [edge for edge in self.edges if edge.name == name]
        return next((edge for edge in found if edge.start - 1e-9 <= distance <= edge.end + 1e-9), None)
