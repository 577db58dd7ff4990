"""A tighter lay: every copy where it fits earliest, also into gaps between and behind others, in several orders.

Cloth and copies are squares of 5 mm. A place is free if no square of the copy meets a used one, which a convolution
tells of all places at once; used are the squares that a copy touches, and those less than the gap from it. The orders
that are tried are always the same.
"""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from math import ceil

import numpy as np
from numpy.typing import NDArray

from ..hammock.arrays import FloatArray
from .geometry import contains
from .lay import GAP, LaidPiece, Lay, list_turns, orient_cut
from .piece import ClothPiece

_CELL = 0.005  # m
_MARGIN = ceil(GAP / _CELL) + 1  # cells; one more than the gap, for what the samples of an edge leave out
_SAMPLES = _CELL / 4  # m between points of a cut
_ORDERS = 6
_NONE = 0.5  # squares that two copies share: a whole number, give or take round-off
Copy = tuple[ClothPiece, bool]
Mask = NDArray[np.bool_]


def nest_lay(lay: Lay) -> Lay:
    """Return a lay of the same copies, as short as it is found; the one that is given where none is shorter.

    Parameters
    ----------
    lay : Lay
        Of copies that follow each other by their size.

    Examples
    --------
    >>> from importlib.resources import files
    >>> from tautlay.cases import draft_pattern, read_design
    >>> pattern = draft_pattern(read_design(str(files("tautlay.cases") / "larch_ridge.toml")))
    >>> nest_lay(pattern.lays[0]).length <= pattern.lays[0].length
    True
    """
    best, copies = lay, [(each.piece, each.turned_over) for each in lay.laid]
    for order in _list_orders(len(copies)):
        laid = _place_all([copies[number] for number in order], best)
        if laid is not None:
            found = Lay(lay.fabric, lay.width, laid)
            best = min(best, found, key=lambda each: round(each.length, 6))
    return best


def _list_orders(count: int) -> Iterator[Sequence[int]]:
    """Yield the orders that are tried: the largest first, then with some copies put off by chance, always the same."""
    numbers, chance = np.arange(count, dtype=np.float64), np.random.default_rng(1)
    for number in range(_ORDERS if count > 2 else 1):
        late = chance.normal(scale=1.5, size=count) if number else np.zeros(count)
        yield [int(each) for each in np.argsort(numbers + late, kind="stable")]


def _place_all(copies: Sequence[Copy], known: Lay) -> tuple[LaidPiece, ...] | None:
    """Return every copy where it ends earliest; None where not all fit on the cloth that a known lay takes."""
    used = np.zeros((ceil(known.length / _CELL), int(known.width / _CELL + 1e-9)), dtype=np.float32)
    laid = []
    for piece, turned_over in copies:
        spectrum, turns = np.fft.rfft2(used), list_turns(piece, turned_over=turned_over)
        found = [_find_place(spectrum, used.shape, piece, angle, turned_over=turned_over) for angle in turns]
        tried = [each for each in found if each is not None]
        if not tried:
            return None
        _, (row, lane), angle = min(tried)
        mask, low = draw_mask(piece, angle, turned_over=turned_over)
        laid.append(LaidPiece(piece, turned_over, angle, np.array([row, lane]) * _CELL - low))
        _use(used, mask, row, lane)
    return tuple(laid)


def _find_place(
    spectrum: NDArray[np.complexfloating], room: tuple[int, ...], piece: ClothPiece, angle: float, *, turned_over: bool
) -> tuple[int, tuple[int, int], float] | None:
    """Return how far a copy reaches at best, cells, where that is, and the angle; None where it fits nowhere."""
    mask, _ = draw_mask(piece, angle, turned_over=turned_over)
    if any(size > most for size, most in zip(mask.shape, room, strict=True)):
        return None
    met = np.fft.irfft2(spectrum * np.conj(np.fft.rfft2(mask, room)), room)
    free = met[: room[0] - mask.shape[0] + 1, : room[1] - mask.shape[1] + 1] < _NONE
    places = np.flatnonzero(free)
    if not len(places):
        return None
    row, lane = np.unravel_index(places[0], free.shape)  # the first along the bolt
    return int(row) + mask.shape[0], (int(row), int(lane)), angle


def _use(used: NDArray[np.float32], mask: Mask, row: int, lane: int) -> None:
    """Mark the squares of a copy, and those around it."""
    around = np.lib.stride_tricks.sliding_window_view(np.pad(mask, 2 * _MARGIN), (2 * _MARGIN + 1,) * 2)
    wide = np.asarray(around.any(axis=(2, 3)))
    first = np.array([row, lane]) - _MARGIN
    start, stop = np.maximum(first, 0), np.minimum(first + wide.shape, used.shape)
    inside = wide[start[0] - first[0] : stop[0] - first[0], start[1] - first[1] : stop[1] - first[1]]
    used[start[0] : stop[0], start[1] : stop[1]][inside] = 1.0


def draw_mask(piece: ClothPiece, angle: float, *, turned_over: bool) -> tuple[Mask, FloatArray]:
    """Return the squares that a copy touches (rows along the bolt, lanes across it), and its lowest corner (2,), m.

    Parameters
    ----------
    piece : ClothPiece
        What is laid.
    angle : float
        By which it is turned to the left, rad.
    turned_over : bool
        Whether it lies with its right side down.
    """
    return _draw_mask(orient_cut(piece, angle, turned_over=turned_over).tobytes(), len(piece.boundary))


@lru_cache(maxsize=256)
def _draw_mask(ring: bytes, count: int) -> tuple[Mask, FloatArray]:
    """Return the squares of a cut whose vertices are given as bytes."""
    outline = np.frombuffer(ring, dtype=np.float64).reshape(count, 2)
    low = outline.min(axis=0)
    outline = outline - low
    after = np.roll(outline, -1, axis=0)
    steps = [max(ceil(float(length) / _SAMPLES), 1) for length in np.hypot(*(after - outline).T)]
    edge = np.concatenate(
        [a + np.arange(n)[:, None] / n * (b - a) for a, b, n in zip(outline, after, steps, strict=True)]
    )
    shape = np.maximum(np.ceil(outline.max(axis=0) / _CELL - 1e-9).astype(int), 1)
    mask = np.zeros(shape, dtype=bool)
    cells = np.minimum((edge / _CELL).astype(int), shape - 1)
    mask[cells[:, 0], cells[:, 1]] = True
    lanes = (np.arange(shape[1]) + 0.5) * _CELL
    for row in range(shape[0]):  # a row at a time, which takes little memory
        centres = np.stack([np.full_like(lanes, (row + 0.5) * _CELL), lanes], -1)
        mask[row] |= contains(outline, centres)
    return mask, low
