"""Loops over contact between cloth triangles and round bodies: energy, force, depth.

Of positions x (n, 3) m. At one point p with the share w of a triangle's area A, and with the place s on a
capsule's axis from a to b: v = p - (1-s) a - s b, n = v/|v|, depth d = max over s of (1-s) r_a + s r_b - |v|,
energy k A w e(d) where d > 0.
"""

import math

import numpy as np

from .compiling import compiled
from .contact_arrays import Bodies, Points, Pressing, Sheet
from .element import Bools, Floats, Integers
from .flesh_kernel import Vector, find_depth, press
from .near_kernel import find_near

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
def add_force(x: Floats, sheet: Sheet, bodies: Bodies, points: Points, force: Floats) -> float:
    """Return the stored energy, J, and add minus its gradient to force (n, 3)."""
    total = 0.0
    near = find_near(x, sheet.triangles, bodies, 1.0)
    for t in range(len(sheet.triangles)):
        for c in range(len(bodies.segments)):
            if not near[t, c]:
                continue
            a, b = x[bodies.segments[c, 0]], x[bodies.segments[c, 1]]
            ra, rb = bodies.radii[c, 0], bodies.radii[c, 1]
            rule = choose_rule(sheet.area[t], min(ra, rb), points.starts)
            for q in range(points.starts[rule], points.starts[rule + 1]):
                point = place(x, sheet.triangles[t], points.shares[q])
                depth, s, _, (vx, vy, vz) = find_depth(point, a, b, (ra, rb))
                if depth <= 0.0:
                    continue
                density, slope, _ = press(depth, min(ra, rb))
                whole = bodies.stiffness[c] * sheet.area[t] * points.weights[q]
                total += whole * density
                if vx == vy == vz == 0.0:
                    continue
                push = whole * slope / math.sqrt(vx * vx + vy * vy + vz * vz)
                for i, v in enumerate((vx, vy, vz)):
                    for j in range(3):
                        force[sheet.triangles[t, j], i] += points.shares[q, j] * push * v
                    force[bodies.segments[c, 0], i] -= (1.0 - s) * push * v
                    force[bodies.segments[c, 1], i] -= s * push * v
    return total


@compiled
def find_pressing(x: Floats, sheet: Sheet, bodies: Bodies, points: Points, deformed: Floats) -> Pressing:
    """Return forces, depths and areas; of the triangles' present areas ``deformed`` (m,) touched shares are counted."""
    m, c_count = len(sheet.triangles), len(bodies.segments)
    pushes, any_touched = np.zeros((m, c_count, 3)), 0.0
    touched, deepest = np.zeros(c_count), np.zeros(c_count)
    near = find_near(x, sheet.triangles, bodies, 1.0)
    for t in range(m):
        finest = 0
        for c in range(c_count):
            ra, rb = bodies.radii[c, 0], bodies.radii[c, 1]
            rule = choose_rule(sheet.area[t], min(ra, rb), points.starts)
            finest = max(finest, rule)
            if not near[t, c]:
                continue
            a, b = x[bodies.segments[c, 0]], x[bodies.segments[c, 1]]
            for q in range(points.starts[rule], points.starts[rule + 1]):
                point = place(x, sheet.triangles[t], points.shares[q])
                depth, push = _find_push(point, a, b, (ra, rb))
                if depth <= 0.0:
                    continue
                touched[c] += points.weights[q] * deformed[t]
                deepest[c] = max(deepest[c], depth)
                whole = bodies.stiffness[c] * sheet.area[t] * points.weights[q]
                for i in range(3):
                    pushes[t, c, i] += whole * push[i]
        if not near[t].any():
            continue
        for q in range(points.starts[finest], points.starts[finest + 1]):
            pressed = _is_pressed(place(x, sheet.triangles[t], points.shares[q]), x, bodies, near[t])
            any_touched += points.weights[q] * deformed[t] * pressed
    return Pressing(pushes, deepest, touched, any_touched)


@compiled
def find_point_pushes(x: Floats, sheet: Sheet, bodies: Bodies, points: Points, rule: int) -> Floats:
    """Return the force (m, q, 3) of all capsules on the points of one rule in every triangle, N.

    How the force of a capsule spreads over a triangle is that rule's; how large it is, that of the triangle's own rule,
    which is what is in balance: between its points the cloth may lie deeper than flesh could give.
    """
    first, end = points.starts[rule], points.starts[rule + 1]
    pushes, spread = np.zeros((len(sheet.triangles), end - first, 3)), np.zeros((end - first, 3))
    near = find_near(x, sheet.triangles, bodies, 1.0)
    for t in range(len(sheet.triangles)):
        for c in range(len(bodies.segments)):
            if not near[t, c]:
                continue
            a, b = x[bodies.segments[c, 0]], x[bodies.segments[c, 1]]
            radii = bodies.radii[c, 0], bodies.radii[c, 1]
            own, balanced, sampled = choose_rule(sheet.area[t], min(radii), points.starts), np.zeros(3), np.zeros(3)
            for q in range(points.starts[own], points.starts[own + 1]):
                _, push = _find_push(place(x, sheet.triangles[t], points.shares[q]), a, b, radii)
                for i in range(3):
                    balanced[i] += points.weights[q] * push[i]
            for q in range(first, end):
                _, push = _find_push(place(x, sheet.triangles[t], points.shares[q]), a, b, radii)
                for i in range(3):
                    spread[q - first, i] = points.weights[q] * push[i]
                    sampled[i] += spread[q - first, i]
            size = math.sqrt((sampled**2).sum())
            if size > 0.0:
                whole = bodies.stiffness[c] * sheet.area[t]
                pushes[t] += whole * math.sqrt((balanced**2).sum()) / size * spread
    return pushes


@compiled
def _find_push(point: Vector, a: Floats, b: Floats, radii: tuple[float, float]) -> tuple[float, Vector]:
    """Return how deep a point lies in a capsule, and the force on it over k A w; both 0 where it does not."""
    depth, _, _, (vx, vy, vz) = find_depth(point, a, b, radii)
    if depth <= 0.0 or vx == vy == vz == 0.0:
        return 0.0, (0.0, 0.0, 0.0)
    _, slope, _ = press(depth, min(radii))
    push = slope / math.sqrt(vx * vx + vy * vy + vz * vz)
    return depth, (push * vx, push * vy, push * vz)


@compiled
def _is_pressed(point: Vector, x: Floats, bodies: Bodies, near: Bools) -> bool:
    """Tell whether a point lies below the skin of any capsule that is ``near`` (c,)."""
    for c in range(len(bodies.segments)):
        if not near[c]:
            continue
        a, b = x[bodies.segments[c, 0]], x[bodies.segments[c, 1]]
        if find_depth(point, a, b, (bodies.radii[c, 0], bodies.radii[c, 1])).depth > 0.0:
            return True
    return False
