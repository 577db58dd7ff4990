"""Loops over contact between cloth triangles and round bodies: energy, force, depth.

Arrays: x (n, 3) positions; triangles (m, 3); area (m,) first areas; segments (c, 2); radii (c, 2);
stiffness k (c,);
shape (q, 3) corner shares of the quadrature points, weight (q,) their shares of the area, rule after rule, each
finer than the one before, begun at starts (l + 1,). At one point p
with the place s on a capsule's axis from a to b: v = p - (1-s) a - s b, n = v/|v|, depth
d = max over s of (1-s) r_a + s r_b - |v|, energy k A w e(d) where d > 0.
"""

import math

import numba
import numpy as np

from .flesh_kernel import find_depth, press
from .near_kernel import find_near

_APART = 0.25  # of the smaller radius: how far points may be apart, lest an axis come through between them


@numba.njit(cache=True)
def choose_rule(area, D, starts):
    """Return the first rule whose points are close enough in a triangle for a capsule of smaller radius D."""
    rule, points = 0, float(starts[1])
    while rule < len(starts) - 2 and area > points * (_APART * D) ** 2:
        rule, points = rule + 1, 4.0 * points
    return rule


@numba.njit(cache=True)
def place(x, nodes, share):
    """Return the point of a triangle that has the corner shares ``share``."""
    i, j, k = nodes[0], nodes[1], nodes[2]
    f, g, h = share[0], share[1], share[2]
    return (
        f * x[i, 0] + g * x[j, 0] + h * x[k, 0],
        f * x[i, 1] + g * x[j, 1] + h * x[k, 1],
        f * x[i, 2] + g * x[j, 2] + h * x[k, 2],
    )


@numba.njit(cache=True)
def find_energy(x, triangles, area, segments, radii, stiffness, shape, weight, starts):
    """Return the stored energy, J."""
    total = 0.0
    near = find_near(x, triangles, segments, radii, 1.0)
    for t in range(len(triangles)):
        for c in range(len(segments)):
            if not near[t, c]:
                continue
            a, b, ra, rb = x[segments[c, 0]], x[segments[c, 1]], radii[c, 0], radii[c, 1]
            rule = choose_rule(area[t], min(ra, rb), starts)
            for q in range(starts[rule], starts[rule + 1]):
                px, py, pz = place(x, triangles[t], shape[q])
                depth, _, _, _, _, _ = find_depth(px, py, pz, a, b, ra, rb)
                if depth > 0.0:
                    density, _, _ = press(depth, min(ra, rb))
                    total += stiffness[c] * area[t] * weight[q] * density
    return total


@numba.njit(cache=True)
def add_force(x, triangles, area, segments, radii, stiffness, shape, weight, starts, force):
    """Add minus the gradient of the energy to force (n, 3)."""
    near = find_near(x, triangles, segments, radii, 1.0)
    for t in range(len(triangles)):
        for c in range(len(segments)):
            if not near[t, c]:
                continue
            a, b, ra, rb = x[segments[c, 0]], x[segments[c, 1]], radii[c, 0], radii[c, 1]
            rule = choose_rule(area[t], min(ra, rb), starts)
            for q in range(starts[rule], starts[rule + 1]):
                px, py, pz = place(x, triangles[t], shape[q])
                depth, s, _, vx, vy, vz = find_depth(px, py, pz, a, b, ra, rb)
                if depth <= 0.0 or vx == vy == vz == 0.0:
                    continue
                _, slope, _ = press(depth, min(ra, rb))
                push = stiffness[c] * area[t] * weight[q] * slope / math.sqrt(vx * vx + vy * vy + vz * vz)
                for i, v in enumerate((vx, vy, vz)):
                    for j in range(3):
                        force[triangles[t, j], i] += shape[q, j] * push * v
                    force[segments[c, 0], i] -= (1.0 - s) * push * v
                    force[segments[c, 1], i] -= s * push * v


@numba.njit(cache=True)
def find_pressing(x, triangles, area, segments, radii, stiffness, shape, weight, starts, deformed):
    """Return force on each triangle (m, 3) and, by capsule, force on the cloth (c, 3), depth and area (c,); all area.

    ``deformed``: the triangles' present areas (m,), of which the touched shares are counted.
    """
    m, c_count = len(triangles), len(segments)
    force, touched, whole = np.zeros((m, 3)), np.zeros(c_count), 0.0
    total, deepest = np.zeros((c_count, 3)), np.zeros(c_count)
    near = find_near(x, triangles, segments, radii, 1.0)
    for t in range(m):
        finest = 0
        for c in range(c_count):
            ra, rb = radii[c, 0], radii[c, 1]
            rule = choose_rule(area[t], min(ra, rb), starts)
            finest = max(finest, rule)
            if not near[t, c]:
                continue
            a, b = x[segments[c, 0]], x[segments[c, 1]]
            for q in range(starts[rule], starts[rule + 1]):
                px, py, pz = place(x, triangles[t], shape[q])
                depth, _, _, vx, vy, vz = find_depth(px, py, pz, a, b, ra, rb)
                if depth <= 0.0 or vx == vy == vz == 0.0:
                    continue
                touched[c] += weight[q] * deformed[t]
                deepest[c] = max(deepest[c], depth)
                _, slope, _ = press(depth, min(ra, rb))
                push = stiffness[c] * area[t] * weight[q] * slope / math.sqrt(vx * vx + vy * vy + vz * vz)
                for i, v in enumerate((vx, vy, vz)):
                    force[t, i] += push * v
                    total[c, i] += push * v
        for q in range(starts[finest], starts[finest + 1]):
            whole += weight[q] * deformed[t] * _is_pressed(x, triangles[t], shape[q], segments, radii)
    return force, total, deepest, touched, whole


@numba.njit(cache=True)
def _is_pressed(x, nodes, share, segments, radii):
    """Tell whether a point of a triangle lies below the skin of any capsule."""
    px, py, pz = place(x, nodes, share)
    for c in range(len(segments)):
        if find_depth(px, py, pz, x[segments[c, 0]], x[segments[c, 1]], radii[c, 0], radii[c, 1])[0] > 0.0:
            return True
    return False
