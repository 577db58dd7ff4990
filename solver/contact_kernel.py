"""Loops over contact between cloth triangles and round bodies: energy, force, stiffness, depth.

Arrays: x (n, 3) positions; triangles (m, 3); area (m,) first areas; segments (c, 2); radii (c, 2);
shape (q, 3) corner shares of the quadrature points, weight (q,) their shares of the area. At one point p
with the place s on a capsule's axis from a to b: v = p - (1-s) a - s b, n = v/|v|, depth
d = max over s of (1-s) r_a + s r_b - |v|, energy k A w d^2 / 2 where d > 0.
"""

import math

import numba
import numpy as np


@numba.njit(cache=True)
def _find_depth(p, a, b, ra, rb, v):
    """Fill v, from axis to point; return depth, place s on the axis and whether s lies between the ends.

    The best s balances the change of radius against that of distance: sin of the cone's half angle is
    (ra - rb)/L, and one ball lies inside the other where that exceeds 1.
    """
    ee, ve = 0.0, 0.0
    for i in range(3):
        e = b[i] - a[i]
        ee += e * e
        ve += (p[i] - a[i]) * e
    taper = rb - ra
    inside = False
    if ee <= taper * taper or ee == 0.0:
        s = 1.0 if taper > 0.0 else 0.0
    else:
        away = 0.0
        for i in range(3):
            off = p[i] - a[i] - ve / ee * (b[i] - a[i])
            away += off * off
        s = (ve + taper * math.sqrt(away * ee / (ee - taper * taper))) / ee
        inside = 0.0 < s < 1.0
        s = min(max(s, 0.0), 1.0)
    square = 0.0
    for i in range(3):
        v[i] = p[i] - (1.0 - s) * a[i] - s * b[i]
        square += v[i] * v[i]
    return ra + s * taper - math.sqrt(square), s, inside


@numba.njit(cache=True)
def _is_near(x, nodes, a, b, reach):
    """Tell whether a capsule's axis comes within ``reach`` of the ball round a triangle's middle."""
    middle, v = np.empty(3), np.empty(3)
    for i in range(3):
        middle[i] = (x[nodes[0], i] + x[nodes[1], i] + x[nodes[2], i]) / 3.0
    ball = 0.0
    for j in range(3):
        square = 0.0
        for i in range(3):
            square += (x[nodes[j], i] - middle[i]) ** 2
        ball = max(ball, square)
    away, _, _ = _find_depth(middle, a, b, 0.0, 0.0, v)
    return -away < reach + math.sqrt(ball)


@numba.njit(cache=True)
def _place(x, nodes, share, p):
    """Fill p with the point of a triangle that has the corner shares ``share``."""
    for i in range(3):
        p[i] = share[0] * x[nodes[0], i] + share[1] * x[nodes[1], i] + share[2] * x[nodes[2], i]


@numba.njit(cache=True)
def find_energy(x, triangles, area, segments, radii, stiffness, shape, weight):
    """Return the stored energy, J."""
    p, v = np.empty(3), np.empty(3)
    total = 0.0
    for t in range(len(triangles)):
        for c in range(len(segments)):
            a, b = x[segments[c, 0]], x[segments[c, 1]]
            if not _is_near(x, triangles[t], a, b, max(radii[c, 0], radii[c, 1])):
                continue
            for q in range(len(weight)):
                _place(x, triangles[t], shape[q], p)
                depth, _, _ = _find_depth(p, a, b, radii[c, 0], radii[c, 1], v)
                if depth > 0.0:
                    total += 0.5 * stiffness * area[t] * weight[q] * depth * depth
    return total


@numba.njit(cache=True)
def add_force(x, triangles, area, segments, radii, stiffness, shape, weight, force):
    """Add minus the gradient of the energy to force (n, 3)."""
    p, v = np.empty(3), np.empty(3)
    for t in range(len(triangles)):
        for c in range(len(segments)):
            a, b = x[segments[c, 0]], x[segments[c, 1]]
            if not _is_near(x, triangles[t], a, b, max(radii[c, 0], radii[c, 1])):
                continue
            for q in range(len(weight)):
                _place(x, triangles[t], shape[q], p)
                depth, s, _ = _find_depth(p, a, b, radii[c, 0], radii[c, 1], v)
                length = math.sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2])
                if depth <= 0.0 or length == 0.0:
                    continue
                push = stiffness * area[t] * weight[q] * depth / length
                for i in range(3):
                    for j in range(3):
                        force[triangles[t, j], i] += shape[q, j] * push * v[i]
                    force[segments[c, 0], i] -= (1.0 - s) * push * v[i]
                    force[segments[c, 1], i] -= s * push * v[i]


@numba.njit(cache=True)
def _fill_point(v, e, s, depth, inside, bend, H):
    """Fill H (5, 3, 3): second derivative of d^2/2 for p-p, p-a, p-b, a-a, a-b, b-b without their weights.

    With w = (1, s-1, -s) for p, a, b the gradient of d is -w n. Its change, taken where ``bend``: at a fixed s
    -w w^T (1 - n n^T)/|v|; where s can follow, plus g g^T/(e.(1 - n n^T).e/|v|) with
    g = w (1 - n n^T) e/|v| - (0, 1, -1) n.
    """
    length = math.sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2])
    w = (1.0, s - 1.0, -s)
    dw = (0.0, 1.0, -1.0)
    n, across, g = np.empty(3), np.empty(3), np.zeros((3, 3))
    along = 0.0
    for i in range(3):
        n[i] = v[i] / length
        along += n[i] * e[i]
    bent = 0.0
    for i in range(3):
        across[i] = (e[i] - along * n[i]) / length
        bent += e[i] * across[i]
    follow = bend and inside and bent > 0.0
    if follow:
        for k in range(3):
            for i in range(3):
                g[k, i] = w[k] * across[i] - dw[k] * n[i]
    row = 0
    for k in range(3):
        for m in range(k, 3):
            for i in range(3):
                for j in range(3):
                    value = w[k] * w[m] * n[i] * n[j]
                    if bend:
                        flat = (1.0 if i == j else 0.0) - n[i] * n[j]
                        value -= depth * w[k] * w[m] * flat / length
                    if follow:
                        value += depth * g[k, i] * g[m, j] / bent
                    H[row, i, j] = value
            row += 1


@numba.njit(cache=True)
def find_stiffness(x, triangles, area, segments, radii, stiffness, shape, weight, local, model):
    """Return stiffness cloth-cloth (m, 9, 9), cloth-body (l, 3, 3h) and body-body (3h, 3h), N/m.

    ``local``: number (n,) of each node among the l cloth nodes or the h body nodes. ``model`` 0 keeps the
    positive semi-definite part, 1 is the second derivative, 2 counts everything within twice the radius as
    pressed.
    """
    cloth = local[triangles].max() + 1
    body = local[segments].max() + 1
    K = np.zeros((len(triangles), 9, 9))
    C = np.zeros((cloth, 3, 3 * body))
    B = np.zeros((3 * body, 3 * body))
    p, v, e, H = np.empty(3), np.empty(3), np.empty(3), np.empty((6, 3, 3))
    for c in range(len(segments)):
        a, b = x[segments[c, 0]], x[segments[c, 1]]
        widest = max(radii[c, 0], radii[c, 1])
        for i in range(3):
            e[i] = b[i] - a[i]
        A0, B0 = 3 * local[segments[c, 0]], 3 * local[segments[c, 1]]
        for t in range(len(triangles)):
            if not _is_near(x, triangles[t], a, b, 2.0 * widest if model == 2 else widest):
                continue
            for q in range(len(weight)):
                _place(x, triangles[t], shape[q], p)
                depth, s, inside = _find_depth(p, a, b, radii[c, 0], radii[c, 1], v)
                least = -widest if model == 2 else 0.0
                if depth <= least or (v[0] == 0.0 and v[1] == 0.0 and v[2] == 0.0):
                    continue
                _fill_point(v, e, s, depth, inside, model == 1, H)
                H *= stiffness * area[t] * weight[q]
                for k in range(3):
                    r, N = local[triangles[t, k]], shape[q, k]
                    for i in range(3):
                        for j in range(3):
                            C[r, i, A0 + j] += N * H[1, i, j]
                            C[r, i, B0 + j] += N * H[2, i, j]
                            for m in range(3):
                                K[t, 3 * k + i, 3 * m + j] += N * shape[q, m] * H[0, i, j]
                for i in range(3):
                    for j in range(3):
                        B[A0 + i, A0 + j] += H[3, i, j]
                        B[A0 + i, B0 + j] += H[4, i, j]
                        B[B0 + i, A0 + j] += H[4, j, i]
                        B[B0 + i, B0 + j] += H[5, i, j]
    return K, C, B


@numba.njit(cache=True)
def find_pressing(x, triangles, area, segments, radii, stiffness, shape, weight):
    """Return force on (m, 3) and pressed share (m,) of each triangle; force on cloth (c, 3), depth (c,) by capsule."""
    m, c_count = len(triangles), len(segments)
    force, share = np.zeros((m, 3)), np.zeros(m)
    total, deepest = np.zeros((c_count, 3)), np.zeros(c_count)
    p, v = np.empty(3), np.empty(3)
    for t in range(m):
        for q in range(len(weight)):
            _place(x, triangles[t], shape[q], p)
            pressed = False
            for c in range(c_count):
                depth, _, _ = _find_depth(p, x[segments[c, 0]], x[segments[c, 1]], radii[c, 0], radii[c, 1], v)
                length = math.sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2])
                if depth <= 0.0 or length == 0.0:
                    continue
                pressed = True
                deepest[c] = max(deepest[c], depth)
                for i in range(3):
                    push = stiffness * area[t] * weight[q] * depth * v[i] / length
                    force[t, i] += push
                    total[c, i] += push
            if pressed:
                share[t] += weight[q]
    return force, share, total, deepest
