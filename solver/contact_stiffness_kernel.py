"""Loops over the stiffness of contact between cloth triangles and round bodies; letters as in ``contact_kernel``."""

import math
from typing import NamedTuple

import numpy as np

from .compiling import compiled
from .contact_arrays import Bodies, ContactStiffness, Numbers, Points, Sheet
from .contact_kernel import choose_rule, place
from .element import Floats, Integers, StiffnessModel
from .flesh_kernel import Depth, find_depth, press
from .near_kernel import find_near

_EXACT, _TAUT_MODEL = int(StiffnessModel.EXACT), int(StiffnessModel.TAUT)


class _Room(NamedTuple):
    """Room to work in."""

    S: Floats  # (15, 15) stiffness of the three corners of a triangle, then of a and b, N/m
    row: Floats  # (15,)


@compiled
def _add_product(S: Floats, factor: float, row: Floats) -> None:
    """Add factor row row^T to the upper half of S (15, 15)."""
    for r in range(15):
        value = factor * row[r]
        if value != 0.0:
            for k in range(r, 15):
                S[r, k] += value * row[k]


@compiled
def _add_point(found: Depth, e: Floats, law: tuple[float, float], share: Floats, exact: bool, room: _Room) -> None:
    """Add the second derivative of e(d) at one point to the upper half of S (15, 15): its corners, then a and b.

    ``law``: slope and curvature of e, each times k A w. With the shares w = (N, s-1, -s) of the corners, a and b the
    gradient of d is -w n. Its change, taken where ``exact``: at a fixed s -w w^T (1 - n n^T)/|v|; where s can follow,
    plus g g^T/(e.(1 - n n^T).e/|v|) with e from a to b and g = w (1 - n n^T) e/|v| - (0, 1, -1) n.
    """
    S, row, v, s = room.S, room.row, found.v, found.s
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
    if found.inside and bent > 0.0:
        for k in range(5):
            turn = (0.0, 0.0, 0.0, 1.0, -1.0)[k]
            for i in range(3):
                row[3 * k + i] = w[k] * across[i] - turn * n[i]
        _add_product(S, law[0] / bent, row)


@compiled
def _scatter(
    S: Floats, nodes: Integers, ends: Integers, local: Integers, K: Floats, moving: tuple[Floats, Floats]
) -> None:
    """Add S (15, 15), filled above its diagonal, to a triangle's K (9, 9) and to those of bodies, if they have rows."""
    C, B = moving
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


@compiled
def find_stiffness(
    x: Floats, sheet: Sheet, bodies: Bodies, points: Points, numbers: Numbers, model: int
) -> ContactStiffness:
    """Return the stiffness in the wanted model; what is within twice the radius counts as pressed in the taut one."""
    K = np.zeros((len(sheet.triangles), 9, 9))
    C = np.zeros((numbers.cloth, 3, 3 * numbers.body))
    B = np.zeros((3 * numbers.body, 3 * numbers.body))
    near = find_near(x, sheet.triangles, bodies, 2.0 if model == _TAUT_MODEL else 1.0)
    e, room = np.empty(3), _Room(np.empty((15, 15)), np.empty(15))
    for t in range(len(sheet.triangles)):
        for c in range(len(bodies.segments)):
            if not near[t, c]:
                continue
            a, b = x[bodies.segments[c, 0]], x[bodies.segments[c, 1]]
            ra, rb = bodies.radii[c, 0], bodies.radii[c, 1]
            least = -max(ra, rb) if model == _TAUT_MODEL else 0.0
            rule, touched = choose_rule(sheet.area[t], min(ra, rb), points.starts), False
            for i in range(3):
                e[i] = b[i] - a[i]
            for q in range(points.starts[rule], points.starts[rule + 1]):
                found = find_depth(place(x, sheet.triangles[t], points.shares[q]), a, b, (ra, rb))
                if found.depth <= least or found.v[0] == found.v[1] == found.v[2] == 0.0:
                    continue
                if not touched:
                    room.S[:], touched = 0.0, True
                _, slope, bend = press(max(found.depth, 0.0), min(ra, rb))
                whole = bodies.stiffness[c] * sheet.area[t] * points.weights[q]
                law = whole * slope, whole * bend
                _add_point(found, e, law, points.shares[q], model == _EXACT, room)
            if touched:
                _scatter(room.S, sheet.triangles[t], bodies.segments[c], numbers.local, K[t], (C, B))
    return ContactStiffness(K, C, B)
