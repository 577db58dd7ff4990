"""Whether the axis of a body goes through cloth: at rest, and on the straight way from one place to another.

Everything moves at an even pace from x to y. A point meets a triangle, or an edge another, only when the four
points that span them lie in one plane, which is at a root of a cubic in time: the volume they span. An axis that
goes through a triangle has crossed it with an end, or crossed one of its edges; so five such tests miss nothing,
however long the step.
Source: X. Provot, Collision and self-collision handling in cloth model dedicated to design garments,
Computer Animation and Simulation '97, 177-189 (from memory).
"""

import math

import numpy as np

from .compiling import compiled
from .element import Bools, Floats, Integers

_SLACK = 1e-9  # of a side: what meets just beside an edge counts, lest it slip between two triangles
_HALVINGS = 50


@compiled
def _at(x: Floats, y: Floats, node: int, time: float, place: Floats) -> None:
    """Fill ``place`` (3,) with where a node is."""
    for i in range(3):
        place[i] = x[node, i] + time * (y[node, i] - x[node, i])


@compiled
def _span(x: Floats, y: Floats, nodes: Integers, time: float, corners: Floats) -> float:
    """Fill ``corners`` (4, 3) with where four nodes are and return six times the volume they span."""
    for k in range(4):
        _at(x, y, nodes[k], time, corners[k])
    a, b, c, d = corners
    ux, uy, uz = b[0] - a[0], b[1] - a[1], b[2] - a[2]
    vx, vy, vz = c[0] - a[0], c[1] - a[1], c[2] - a[2]
    wx, wy, wz = d[0] - a[0], d[1] - a[1], d[2] - a[2]
    return float(ux * (vy * wz - vz * wy) + uy * (vz * wx - vx * wz) + uz * (vx * wy - vy * wx))


@compiled
def _list_flat_times(x: Floats, y: Floats, nodes: Integers, corners: Floats, times: Floats) -> int:
    """Fill ``times`` (3,) with the moments at which four nodes lie in one plane and return how many there are."""
    v0, v1 = _span(x, y, nodes, 0.0, corners), _span(x, y, nodes, 1 / 3, corners)
    v2, v3 = _span(x, y, nodes, 2 / 3, corners), _span(x, y, nodes, 1.0, corners)
    b1, b2 = (-5 * v0 + 18 * v1 - 9 * v2 + 2 * v3) / 6, (2 * v0 - 9 * v1 + 18 * v2 - 5 * v3) / 6
    if min(v0, b1, b2, v3) > 0.0 or max(v0, b1, b2, v3) < 0.0:  # a cubic lies between its control values
        return 0
    p, q, r = 3 * (b1 - v0), 3 * (v0 - 2 * b1 + b2), v3 - 3 * b2 + 3 * b1 - v0  # v0 + p t + q t^2 + r t^3
    ends = [0.0]
    root = q * q - 3 * p * r
    if root > 0.0:  # its turning points, without loss of digits
        h = -(q + math.copysign(math.sqrt(root), q))
        first, second = h / (3 * r) if r != 0.0 else 2.0, p / h if h != 0.0 else 2.0
        ends += [turn for turn in (min(first, second), max(first, second)) if 0.0 < turn < 1.0]
    ends.append(1.0)
    count = 0
    for k in range(len(ends) - 1):
        low, high = ends[k], ends[k + 1]
        at_low, at_high = v0 + low * (p + low * (q + low * r)), v0 + high * (p + high * (q + high * r))
        if at_low * at_high > 0.0 or at_low == 0.0 == at_high:
            continue
        for _ in range(_HALVINGS):
            middle = 0.5 * (low + high)
            if (v0 + middle * (p + middle * (q + middle * r))) * at_low > 0.0:
                low = middle
            else:
                high = middle
        times[count] = high
        count += 1
    return count


@compiled
def _dot(a: Floats, b: Floats) -> float:
    """Return the product of two vectors (3,)."""
    return float(a[0] * b[0] + a[1] * b[1] + a[2] * b[2])


@compiled
def _is_inside(corners: Floats) -> bool:
    """Tell whether the fourth of four points in a plane lies in the triangle of the others."""
    u, v, w = corners[1] - corners[0], corners[2] - corners[0], corners[3] - corners[0]
    uu, uv, vv, wu, wv = _dot(u, u), _dot(u, v), _dot(v, v), _dot(w, u), _dot(w, v)
    double = uu * vv - uv * uv
    s, t = vv * wu - uv * wv, uu * wv - uv * wu
    least = -_SLACK * double
    return s >= least and t >= least and s + t <= double - least


@compiled
def _do_cross(corners: Floats) -> bool:
    """Tell whether of four points in a plane the line from the first to the second crosses that of the others."""
    d, e, w = corners[1] - corners[0], corners[3] - corners[2], corners[2] - corners[0]
    dd, de, ee, wd, we = _dot(d, d), _dot(d, e), _dot(e, e), _dot(w, d), _dot(w, e)
    double = dd * ee - de * de
    s, t = ee * wd - de * we, de * wd - dd * we
    return double > 0.0 and -_SLACK * double <= min(s, t) and max(s, t) <= (1 + _SLACK) * double


@compiled
def _meets(x: Floats, y: Floats, nodes: Integers, ends: Integers, corners: Floats, times: Floats) -> bool:
    """Tell whether the axis between two nodes meets a triangle on the way from x to y."""
    i, j = ends
    four = np.empty(4, np.int64)
    four[:3] = nodes
    for end in (i, j):
        four[3] = end
        for k in range(_list_flat_times(x, y, four, corners, times)):
            _span(x, y, four, times[k], corners)
            if _is_inside(corners):
                return True
    if i == j:
        return False
    four[0], four[1] = i, j
    for a, b in ((0, 1), (1, 2), (2, 0)):
        four[2], four[3] = nodes[a], nodes[b]
        for k in range(_list_flat_times(x, y, four, corners, times)):
            _span(x, y, four, times[k], corners)
            if _do_cross(corners):
                return True
    return False


@compiled
def _box(x: Floats, y: Floats, nodes: Integers, box: Floats) -> None:
    """Fill ``box`` (2, 3) with the least and the greatest of the places of some nodes at x and y."""
    for d in range(3):
        box[0, d], box[1, d] = math.inf, -math.inf
        for node in nodes:
            box[0, d] = min(box[0, d], x[node, d], y[node, d])
            box[1, d] = max(box[1, d], x[node, d], y[node, d])


@compiled
def _list_boxes(x: Floats, y: Floats, members: Integers) -> Floats:
    """Return a box (m, 2, 3) round the way of each of ``members`` (m, k) from x to y."""
    boxes = np.empty((len(members), 2, 3))
    for k in range(len(members)):
        _box(x, y, members[k], boxes[k])
    return boxes


@compiled
def _is_apart(one: Floats, other: Floats) -> bool:
    """Tell whether two boxes (2, 3) have no point in common."""
    for d in range(3):  # noqa: SIM110  (compiled loops know no generators)
        if one[1, d] < other[0, d] or other[1, d] < one[0, d]:
            return True
    return False


@compiled
def find_pierced(x: Floats, triangles: Integers, segments: Integers) -> Bools:
    """Return through which axes (c,) a triangle of the cloth goes at x (n, 3)."""
    pierced = np.zeros(len(segments), np.bool_)
    cloth, axes = _list_boxes(x, x, triangles), _list_boxes(x, x, segments)
    for c in range(len(segments)):
        i, j = segments[c]
        d = x[j] - x[i]
        for t in range(len(triangles)):
            if i == j or _is_apart(cloth[t], axes[c]):
                continue
            corner = x[triangles[t, 0]]
            e, f, s = x[triangles[t, 1]] - corner, x[triangles[t, 2]] - corner, x[i] - corner
            h, q = np.cross(d, f), np.cross(s, e)
            size = _dot(e, h)
            u, v, w = _dot(s, h), _dot(d, q), _dot(f, q)
            if size < 0.0:
                size, u, v, w = -size, -u, -v, -w
            if size > 0.0 and u >= 0.0 and v >= 0.0 and u + v <= size and 0.0 <= w <= size:
                pierced[c] = True
                break
    return pierced


@compiled
def has_passed(x: Floats, y: Floats, triangles: Integers, segments: Integers) -> bool:
    """Tell whether cloth passes through an axis on the way from x to y (n, 3); one that is pierced may get free."""
    corners, times, cloth, all_axes = np.empty((4, 3)), np.empty(3), np.empty((2, 3)), np.empty((2, 3))
    axes, gets_free = _list_boxes(x, y, segments), np.zeros(len(segments), np.bool_)
    _box(x, y, segments.ravel(), all_axes)
    for t in range(len(triangles)):
        _box(x, y, triangles[t], cloth)
        if _is_apart(cloth, all_axes):
            continue
        for c in range(len(segments)):
            if gets_free[c] or _is_apart(cloth, axes[c]):
                continue
            if _meets(x, y, triangles[t], segments[c], corners, times):
                gets_free[c] = find_pierced(x, triangles, segments[c : c + 1])[0]
                if not gets_free[c]:
                    return True
    return False
