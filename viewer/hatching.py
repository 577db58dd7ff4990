"""Marks on the cloth, the code besides colour: strokes, diamonds and squares, as four-cornered patches in space."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from ..cases.storage.shape import FloatArray, IntegerArray, Shape
from .field import SLACK, TAUT, WRINKLED, take_values
from .field_list import STATE, Field, MarkRule

MARK_CELL = 0.065  # m, one mark in each cube of this size
STROKE, WIDTH, DIAMOND, SQUARE = 0.022, 0.0022, 0.006, 0.013  # m, half sizes of marks
DARK_FROM = 0.6  # of the scale: paler colours carry dark marks
_FAINTEST = 0.04  # of the scale: smaller values carry no mark that grows with them


class Marks(NamedTuple):
    """Corners (q, 4, 3), m, and whether they are dark (q,)."""

    corners: FloatArray
    dark: NDArray[np.bool_]


def place_marks(shape: Shape, field: Field, end: float) -> Marks:
    """Return the marks of a field, evenly over the cloth.

    Parameters
    ----------
    shape : Shape
        Deformed hammock.
    field : Field
        What the colours show.
    end : float
        Value at the top of its scale.
    """
    corners = shape.points[shape.triangles]
    middle = corners.mean(1)
    _, chosen = np.unique(np.floor(middle / MARK_CELL).astype(int), axis=0, return_index=True)
    share = np.clip(take_values(shape, field) / end, 0.0, 1.0)
    state = shape.state
    rule = field.marks
    if rule is MarkRule.WRINKLES:
        lists = [(chosen[state[chosen] == WRINKLED], "along", np.ones(len(state)))]
    elif rule is MarkRule.ALONG:
        lists = [(chosen[state[chosen] != SLACK], "along", np.ones(len(state)))]
    elif rule is MarkRule.ACROSS:
        lists = [(chosen[(state[chosen] == TAUT) & (share[chosen] > _FAINTEST)], "across", share)]
    else:
        return _place_squares(shape, chosen[share[chosen] > _FAINTEST], share)
    quads, rows = zip(*(_place_strokes(shape, rows, way, length) for rows, way, length in lists), strict=True)
    slack = chosen[state[chosen] == SLACK]
    everywhere = np.concatenate([*rows, slack])
    dark = (state[everywhere] == SLACK) | (share[everywhere] > DARK_FROM)
    if field.dimension == STATE:
        dark = state[everywhere] != TAUT
    return Marks(np.concatenate([*quads, _place_diamonds(shape, slack)]), dark)


def _place_strokes(shape: Shape, rows: IntegerArray, way: str, length: FloatArray) -> tuple[FloatArray, IntegerArray]:
    """Return strokes along or across the larger tension, and the triangles they lie in."""
    normal = find_normals(shape)[rows]
    along = shape.direction[rows] if way == "along" else np.cross(normal, shape.direction[rows])
    side = np.cross(normal, along)
    return _span(shape, rows, STROKE * length[rows, None] * normalise(along), WIDTH * normalise(side)), rows


def _place_diamonds(shape: Shape, rows: IntegerArray) -> FloatArray:
    """Return diamonds."""
    edge = np.diff(shape.points[shape.triangles[rows]], axis=1)[:, 0]
    side = np.cross(find_normals(shape)[rows], edge)
    return _span(shape, rows, DIAMOND * normalise(edge), DIAMOND * normalise(side))


def _place_squares(shape: Shape, rows: IntegerArray, share: FloatArray) -> Marks:
    """Return squares whose area grows with the value; each stands on an edge along the hammock."""
    normal = find_normals(shape)[rows]
    side = normalise(np.cross(normal, np.array([1.0, 0.0, 0.0]) - normal[:, [0]] * normal))
    along = np.cross(side, normal)
    half = SQUARE * np.sqrt(share[rows, None])
    return Marks(_span(shape, rows, half * (along + side), half * (along - side)), share[rows] > DARK_FROM)


def _span(shape: Shape, rows: IntegerArray, along: FloatArray, across: FloatArray) -> FloatArray:
    """Return patches (q, 4, 3) around the middles of triangles."""
    at = shape.points[shape.triangles[rows]].mean(1)
    return np.stack([at + along, at + across, at - along, at - across], 1)


def find_normals(shape: Shape) -> FloatArray:
    """Return the unit normal (m, 3) of every triangle, up where the cloth lies flat."""
    edges = np.diff(shape.points[shape.triangles], axis=1)
    return normalise(np.cross(edges[:, 0], edges[:, 1]))


def normalise(vectors: FloatArray) -> FloatArray:
    """Return unit vectors (q, 3)."""
    return np.asarray(vectors / np.maximum(np.linalg.norm(vectors, axis=1, keepdims=True), 1e-300))
