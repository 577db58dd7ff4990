"""The room that a drawing leaves for words: inside a ring, off every line, and off words that stand already."""

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from ...hammock.arrays import FloatArray
from ...materials.short_repr import write_repr
from ..geometry import contains
from .drawing import Lettering, LineKind, Stroke

LINE = 1.7  # heights of a capital from one base line to the next
_SIGN = 0.83  # of the height of a capital: how wide a sign is on the average; Helvetica takes a fifth less
_AIR = 0.4  # of the height of a capital, above and below words: room for tails
_COARSE = 0.02  # m: a curve keeps a vertex each, which moves it by less than 1 mm
_CORNER = 0.1  # tangent of the angle between two lines that meet in one
_AT_ONCE = 16  # places
_NEVER = (LineKind.CUT, LineKind.GRAIN)  # crossed by words


def measure_words(lines: tuple[str, ...], height: float) -> tuple[float, float]:
    """Return width and height, m, of a box that words do not leave, whatever type without serifs they are set in.

    Examples
    --------
    >>> [round(each, 4) for each in measure_words(("body", "cut 1"), 0.01)]
    [0.0415, 0.035]
    """
    return _SIGN * height * max(map(len, lines)), ((len(lines) - 1) * LINE + 1 + 2 * _AIR) * height


def stack_words(lines: tuple[str, ...], height: float, at: FloatArray, angle: float) -> tuple[Lettering, ...]:
    """Return lines of words one below the other, the lowest first, the middle of them all at (2,), m."""
    up = np.array([-np.sin(angle), np.cos(angle)])
    lowest = -0.5 - (len(lines) - 1) / 2 * LINE
    return tuple(
        Lettering(line, at + (lowest + number * LINE) * height * up, height, angle)
        for number, line in enumerate(reversed(lines))
    )


class CaptionRoom:
    """What room is left in a drawing.

    Parameters
    ----------
    ring : (n, 2)
        Inside it words are to stand, m, closed by the first.
    strokes : iterable of Stroke
        All lines. Words never cross the ring and arrows, the others only where there is no better place.
    """

    def __init__(self, ring: FloatArray, strokes: Iterable[Stroke]) -> None:
        lines = [(stroke.kind in _NEVER, _thin(stroke.path)) for stroke in strokes]
        self._ring = _thin(ring)
        self._middles = np.concatenate([(path[:-1] + path[1:]) / 2 for _, path in lines])
        self._halves = np.concatenate([np.diff(path, axis=0) / 2 for _, path in lines])
        self._never = np.concatenate([np.full(len(path) - 1, never) for never, path in lines])

    def __repr__(self) -> str:
        return write_repr(self, f"{len(self._never)} lines")

    def find_place(
        self, size: tuple[float, float], middles: FloatArray, angles: FloatArray, *, crossing: bool
    ) -> int | None:
        """Return which of some places is the first with room for a box; None if there is none.

        Parameters
        ----------
        size : (float, float)
            Of the box, m.
        middles, angles : (k, 2), (k,)
            Where its middle may be, m, and how it is turned there, rad.
        crossing : bool
            Whether it may cross lines that are neither the ring's nor an arrow's.
        """
        lines = self._never if crossing else np.full(len(self._never), fill_value=True)
        for start in range(0, len(middles), _AT_ONCE):  # mostly one of the first has room
            some = start + np.flatnonzero(contains(self._ring, middles[start : start + _AT_ONCE]))
            free = some[~self._touch(size, middles[some], angles[some], lines)]
            if len(free):
                return int(free[0])
        return None

    def keep_off(self, size: tuple[float, float], middle: FloatArray, angle: float) -> None:
        """Let no more words stand in a box."""
        along, up = np.array([np.cos(angle), np.sin(angle)]), np.array([-np.sin(angle), np.cos(angle)])
        a, b = size[0] / 2 * along, size[1] / 2 * up
        self._middles = np.concatenate([self._middles, middle + np.array([-b, a, b, -a, 0 * a, 0 * a])])
        self._halves = np.concatenate([self._halves, np.array([a, b, a, b, a + b, a - b])])  # sides, then diagonals
        self._never = np.concatenate([self._never, np.full(6, fill_value=True)])

    def _touch(
        self, size: tuple[float, float], middles: FloatArray, angles: FloatArray, lines: NDArray[np.bool_]
    ) -> NDArray[np.bool_]:
        """Return at which places one of some lines touches a box: no axis of either separates them."""
        at, halves = self._middles[lines], self._halves[lines]
        a, b = np.array(size) / 2
        near = (np.abs(at - middles[:, None]) <= np.abs(halves) + np.hypot(a, b)).all(axis=2)
        rows, pairs = np.nonzero(near)
        c, s = np.cos(angles)[rows], np.sin(angles)[rows]
        (x, y), (u, v) = (at[pairs] - middles[rows]).T, halves[pairs].T
        across, up, width, height = c * x + s * y, c * y - s * x, c * u + s * v, c * v - s * u
        aside = np.abs(across * height - up * width)
        width, height = np.abs(width), np.abs(height)
        apart = (np.abs(across) > a + width) | (np.abs(up) > b + height) | (aside > a * height + b * width)
        return np.asarray(np.bincount(rows[~apart], minlength=len(middles)) > 0)


def _thin(path: FloatArray) -> FloatArray:
    """Return a path with its ends and corners, and of its curves what is needed to tell where they run."""
    if len(path) == 2:
        return path
    steps = np.diff(path, axis=0)
    reached = np.cumsum(np.hypot(*steps.T)) // _COARSE
    (x, y), (u, v) = steps[:-1].T, steps[1:].T
    kept = (np.diff(reached) > 0) | (np.abs(x * v - y * u) > _CORNER * (x * u + y * v))
    return np.asarray(path[np.concatenate([[True], kept, [True]])])
