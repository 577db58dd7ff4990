"""The line a piece is cut along: every edge with its allowance, and the corners between them.

An allowance that is turned in first must lie on what it is turned onto. At the end of a hem the cut is therefore the
cut of its neighbour, mirrored about each fold in turn: cloth at a distance t beyond the finished line comes to lie t
inside it, beyond a second fold at f it comes to lie 2f - t inside. All other corners are mitred: the two cuts are
drawn on until they meet.
"""

import numpy as np

from ..hammock.arrays import FloatArray
from .edge import PieceEdge, Treatment
from .geometry import cross_lines, extend_line

_SAME = 1e-9  # m
_LONGEST_MITRE = 3.0  # times the larger allowance; beyond, the corner is cut off square
_REACH = 0.5  # m that a cut is drawn on


def trace_boundary(edges: tuple[PieceEdge, ...]) -> list[FloatArray]:
    """Return the cut along each edge, from corner to corner.

    Parameters
    ----------
    edges : tuple of PieceEdge
        All around the piece, each beginning where the one before it ends.

    Returns
    -------
    list of (k, 2)
        m; each begins with the last point of the one before it.
    """
    count = len(edges)
    joints = [_join_corner(edges[place - 1], edges[place]) for place in range(count)]
    return [
        _thin(np.concatenate([joints[place][1], _trim(edges[place], joints, place), joints[(place + 1) % count][0]]))
        for place in range(count)
    ]


def _trim(edge: PieceEdge, joints: list[tuple[FloatArray, FloatArray]], place: int) -> FloatArray:
    """Return the vertices of the parallel curve of an edge between its corners; a straight one has none."""
    if len(edge.points) == 2:
        return edge.points[:0]
    line = edge.shift(edge.allowance)
    first, last = joints[place][1][-1], joints[(place + 1) % len(joints)][0][0]
    along = [_project(edge, point) for point in (first, last)]
    inside = (edge.distances > along[0] + _SAME) & (edge.distances < along[1] - _SAME)
    return np.asarray(line[inside])


def _project(edge: PieceEdge, point: FloatArray) -> float:
    """Return the distance along the finished line of a point beside it, m; before its start below zero."""
    first, step = edge.points[:-1], np.diff(edge.points, axis=0)
    share = np.clip(((point - first) * step).sum(axis=1) / (step**2).sum(axis=1), 0.0, 1.0)
    nearest = int(np.argmin(np.hypot(*(first + share[:, None] * step - point).T)))
    for end, at, side in ((0, nearest + share[nearest], -1.0), (-1, nearest + share[nearest] - len(step), 1.0)):
        normal = edge.normals[end]
        beyond = side * float((point - edge.points[end]) @ np.array([-normal[1], normal[0]]))
        if at == 0.0 and beyond >= 0.0:
            return -beyond if end == 0 else edge.length + beyond
    return float(edge.distances[nearest] + share[nearest] * np.hypot(*step[nearest]))


def _join_corner(before: PieceEdge, after: PieceEdge) -> tuple[FloatArray, FloatArray]:
    """Return the points of a corner that belong to the cut before it, and to that after it; one is common."""
    if before.treatment is Treatment.HEM and after.treatment is Treatment.CHANNEL:
        side = _mirror_side(before, after, at_end=True)
        return side[::-1], side[:1]
    if before.treatment is Treatment.CHANNEL and after.treatment is Treatment.HEM:
        side = _mirror_side(after, before, at_end=False)
        return side[:1], side
    meet = _mitre(before, after)
    return meet[:1], meet


def _mirror_side(hem: PieceEdge, side: PieceEdge, *, at_end: bool) -> FloatArray:
    """Return the end of a hem (k, 2), m, from its finished line outward: the cut beside it, mirrored about its folds.

    Parameters
    ----------
    hem : PieceEdge
        Straight, turned in first.
    side : PieceEdge
        Its neighbour, turned in later.
    at_end : bool
        Whether the corner is the end of the hem, or its start.
    """
    corner = hem.points[-1 if at_end else 0]
    normal = hem.normals[0]
    along = np.array([-normal[1], normal[0]])  # the direction in which the edge runs
    line = extend_line(side.shift(side.allowance), _REACH)
    inside, aside = -(line - corner) @ normal, (line - corner) @ along
    order = np.argsort(inside)
    fold = hem.fold or hem.allowance
    depth = hem.allowance
    stops = np.unique([0.0, min(fold, depth), depth, *_list_depths(inside, fold, depth)])
    lies = np.where(stops <= fold, stops, 2 * fold - stops)
    return np.asarray(corner + stops[:, None] * normal + np.interp(lies, inside[order], aside[order])[:, None] * along)


def _list_depths(inside: FloatArray, fold: float, depth: float) -> list[float]:
    """Return the distances beyond the finished line that come to lie on vertices of the neighbour's cut."""
    near = [float(each) for each in inside if _SAME < each < min(fold, depth) - _SAME]
    return near + [2 * fold - each for each in near if fold < 2 * fold - each < depth - _SAME]


def _mitre(before: PieceEdge, after: PieceEdge) -> FloatArray:
    """Return where two cuts meet (1, 2), m, or the ends of both (2, 2) where that is far off."""
    first, second = before.shift(before.allowance), after.shift(after.allowance)
    corner = before.points[-1]
    found = cross_lines(extend_line(first, _REACH), extend_line(second, _REACH))
    away = np.hypot(*(found - corner).T)
    most = _LONGEST_MITRE * max(abs(before.allowance), abs(after.allowance)) + _SAME
    turn = before.normals[-1] @ [after.normals[0, 1], -after.normals[0, 0]]
    if len(found) and (away.min() <= most or turn < -_SAME):  # in a corner that turns inward both cuts end there
        return np.asarray(found[[np.argmin(away)]])
    return np.array([first[-1], second[0]])


def _thin(line: FloatArray) -> FloatArray:
    """Return a line without points that repeat."""
    keep = np.concatenate([[True], np.hypot(*np.diff(line, axis=0).T) > _SAME])
    return np.asarray(line[keep])
