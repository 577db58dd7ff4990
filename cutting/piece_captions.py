"""The words on a piece: its name, how often it is cut and from what, and the name of every edge."""

from collections.abc import Callable, Iterable, Iterator
from itertools import pairwise, product
from math import pi
from typing import NamedTuple

import numpy as np

from ..hammock.arrays import FloatArray
from .drawing.caption_room import LINE, CaptionRoom, measure_words, stack_words
from .drawing.drawing import Lettering, Stroke
from .edge import PieceEdge, Treatment
from .geometry import find_middle
from .piece import ClothPiece

ShowLength = Callable[[float], str]  # m -> number and unit
_TITLES = (0.008, 0.0065, 0.005, 0.004, 0.0032), (0.004, 0.0032, 0.0025, 0.002)  # m, capitals; off lines, then across
_NAMES = (0.004, 0.0032, 0.0025), (0.002, 0.0016)  # m; beside the edge or away from it, then smaller
_SHARES = (0.44, 0.56, 0.36, 0.64, 0.28, 0.72, 0.2, 0.8, 0.12, 0.88)  # of an edge: beside marks and middle lines
_INSIDE = (0.045, 0.03, 0.06, 0.02, 0.014, 0.009)  # m from an edge to the middle of its name
_DEEPEST = 0.25  # of the width of a piece, from an edge to its name: else it could be another one's
_AWAY = (0.01, 0.02, 0.03)  # m from an edge to a name that runs away from it
_STEPS = (0.0, 0.1, -0.1, 0.2, -0.2, 0.3, -0.3)  # of the piece, along it, from where a title stands best
_CLEAR = 0.6  # of a capital between the arrow and a title
_NARROW = 0.12  # m: on a narrower piece a name goes where it belongs, the title where there is room left
_UPRIGHT = 1e-9  # rad


class _Choice(NamedTuple):
    """Words of one size, and the places where they may stand: (k, 2), m, and (k,), rad; the best first."""

    lines: tuple[str, ...]
    height: float
    middles: FloatArray
    angles: FloatArray
    crossing: bool  # whether lines may run through them


def write_captions(piece: ClothPiece, strokes: Iterable[Stroke], show: ShowLength) -> tuple[Lettering, ...]:
    """Return all words on a piece, inside its cut, off its lines and off each other where it has room for them.

    Parameters
    ----------
    piece : ClothPiece
        What is named.
    strokes : iterable of Stroke
        All lines that are drawn on it.
    show : callable
        How a length is written.

    Returns
    -------
    tuple of Lettering
        First the lowest line of the title.
    """
    room = CaptionRoom(piece.boundary, strokes)
    short_first = sorted(piece.edges, key=lambda edge: edge.length)  # they have the fewest places
    names = (_list_names(piece, edge, show) for edge in short_first)
    if piece.size[1] < _NARROW:
        named = [caption for choices in names for caption in _place_words(room, choices)]
        return *_place_words(room, _list_titles(piece)), *named
    title = _place_words(room, _list_titles(piece))
    return *title, *(caption for choices in names for caption in _place_words(room, choices))


def _place_words(room: CaptionRoom, choices: Iterable[_Choice]) -> tuple[Lettering, ...]:
    """Return the first words that find room, and keep others off them; where none do, the last at their best place."""
    found: int | None = None
    for choice in choices:
        size = measure_words(choice.lines, choice.height)
        found = room.find_place(size, choice.middles, choice.angles, crossing=choice.crossing)
        if found is not None:
            break
    middle, angle = choice.middles[found or 0], float(choice.angles[found or 0])
    room.keep_off(size, middle, angle)
    return stack_words(choice.lines, choice.height, middle, angle)


def _list_titles(piece: ClothPiece) -> Iterator[_Choice]:
    """Yield the title above the arrow, then beside and below, the smaller the later."""
    turned = f", {piece.mirrored} of them turned over" if piece.mirrored else ""
    cut, cloth, warp = f"cut {piece.number}{turned}", piece.fabric.name, "warp along the arrow"
    layouts = (piece.name, f"{cut}, {cloth}", warp), (piece.name, cut, cloth, warp)
    along = np.array([np.cos(piece.grain), np.sin(piece.grain)])
    up, middle = np.array([-along[1], along[0]]), find_middle(piece.outline)
    length = float(np.ptp(piece.boundary @ along))
    off, across = _TITLES
    sizes = [*product(off, (False,)), *product(across, (True,))]
    for (height, crossing), lines in product(sizes, layouts):
        rise = (_CLEAR + 0.5 + (len(lines) - 1) * LINE / 2) * height
        middles = [middle + step * length * along + side * rise * up for step, side in product(_STEPS, (1, -1))]
        yield _Choice(lines, height, np.array(middles), np.full(len(middles), piece.grain), crossing)


def _list_names(piece: ClothPiece, edge: PieceEdge, show: ShowLength) -> Iterator[_Choice]:
    """Yield the name of an edge and what is beyond its line: beside it, away from it, smaller, across lines."""
    points, normals = (_interpolate(edge, values) for values in (edge.points, edge.normals))
    if piece.even and points[:, 1].min() < 0.0 < points[:, 1].max():  # of an even piece the upper half is printed
        points, normals = points[points[:, 1] > 0.0], normals[points[:, 1] > 0.0]
    layouts, depths = _lay_out(edge, show), _list_depths(piece, edge)
    large, small = _NAMES
    ways = [
        *product((True,), large, (False,)),
        *product((False,), large, (False,)),
        *product((True, False), small, (False,)),
        *product((True, False), (*large, *small), (True,)),
    ]
    for (beside, height, crossing), lines in product(ways, layouts):
        angles = _turn_upright(normals if beside else normals @ [[0.0, -1.0], [1.0, 0.0]])
        inside = depths if beside else np.array(_AWAY) + measure_words(lines, height)[0] / 2
        middles = np.concatenate([points - each * normals for each in inside])
        yield _Choice(lines, height, middles, np.tile(angles, len(inside)), crossing)


def _list_depths(piece: ClothPiece, edge: PieceEdge) -> list[float]:
    """Return how far inside an edge its name may stand, m, beyond it below zero: on what is turned in."""
    inside = [each for each in _INSIDE if each <= _DEEPEST * piece.size[1]] or [_DEEPEST * piece.size[1]]
    stops = [0.0, edge.fold, edge.allowance] if edge.fold > 0.0 else [0.0, edge.allowance]
    return inside + [-(low + high) / 2 for low, high in pairwise(stops) if high > low]


def _interpolate(edge: PieceEdge, values: FloatArray) -> FloatArray:
    """Return values (n, 2) of the vertices of an edge where its name may stand (k, 2)."""
    at = np.array(_SHARES) * edge.length
    return np.stack([np.interp(at, edge.distances, column) for column in values.T], -1)


def _turn_upright(normals: FloatArray) -> FloatArray:
    """Return the angles (k,), rad, of words across normals (k, 2), turned so that they can be read."""
    angles = np.arctan2(normals[:, 0], -normals[:, 1])
    angles = np.where(angles > pi / 2 + _UPRIGHT, angles - pi, angles)
    return np.where(angles < -pi / 2 - _UPRIGHT, angles + pi, angles)


def _lay_out(edge: PieceEdge, show: ShowLength) -> tuple[tuple[str, ...], ...]:
    """Return the name of an edge on one, two and three lines."""
    if edge.treatment is Treatment.RAW:
        return ((edge.name,),)
    words, beyond = str(edge.treatment), f"cut {show(edge.allowance)} beyond"
    return (
        (f"{edge.name}, {words}, {beyond}",),
        (f"{edge.name}, {words},", beyond),
        (f"{edge.name},", f"{words},", beyond),
    )
