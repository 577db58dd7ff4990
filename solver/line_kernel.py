"""Loops over straight two-node members: energy, force and stiffness.

Arrays: x (n, 3) positions; segments (m, 2); EA (m,) N; L0 (m,) m. Force N = EA (l - L0)/L0, cut off by
``sense``: 1 tension only, -1 compression only, 0 both ways.
"""

import math

import numba
import numpy as np

_POSITIVE, _TAUT_MODEL = 0, 2


@numba.njit(cache=True)
def _stretch(x, a, b, EA, L0, sense, n):
    """Fill the unit vector n from a to b; return length and axial force, tension positive."""
    for i in range(3):
        n[i] = x[b, i] - x[a, i]
    length = math.sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2])
    if length > 0.0:
        for i in range(3):
            n[i] /= length
    force = EA * (length - L0) / L0
    if sense * force < 0.0:
        force = 0.0
    return length, force


@numba.njit(cache=True)
def find_energy(x, segments, EA, L0, sense):
    """Return the stored energy of all members, J: the sum of N^2 L0 / (2 EA)."""
    n = np.empty(3)
    total = 0.0
    for k in range(len(segments)):
        _, force = _stretch(x, segments[k, 0], segments[k, 1], EA[k], L0[k], sense, n)
        total += 0.5 * force * force * L0[k] / EA[k]
    return total


@numba.njit(cache=True)
def add_force(x, segments, EA, L0, sense, force):
    """Add the pull of each member on its two nodes to force (n, 3)."""
    n = np.empty(3)
    for k in range(len(segments)):
        a, b = segments[k]
        _, pull = _stretch(x, a, b, EA[k], L0[k], sense, n)
        for i in range(3):
            force[a, i] += pull * n[i]
            force[b, i] -= pull * n[i]


@numba.njit(cache=True)
def find_blocks(x, segments, EA, L0, sense, model):
    """Return EA/L0 n n^T + N/l (1 - n n^T) as matrices (m, 6, 6)."""
    m = len(segments)
    blocks = np.zeros((m, 6, 6))
    n = np.empty(3)
    for k in range(m):
        length, force = _stretch(x, segments[k, 0], segments[k, 1], EA[k], L0[k], sense, n)
        if force == 0.0 and model != _TAUT_MODEL:
            continue
        axial = EA[k] / L0[k]
        lateral = force / length if length > 0.0 else 0.0
        if model != 1 and lateral < 0.0:
            lateral = 0.0
        for i in range(3):
            for j in range(3):
                value = (axial - lateral) * n[i] * n[j]
                if i == j:
                    value += lateral
                blocks[k, i, j] = value
                blocks[k, 3 + i, 3 + j] = value
                blocks[k, i, 3 + j] = -value
                blocks[k, 3 + i, j] = -value
    return blocks


@numba.njit(cache=True)
def find_lengths(x, segments, EA, L0, sense):
    """Return length (m,) and axial force (m,), tension positive."""
    m = len(segments)
    length, force = np.empty(m), np.empty(m)
    n = np.empty(3)
    for k in range(m):
        length[k], force[k] = _stretch(x, segments[k, 0], segments[k, 1], EA[k], L0[k], sense, n)
    return length, force
