"""Loops over the stiffness of contact between cloth triangles and round bodies; letters as in ``contact_kernel``."""

import math
from typing import NamedTuple

import numpy as np

from .compiling import compiled
from .contact_arrays import Bodies, ContactStiffness, Numbers, Points, Sheet
from .contact_kernel import P, choose_shared_rule, place, touch
from .element import Floats, Integers, StiffnessModel
from .flesh_kernel import Depth, find_depth, press
from .near_kernel import find_near

_EXACT, _TAUT_MODEL = int(StiffnessModel.EXACT), int(StiffnessModel.TAUT)


class _Room(NamedTuple):
    """Room to work in."""

    S: Floats  # (15, 15) stiffness of the three corners of a triangle, then of a and b, N/m
    row: Floats  # (15,)


class _Whole(NamedTuple):
    """What is filled: numbers of nodes, a triangle's own block, cloth with bodies, bodies, and room (3,)."""

    local: Integers
    K: Floats
    C: Floats
    B: Floats
    G: Floats


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
def _couple(
    x: Floats, nodes: Integers, share: Floats, bodies: Bodies, pressed: Floats, spots: Floats, f: float, whole: _Whole
) -> None:
    """Add what makes capsules that overlap share a point: f (sum of w^((P-2)/(P-1)) g g^T - (sum w g)(sum w g)^T).

    g is the gradient of a capsule's own energy density, w its share; ``spots`` (c,) where on its axis it is touched.
    """
    local, K, C, B, G = whole
    G[:] = 0.0
    for c in range(len(pressed)):
        w = pressed[c, 0]
        for i in range(3):
            G[i] += w * pressed[c, 1] * pressed[c, 2 + i] if w > 0.0 else 0.0
    for k in range(3):
        for m in range(3):
            for i in range(3):
                for j in range(3):
                    K[3 * k + i, 3 * m + j] -= f * share[k] * share[m] * G[i] * G[j]
    if len(C) == 0:
        return
    for c in range(len(pressed)):
        if pressed[c, 0] == 0.0:
            continue
        for end in range(2):
            weight = (spots[c] - 1.0, -spots[c])[end]
            first = 3 * local[bodies.segments[c, end]]
            for j in range(3):
                own = weight * pressed[c, 0] * pressed[c, 1] * pressed[c, 2 + j]
                for k in range(3):
                    for i in range(3):
                        C[local[nodes[k]], i, first + j] -= f * share[k] * G[i] * own
                for other in range(len(pressed)):
                    if pressed[other, 0] == 0.0:
                        continue
                    for side in range(2):
                        reach = (spots[other] - 1.0, -spots[other])[side] * pressed[other, 0] * pressed[other, 1]
                        row = 3 * local[bodies.segments[other, side]]
                        for i in range(3):
                            B[row + i, first + j] -= f * reach * pressed[other, 2 + i] * own


@compiled
def find_stiffness(
    x: Floats, sheet: Sheet, bodies: Bodies, points: Points, numbers: Numbers, model: int
) -> ContactStiffness:
    """Return the stiffness in the wanted model; what is within twice the radius counts as pressed in the taut one."""
    K = np.zeros((len(sheet.triangles), 9, 9))
    C = np.zeros((numbers.cloth, 3, 3 * numbers.body))
    B = np.zeros((3 * numbers.body, 3 * numbers.body))
    taut, count = model == _TAUT_MODEL, len(bodies.segments)
    near = find_near(x, sheet.triangles, bodies, 2.0 if taut else 1.0)
    e, room = np.empty(3), _Room(np.empty((15, 15)), np.empty(15))
    S, pressed, spots, G = np.zeros((count, 15, 15)), np.zeros((count, 5)), np.zeros(count), np.zeros(3)
    for t in range(len(sheet.triangles)):
        rule = choose_shared_rule(sheet.area[t], near[t], bodies, points.starts)
        if rule < 0:
            continue
        for c in range(count):
            if near[t, c]:
                S[c] = 0.0
        nodes, touched = sheet.triangles[t], False
        for q in range(points.starts[rule], points.starts[rule + 1]):
            point = place(x, nodes, points.shares[q])
            size = sheet.area[t] * points.weights[q]
            density = touch(point, x, bodies, near[t], pressed)
            if density == 0.0 and not taut:
                continue
            touched, several = True, 0
            for c in range(count):
                if not near[t, c] or (not taut and pressed[c, 0] == 0.0):
                    continue
                a, b = x[bodies.segments[c, 0]], x[bodies.segments[c, 1]]
                ra, rb = bodies.radii[c, 0], bodies.radii[c, 1]
                found = find_depth(point, a, b, (ra, rb))
                if found.depth <= -max(ra, rb) or found.v[0] == found.v[1] == found.v[2] == 0.0:
                    continue
                for i in range(3):
                    e[i] = b[i] - a[i]
                _, slope, bend = press(max(found.depth, 0.0), min(ra, rb))
                share = 1.0 if taut else pressed[c, 0]
                own = size * bodies.stiffness[c]
                spots[c], several = found.s, several + 1
                extra = 0.0
                if share < 1.0:
                    extra = (
                        (P - 1.0) / density * share ** ((P - 2.0) / (P - 1.0)) * own * bodies.stiffness[c] * slope**2
                    )
                law = share * own * slope, share * own * bend + extra
                _add_point(found, e, law, points.shares[q], model == _EXACT, _Room(S[c], room.row))
            if several > 1 and not taut:
                f = (P - 1.0) / density * size
                _couple(x, nodes, points.shares[q], bodies, pressed, spots, f, _Whole(numbers.local, K[t], C, B, G))
        if touched:
            for c in range(count):
                if near[t, c]:
                    _scatter(S[c], nodes, bodies.segments[c], numbers.local, K[t], (C, B))
    return ContactStiffness(K, C, B)
