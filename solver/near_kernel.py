"""Which capsules a triangle of cloth may touch: most cloth is far from any, and need not be looked at closer."""

import math

import numpy as np

from .compiling import compiled
from .contact_arrays import Bodies
from .element import Bools, Floats, Integers


@compiled
def _list_axes(x: Floats, bodies: Bodies, times: float) -> tuple[Floats, Floats]:
    """Return start, direction, its square and the reach of each capsule (c, 8), and the box (2, 3) round them all."""
    axes, box = np.empty((len(bodies.segments), 8)), np.empty((2, 3))
    for i in range(3):
        box[0, i], box[1, i] = math.inf, -math.inf
    for c in range(len(bodies.segments)):
        a, b = bodies.segments[c]
        reach = times * max(bodies.radii[c, 0], bodies.radii[c, 1])
        axes[c, 6], axes[c, 7] = 0.0, reach
        for i in range(3):
            axes[c, i], axes[c, 3 + i] = x[a, i], x[b, i] - x[a, i]
            axes[c, 6] += axes[c, 3 + i] ** 2
            box[0, i] = min(box[0, i], x[a, i] - reach, x[b, i] - reach)
            box[1, i] = max(box[1, i], x[a, i] + reach, x[b, i] + reach)
    return axes, box


@compiled
def find_near(x: Floats, triangles: Integers, bodies: Bodies, times: float) -> Bools:
    """Return which capsules (m, c) a triangle may touch, with radii so many times as large.

    The ball round the triangle is compared with each axis, where it reaches into the box round all of them.
    """
    near = np.zeros((len(triangles), len(bodies.segments)), np.bool_)
    axes, box = _list_axes(x, bodies, times)
    middle = np.empty(3)
    for t in range(len(triangles)):
        nodes, ball = triangles[t], 0.0
        for i in range(3):
            middle[i] = (x[nodes[0], i] + x[nodes[1], i] + x[nodes[2], i]) / 3.0
        for j in range(3):
            k = nodes[j]
            square = (x[k, 0] - middle[0]) ** 2 + (x[k, 1] - middle[1]) ** 2 + (x[k, 2] - middle[2]) ** 2
            ball = max(ball, square)
        ball = math.sqrt(ball)
        apart = False
        for i in range(3):
            apart |= middle[i] + ball < box[0, i] or middle[i] - ball > box[1, i]
        if apart:
            continue
        for c in range(len(bodies.segments)):
            ux, uy, uz = middle[0] - axes[c, 0], middle[1] - axes[c, 1], middle[2] - axes[c, 2]
            ex, ey, ez, ee = axes[c, 3], axes[c, 4], axes[c, 5], axes[c, 6]
            s = min(max((ux * ex + uy * ey + uz * ez) / ee, 0.0), 1.0) if ee > 0.0 else 0.0
            square = (ux - s * ex) ** 2 + (uy - s * ey) ** 2 + (uz - s * ez) ** 2
            near[t, c] = square < (axes[c, 7] + ball) ** 2
    return near
