"""The line of the loaded cloth under each bar that is set in, read off a solved shape, and cloth cut to it."""

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from ...hammock.hammock import Bar, Hammock, HammockEnd
from ...hammock.loaded_line import LoadedLine
from ..storage.cell_tag import CellTag
from ..storage.shape import Shape

_SAME = 1e-9  # m


def find_body(shape: Shape) -> NDArray[np.bool_]:
    """Return which triangles (m,) are the body's."""
    return np.ones(len(shape.triangles), dtype=bool) if shape.sheet is None else shape.sheet == CellTag.CLOTH


def cut_to_lines(shape: Shape, hammock: Hammock) -> Hammock:
    """Return a hammock whose extensions are cut to the lines of a solved shape.

    Those of an even body are the mean of both halves: a person may turn to either side.

    Parameters
    ----------
    shape : Shape
        Of this hammock.
    hammock : Hammock
        Whose extensions may be estimated.
    """
    head, foot = (_cut_end(shape, hammock, end) for end in hammock.ends)
    return replace(hammock, head_bar=head, foot_bar=foot)


def _cut_end(shape: Shape, hammock: Hammock, end: HammockEnd) -> Bar:
    """Return the bar of one end, the cloth beyond it, if there is any, cut to its solved line."""
    if end.bar.set_in == 0.0:
        return end.bar
    return replace(end.bar, extension=replace(end.bar.extension, line=_read_line(shape, hammock, end)))


def _read_line(shape: Shape, hammock: Hammock, end: HammockEnd) -> LoadedLine:
    """Return how far from the apex the end of the body hangs."""
    at = 0.0 if end.name == "head" else hammock.body.length
    nodes = np.unique(shape.triangles[find_body(shape)])
    nodes = nodes[np.abs(shape.flat[nodes, 0] - at) < _SAME]
    nodes = nodes[np.argsort(shape.flat[nodes, 1])]
    right, left = (
        shape.segments[shape.part == CellTag[f"{end.name}_{side}_leg".upper()]] for side in ("right", "left")
    )
    (apex,) = np.intersect1d(right, left)
    along = shape.flat[nodes, 1] - shape.flat[nodes[0], 1]
    distance = np.linalg.norm(shape.points[nodes] - shape.points[apex], axis=1)
    if hammock.body.is_even:
        distance = (distance + distance[::-1]) / 2
    return LoadedLine(tuple(along.tolist()), tuple(distance.tolist()))
