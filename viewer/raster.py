"""A screen of small squares behind a view, on which what is nearest to the eye is found square by square."""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from ..cases.storage.shape import FloatArray, IntegerArray
from .camera import Camera, project_points
from .mannequin import Balls

NOTHING = -np.inf  # depth where nothing is seen
_TOGETHER = 500  # triangles sampled at once, all as finely as the largest of them


class Raster(NamedTuple):
    """Squares of side ``step`` m from the lower left corner ``low`` (2,) m; ``size`` rows and columns."""

    camera: Camera
    low: FloatArray
    step: float
    size: tuple[int, int]

    @property
    def extent(self) -> tuple[float, float, float, float]:
        """Left, right, bottom and top, m."""
        rows, columns = self.size
        return (
            float(self.low[0]),
            float(self.low[0] + columns * self.step),
            float(self.low[1]),
            float(self.low[1] + rows * self.step),
        )

    @property
    def middles(self) -> tuple[FloatArray, FloatArray]:
        """Middles of the squares to the right (columns,) and up (rows,), m."""
        rows, columns = (np.arange(count) + 0.5 for count in self.size)
        return self.low[0] + self.step * columns, self.low[1] + self.step * rows

    def find_square(self, seen: FloatArray) -> IntegerArray:
        """Return row and column (n, 2) of points of the view (n, 2); outside they are below 0 or beyond ``size``."""
        return np.floor((seen - self.low) / self.step).astype(np.int64)[:, ::-1]


def frame_balls(camera: Camera, balls: Balls, step: float, margin: int = 4) -> Raster:
    """Return a screen that just holds ``balls`` and ``margin`` squares around.

    Parameters
    ----------
    camera : Camera
        From where.
    balls : Balls
        What is to be seen.
    step : float
        Side of a square, m.
    margin : int
        Squares.
    """
    seen = project_points(camera, balls.middle)
    low = (seen - balls.radius[:, None]).min(axis=0) - margin * step
    high = (seen + balls.radius[:, None]).max(axis=0) + margin * step
    columns, rows = np.ceil((high - low) / step).astype(int)
    return Raster(camera, low, step, (int(rows), int(columns)))


def look_at_balls(screen: Raster, balls: Balls) -> tuple[FloatArray, IntegerArray]:
    """Return how near the nearest skin is to the eye in every square, m, and whose it is.

    Parameters
    ----------
    screen : Raster
        Where to look.
    balls : Balls
        What may be seen.

    Returns
    -------
    depth : (rows, columns)
        Along the direction of the eye, m; ``NOTHING`` where there is no ball.
    owner : (rows, columns)
        Number of the ball, -1 for none.
    """
    depth, owner = np.full(screen.size, NOTHING), np.full(screen.size, -1, dtype=np.int64)
    near = balls.middle @ screen.camera.eye
    with np.errstate(invalid="ignore"):  # beside a ball the root is not a number, and no such number is nearer
        for ball, (place, under) in enumerate(_cover_squares(screen, balls)):
            skin = np.sqrt(under, out=under)
            skin += near[ball]
            nearer = skin > depth[place]
            np.copyto(depth[place], skin, where=nearer)
            np.copyto(owner[place], ball, where=nearer)
    return depth, owner


def measure_cover(screen: Raster, balls: Balls) -> FloatArray:
    """Return how far inside the outline of ``balls`` each square lies, m; negative outside, zero on the outline.

    Parameters
    ----------
    screen : Raster
        Where to look.
    balls : Balls
        What is seen.

    Returns
    -------
    (rows, columns)
        Exact on the outline, of the right sign elsewhere.
    """
    inside = np.full(screen.size, -screen.step)
    for ball, (place, under) in enumerate(_cover_squares(screen, balls)):
        inside[place] = np.maximum(inside[place], under / (2 * balls.radius[ball]))
    return inside


def _cover_squares(screen: Raster, balls: Balls) -> Iterator[tuple[tuple[slice, slice], FloatArray]]:
    """Yield for each ball the squares around it and there its radius squared less the distance squared, m2."""
    seen = project_points(screen.camera, balls.middle)
    first = np.maximum(screen.find_square(seen - balls.radius[:, None]) - 1, 0)
    last = np.minimum(screen.find_square(seen + balls.radius[:, None]) + 2, screen.size)
    across, up = screen.middles
    for ball, ((row, column), (top, end)) in enumerate(zip(first, last, strict=True)):
        rise, run = up[row:top] - seen[ball, 1], across[column:end] - seen[ball, 0]
        yield np.s_[row:top, column:end], balls.radius[ball] ** 2 - rise[:, None] ** 2 - run**2


def look_at_cloth(screen: Raster, corners: FloatArray) -> FloatArray:
    """Return how near the nearest cloth is to the eye in every square, m.

    Parameters
    ----------
    screen : Raster
        Where to look.
    corners : (m, 3, 3)
        Of the triangles, m.

    Returns
    -------
    (rows, columns)
        ``NOTHING`` where there is no cloth.
    """
    depth, (rows, columns) = np.full(screen.size, NOTHING), screen.size
    longest = np.linalg.norm(corners - np.roll(corners, 1, axis=1), axis=2).max(axis=1)
    fineness = np.ceil(longest / (0.7 * screen.step)).astype(int) + 1  # samples along a side: none between two squares
    order, near = np.argsort(fineness), corners @ screen.camera.eye
    places = (project_points(screen.camera, corners) - screen.low) / screen.step  # in squares, right and up
    for group in np.array_split(order, max(1, len(order) // _TOGETHER)):
        shares = _spread_shares(int(fineness[group].max())).T
        column, row, nearness = (_blend(shares, ends[group]) for ends in (places[..., 0], places[..., 1], near))
        inside = (column >= 0) & (column < columns) & (row >= 0) & (row < rows)
        squares = row[inside].astype(np.intp) * columns + column[inside].astype(np.intp)
        np.maximum.at(depth.reshape(-1), squares, nearness[inside])
    return depth


def _blend(shares: FloatArray, ends: FloatArray) -> FloatArray:
    """Return values (m, s) between those of the corners (m, 3), for shares (3, s); BLAS is slow for threes."""
    return np.asarray(ends[:, :1] * shares[0] + ends[:, 1:2] * shares[1] + ends[:, 2:] * shares[2])


def _spread_shares(count: int) -> FloatArray:
    """Return barycentric shares (s, 3) of points all over a triangle, ``count`` along each side."""
    a, b = np.meshgrid(np.arange(count), np.arange(count))
    kept = a + b < count
    shares = np.stack([a[kept], b[kept]], -1) / max(count - 1, 1)
    return np.column_stack([shares, 1 - shares.sum(axis=1)])
