"""How the pieces lie on the cloth: the warp along the bolt, nested into each other, as short as it is found.

A piece is put where the cloth used ends earliest, the largest first, one way round or the other. Its outline is taken
as the least and the greatest distance along the bolt in narrow bands across it, so that a piece may reach into the
waist of another. Boxes are tried as well; the shorter lay is kept.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, pi

import numpy as np

from ..hammock.arrays import FloatArray
from ..materials import Fabric
from ..materials.short_repr import write_repr, write_value
from .draft import Draft
from .geometry import rotate
from .piece import ClothPiece

GAP = 0.005  # m between pieces; engineering judgement, no source
_BAND = 0.005  # m
_ROUND = 1e-9  # m


@dataclass(frozen=True)
class LaidPiece:
    """One copy of a piece on the cloth.

    Parameters
    ----------
    piece : ClothPiece
        What is laid.
    turned_over : bool
        Whether it lies with its right side down.
    angle : float
        By which it is turned to the left, rad, after it was turned over about its x axis.
    place : (2,)
        Where the origin of its coordinates lies, m along the bolt and across it.
    """

    piece: ClothPiece
    turned_over: bool
    angle: float
    place: FloatArray

    def __repr__(self) -> str:
        return write_repr(self, self.piece.name, "turned over" if self.turned_over else "")

    @property
    def boundary(self) -> FloatArray:
        """Vertices of its cut on the cloth (n, 2), m."""
        return orient_cut(self.piece, self.angle, turned_over=self.turned_over) + self.place

    @property
    def warp(self) -> float:
        """Angle from the bolt to the warp of the piece, rad: 0 or half a turn."""
        grain = -self.piece.grain if self.turned_over else self.piece.grain
        return grain + self.angle


@dataclass(frozen=True)
class Lay:
    """All pieces of one cloth.

    Parameters
    ----------
    fabric : Fabric
        Which cloth.
    width : float
        Cuttable, m.
    laid : tuple of LaidPiece
        Every copy.
    """

    fabric: Fabric
    width: float
    laid: tuple[LaidPiece, ...]

    def __repr__(self) -> str:
        return write_repr(self, self.fabric.name, f"{len(self.laid)} pieces", write_value(self.length, "length"))

    @property
    def length(self) -> float:
        """Cloth that is used along the bolt, m."""
        return float(max(each.boundary[:, 0].max() for each in self.laid))

    @property
    def used(self) -> float:
        """Share of that cloth that is in the pieces, 1."""
        return sum(each.piece.cut_area for each in self.laid) / (self.length * self.width)


class LayError(ValueError):
    """A piece that no cloth of this width holds."""


def lay_pieces(draft: Draft, width: float) -> tuple[Lay, ...]:
    """Return the lay of each cloth.

    Parameters
    ----------
    draft : Draft
        All pieces.
    width : float
        Cuttable width of every cloth, m.

    Raises
    ------
    LayError
        For a piece wider than the cloth.
    """
    fabrics = list(dict.fromkeys(piece.fabric for piece in draft.pieces))
    return tuple(_lay_cloth(fabric, [p for p in draft.pieces if p.fabric == fabric], width) for fabric in fabrics)


def _lay_cloth(fabric: Fabric, pieces: list[ClothPiece], width: float) -> Lay:
    """Return the shorter of two lays: outlines nested, and boxes."""
    ordered = sorted(pieces, key=lambda piece: -piece.cut_area)
    copies = [(piece, number >= piece.count) for piece in ordered for number in range(piece.number)]
    lays = [Lay(fabric, width, tuple(_place_all(copies, width, boxes=boxes))) for boxes in (False, True)]
    return min(lays, key=lambda lay: round(lay.length, 6))


def _place_all(copies: list[tuple[ClothPiece, bool]], width: float, *, boxes: bool) -> Iterator[LaidPiece]:
    """Yield every copy, each where the cloth used ends earliest."""
    count = ceil(width / _BAND)
    band = width / count
    gap = ceil(GAP / band)
    front = np.full(count + 2 * gap, -GAP)  # how far each band is used, with bands beyond both selvedges
    for piece, turned_over in copies:
        best: tuple[tuple[float, ...], LaidPiece, slice, FloatArray] | None = None
        for angle in list_turns(piece, turned_over=turned_over):
            outline = orient_cut(piece, angle, turned_over=turned_over)
            low = outline.min(axis=0)
            first, last = _profile(outline - low, band, boxes=boxes)
            if len(first) > count:
                raise LayError(f"{piece.name} is wider than the cloth.")
            near = _draw_near(first, gap)
            starts = (np.lib.stride_tricks.sliding_window_view(front, len(near)) - near).max(axis=1) + GAP
            lane = int(np.argmin(np.round(starts, 6)))
            start = max(float(starts[lane]), 0.0)
            rank = (round(start + float(last.max()), 6), round(start, 6), lane)
            if best is None or rank < best[0]:
                laid = LaidPiece(piece, turned_over, angle, np.array([start, lane * band]) - low)
                best = rank, laid, slice(lane + gap, lane + gap + len(last)), start + last
        assert best is not None
        yield best[1]
        front[best[2]] = np.maximum(front[best[2]], best[3])


def list_turns(piece: ClothPiece, *, turned_over: bool) -> tuple[float, float]:
    """Return both angles at which the warp of a copy runs along the bolt, rad."""
    grain = -piece.grain if turned_over else piece.grain
    return -grain, pi - grain


def orient_cut(piece: ClothPiece, angle: float, *, turned_over: bool) -> FloatArray:
    """Return the cut of a piece (n, 2), m, turned over about its x axis if so, then turned to the left."""
    outline = piece.boundary * np.array([1.0, -1.0]) if turned_over else piece.boundary
    return rotate(outline, angle)


def _profile(outline: FloatArray, band: float, *, boxes: bool) -> tuple[FloatArray, FloatArray]:
    """Return how far an outline from (0, 0) begins and ends along the bolt in each band across it, m."""
    size = outline.max(axis=0)
    count = max(ceil(float(size[1]) / band - _ROUND), 1)
    if boxes:
        return np.zeros(count), np.full(count, size[0])
    ring = np.concatenate([outline, outline[:1]])
    points = [ring]
    for start, end in pairwise(ring):
        levels = np.arange(ceil(min(start[1], end[1]) / band), max(start[1], end[1]) / band) * band
        if len(levels) and start[1] != end[1]:
            share = (levels - start[1]) / (end[1] - start[1])
            points.append(start + share[:, None] * (end - start))
    first, last = np.full(count, np.inf), np.full(count, -np.inf)
    for x, y in np.concatenate(points):
        for number in {int((y - _ROUND) / band), int((y + _ROUND) / band)}:
            if 0 <= number < count:
                first[number], last[number] = min(first[number], x), max(last[number], x)
    return first, last


def _draw_near(first: FloatArray, gap: int) -> FloatArray:
    """Return where a piece begins in each band, and in ``gap`` more on both sides, the least of all within ``gap``."""
    padded = np.pad(first, 2 * gap, constant_values=np.inf)
    return np.asarray(np.lib.stride_tricks.sliding_window_view(padded, 2 * gap + 1).min(axis=1))
