"""Loops over the stiffness of contact between cloth triangles and round bodies; arrays as in ``contact_kernel``."""

import math

import numba
import numpy as np

from .contact_kernel import choose_rule, place
from .flesh_kernel import find_depth, press
from .near_kernel import find_near


@numba.njit(cache=True)
def _add_product(S, factor, row):
    """Add factor row row^T to the upper half of S (15, 15)."""
    for r in range(15):
        value = factor * row[r]
        if value != 0.0:
            for k in range(r, 15):
                S[r, k] += value * row[k]


@numba.njit(cache=True)
def _add_point(v, e, s, share, law, inside, exact, S, row):
    """Add the second derivative of e(d) at one point to the upper half of S (15, 15): its corners, then a and b.

    ``law``: slope and curvature of e, each times k A w. With the shares w = (N, s-1, -s) of the corners, a and b the
    gradient of d is -w n. Its change, taken where ``exact``: at a fixed s -w w^T (1 - n n^T)/|v|; where s can follow,
    plus g g^T/(e.(1 - n n^T).e/|v|) with g = w (1 - n n^T) e/|v| - (0, 1, -1) n. ``row`` (15,) is room to work in.
    """
    length = math.sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2])
    w = (share[0], share[1], share[2], s - 1.0, -s)
    n = (v[0] / length, v[1] / length, v[2] / length)
    for k in range(5):
        for i in range(3):
            row[3 * k + i] = w[k] * n[i]
    flattening = law[0] / length if exact else 0.0
    _add_product(S, law[1] + flattening, row)
    if not exact:
        return
    for k in range(5):
        for m in range(k, 5):
            for i in range(3):
                S[3 * k + i, 3 * m + i] -= flattening * w[k] * w[m]
    along = n[0] * e[0] + n[1] * e[1] + n[2] * e[2]
    across = ((e[0] - along * n[0]) / length, (e[1] - along * n[1]) / length, (e[2] - along * n[2]) / length)
    bent = e[0] * across[0] + e[1] * across[1] + e[2] * across[2]
    if inside and bent > 0.0:
        for k in range(5):
            turn = (0.0, 0.0, 0.0, 1.0, -1.0)[k]
            for i in range(3):
                row[3 * k + i] = w[k] * across[i] - turn * n[i]
        _add_product(S, law[0] / bent, row)


@numba.njit(cache=True)
def _scatter(S, nodes, ends, local, K, C, B):
    """Add S (15, 15), filled above its diagonal, to a triangle's K (9, 9) and to C and B, if those have rows."""
    for r in range(15):
        for k in range(r):
            S[r, k] = S[k, r]
    K += S[:9, :9]
    if len(C) == 0:
        return
    for end in range(2):
        first = 3 * local[ends[end]]
        for j in range(3):
            column = 9 + 3 * end + j
            for k in range(3):
                for i in range(3):
                    C[local[nodes[k]], i, first + j] += S[3 * k + i, column]
            for other in range(2):
                for i in range(3):
                    B[3 * local[ends[other]] + i, first + j] += S[9 + 3 * other + i, column]


@numba.njit(cache=True)
def find_stiffness(x, triangles, area, segments, radii, stiffness, shape, weight, starts, local, model, moves):
    """Return stiffness cloth-cloth (m, 9, 9), cloth-body (l, 3, 3h) and body-body (3h, 3h), N/m.

    ``local``: number (n,) of each node among the l cloth nodes or the h body nodes. ``model`` 0 keeps the
    positive semi-definite part, 1 is the second derivative, 2 counts everything within twice the radius as
    pressed. Unless a body ``moves``, only the first is found and the others are empty.
    """
    cloth = local[triangles].max() + 1 if moves else 0
    body = local[segments].max() + 1 if moves else 0
    K = np.zeros((len(triangles), 9, 9))
    C = np.zeros((cloth, 3, 3 * body))
    B = np.zeros((3 * body, 3 * body))
    near = find_near(x, triangles, segments, radii, 2.0 if model == 2 else 1.0)
    v, e, S, row = np.empty(3), np.empty(3), np.empty((15, 15)), np.empty(15)
    for t in range(len(triangles)):
        for c in range(len(segments)):
            if not near[t, c]:
                continue
            a, b, ra, rb = x[segments[c, 0]], x[segments[c, 1]], radii[c, 0], radii[c, 1]
            least = -max(ra, rb) if model == 2 else 0.0
            rule, touched = choose_rule(area[t], min(ra, rb), starts), False
            for i in range(3):
                e[i] = b[i] - a[i]
            for q in range(starts[rule], starts[rule + 1]):
                px, py, pz = place(x, triangles[t], shape[q])
                depth, s, inside, v[0], v[1], v[2] = find_depth(px, py, pz, a, b, ra, rb)
                if depth <= least or v[0] == v[1] == v[2] == 0.0:
                    continue
                if not touched:
                    S[:], touched = 0.0, True
                _, slope, bend = press(max(depth, 0.0), min(ra, rb))
                whole = stiffness[c] * area[t] * weight[q]
                _add_point(v, e, s, shape[q], (whole * slope, whole * bend), inside, model == 1, S, row)
            if touched:
                _scatter(S, triangles[t], segments[c], local, K[t], C, B)
    return K, C, B
