"""Loops over contact between cloth triangles and round bodies: energy, force, depth.

Of positions x (n, 3) m. At one point p with the share w of a triangle's area A, and with the place s on a
capsule's axis from a to b: v = p - (1-s) a - s b, n = v/|v|, depth d = max over s of (1-s) r_a + s r_b - |v|,
energy density k e(d) where d > 0. Where capsules overlap, the deepest presses and not the sum: the energy is A w E with
E = (sum of (k e)^P)^(1/P), so that each presses with its own share (k e/E)^(P-1).
"""

import math

import numpy as np

from .compiling import compiled
from .contact_arrays import Bodies, Points, Pressing, Sheet
from .element import Bools, Floats, Integers
from .flesh_kernel import Vector, find_depth, press
from .near_kernel import find_near

P = 4.0  # three capsules that overlap wholly press a third harder than one; twice as much: a sixth
_APART = 0.25  # of the smaller radius: how far points may be apart, lest an axis come through between them


@compiled
def choose_rule(area: float, D: float, starts: Integers) -> int:
    """Return the first rule whose points are close enough in a triangle for a capsule of smaller radius D."""
    rule, points = 0, float(starts[1])
    while rule < len(starts) - 2 and area > points * (_APART * D) ** 2:
        rule, points = rule + 1, 4.0 * points
    return rule


@compiled
def place(x: Floats, nodes: Integers, share: Floats) -> Vector:
    """Return the point of a triangle that has the corner shares ``share``."""
    i, j, k = nodes[0], nodes[1], nodes[2]
    f, g, h = share[0], share[1], share[2]
    return (
        f * x[i, 0] + g * x[j, 0] + h * x[k, 0],
        f * x[i, 1] + g * x[j, 1] + h * x[k, 1],
        f * x[i, 2] + g * x[j, 2] + h * x[k, 2],
    )


@compiled
def choose_shared_rule(area: float, near: Bools, bodies: Bodies, starts: Integers) -> int:
    """Return the rule that is fine enough for every capsule that is near a triangle; -1 if none is."""
    rule = -1
    for c in range(len(near)):
        if near[c]:
            rule = max(rule, choose_rule(area, min(bodies.radii[c, 0], bodies.radii[c, 1]), starts))
    return rule


@compiled
def touch(point: Vector, x: Floats, bodies: Bodies, near: Bools, pressed: Floats) -> float:
    """Return E at a point, J/m2, and fill ``pressed`` (c, 5): share, slope times k over |v|, then v; 0 where apart."""
    most = 0.0
    for c in range(len(near)):
        pressed[c, 0] = 0.0
        if not near[c]:
            continue
        a, b = x[bodies.segments[c, 0]], x[bodies.segments[c, 1]]
        ra, rb = bodies.radii[c, 0], bodies.radii[c, 1]
        depth, _, _, (vx, vy, vz) = find_depth(point, a, b, (ra, rb))
        if depth <= 0.0 or vx == vy == vz == 0.0:
            continue
        density, slope, _ = press(depth, min(ra, rb))
        pressed[c, 0] = bodies.stiffness[c] * density
        pressed[c, 1] = bodies.stiffness[c] * slope / math.sqrt(vx * vx + vy * vy + vz * vz)
        pressed[c, 2], pressed[c, 3], pressed[c, 4] = vx, vy, vz
        most = max(most, pressed[c, 0])
    if most == 0.0:
        return 0.0
    total = 0.0
    for c in range(len(near)):
        total += (pressed[c, 0] / most) ** P
    whole = most * total ** (1.0 / P)
    for c in range(len(near)):
        pressed[c, 0] = (pressed[c, 0] / whole) ** (P - 1.0)
    return whole


@compiled
def find_energy(x: Floats, sheet: Sheet, bodies: Bodies, points: Points) -> float:
    """Return the stored energy, J."""
    total = 0.0
    near = find_near(x, sheet.triangles, bodies, 1.0)
    pressed = np.empty((len(bodies.segments), 5))
    for t in range(len(sheet.triangles)):
        rule = choose_shared_rule(sheet.area[t], near[t], bodies, points.starts)
        if rule < 0:
            continue
        for q in range(points.starts[rule], points.starts[rule + 1]):
            point = place(x, sheet.triangles[t], points.shares[q])
            total += sheet.area[t] * points.weights[q] * touch(point, x, bodies, near[t], pressed)
    return total


@compiled
def add_force(x: Floats, sheet: Sheet, bodies: Bodies, points: Points, force: Floats) -> None:
    """Add minus the gradient of the energy to force (n, 3)."""
    near = find_near(x, sheet.triangles, bodies, 1.0)
    pressed = np.empty((len(bodies.segments), 5))
    for t in range(len(sheet.triangles)):
        rule = choose_shared_rule(sheet.area[t], near[t], bodies, points.starts)
        if rule < 0:
            continue
        for q in range(points.starts[rule], points.starts[rule + 1]):
            point = place(x, sheet.triangles[t], points.shares[q])
            if touch(point, x, bodies, near[t], pressed) == 0.0:
                continue
            for c in range(len(bodies.segments)):
                if pressed[c, 0] == 0.0:
                    continue
                a, b = x[bodies.segments[c, 0]], x[bodies.segments[c, 1]]
                s = find_depth(point, a, b, (bodies.radii[c, 0], bodies.radii[c, 1])).s
                push = sheet.area[t] * points.weights[q] * pressed[c, 0] * pressed[c, 1]
                for i in range(3):
                    along = push * pressed[c, 2 + i]
                    for j in range(3):
                        force[sheet.triangles[t, j], i] += points.shares[q, j] * along
                    force[bodies.segments[c, 0], i] -= (1.0 - s) * along
                    force[bodies.segments[c, 1], i] -= s * along


@compiled
def find_pressing(x: Floats, sheet: Sheet, bodies: Bodies, points: Points, deformed: Floats) -> Pressing:
    """Return forces, depths and areas; of the triangles' present areas ``deformed`` (m,) touched shares are counted."""
    m, c_count = len(sheet.triangles), len(bodies.segments)
    pushes, any_touched = np.zeros((m, c_count, 3)), 0.0
    touched, deepest = np.zeros(c_count), np.zeros(c_count)
    near = find_near(x, sheet.triangles, bodies, 1.0)
    pressed = np.empty((c_count, 5))
    for t in range(m):
        rule = choose_shared_rule(sheet.area[t], near[t], bodies, points.starts)
        if rule < 0:
            continue
        for q in range(points.starts[rule], points.starts[rule + 1]):
            point = place(x, sheet.triangles[t], points.shares[q])
            if touch(point, x, bodies, near[t], pressed) == 0.0:
                continue
            any_touched += points.weights[q] * deformed[t]
            for c in range(c_count):
                if pressed[c, 0] == 0.0:
                    continue
                a, b = x[bodies.segments[c, 0]], x[bodies.segments[c, 1]]
                touched[c] += points.weights[q] * deformed[t]
                depth = find_depth(point, a, b, (bodies.radii[c, 0], bodies.radii[c, 1])).depth
                deepest[c] = max(deepest[c], depth)
                for i in range(3):
                    push = sheet.area[t] * points.weights[q] * pressed[c, 0] * pressed[c, 1]
                    pushes[t, c, i] += push * pressed[c, 2 + i]
    return Pressing(pushes, deepest, touched, any_touched)


@compiled
def find_point_pushes(x: Floats, sheet: Sheet, bodies: Bodies, points: Points, rule: int) -> Floats:
    """Return the force (m, q, 3) of all capsules on the points of one rule in every triangle, N."""
    first, end = points.starts[rule], points.starts[rule + 1]
    pushes = np.zeros((len(sheet.triangles), end - first, 3))
    near = find_near(x, sheet.triangles, bodies, 1.0)
    pressed = np.empty((len(bodies.segments), 5))
    for t in range(len(sheet.triangles)):
        for q in range(first, end):
            if touch(place(x, sheet.triangles[t], points.shares[q]), x, bodies, near[t], pressed) == 0.0:
                continue
            for c in range(len(bodies.segments)):
                if pressed[c, 0] > 0.0:
                    push = sheet.area[t] * points.weights[q] * pressed[c, 0] * pressed[c, 1]
                    for i in range(3):
                        pushes[t, q - first, i] += push * pressed[c, 2 + i]
    return pushes
