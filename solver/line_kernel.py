"""Loops over straight two-node members: energy, force and stiffness.

Of positions x (n, 3) m; force N = EA (l - L0)/L0, cut off by the members' sense.
"""

import math
from typing import NamedTuple

import numpy as np

from .compiling import compiled
from .element import Floats, Integers, StiffnessModel

_EXACT, _TAUT_MODEL = int(StiffnessModel.EXACT), int(StiffnessModel.TAUT)


class Members(NamedTuple):
    """Straight members of one sense."""

    segments: Integers  # (m, 2) nodes
    EA: Floats  # (m,) axial stiffness, N
    L0: Floats  # (m,) unstressed length, m
    sense: int  # 1 tension only, -1 compression only, 0 both ways


@compiled
def stretch(x: Floats, members: Members, k: int, n: Floats) -> tuple[float, float]:
    """Fill n with the unit vector along member k; return its length and axial force, tension positive."""
    a, b = members.segments[k]
    for i in range(3):
        n[i] = x[b, i] - x[a, i]
    length = math.sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2])
    if length > 0.0:
        for i in range(3):
            n[i] /= length
    force = members.EA[k] * (length - members.L0[k]) / members.L0[k]
    if members.sense * force < 0.0:
        force = 0.0
    return length, force


@compiled
def find_energy(x: Floats, members: Members) -> float:
    """Return the stored energy of all members, J: the sum of N^2 L0 / (2 EA)."""
    n = np.empty(3)
    total = 0.0
    for k in range(len(members.segments)):
        _, force = stretch(x, members, k, n)
        total += 0.5 * force * force * members.L0[k] / members.EA[k]
    return total


@compiled
def add_force(x: Floats, members: Members, force: Floats) -> None:
    """Add the pull of each member on its two nodes to force (n, 3)."""
    n = np.empty(3)
    for k in range(len(members.segments)):
        a, b = members.segments[k]
        _, pull = stretch(x, members, k, n)
        for i in range(3):
            force[a, i] += pull * n[i]
            force[b, i] -= pull * n[i]


@compiled
def find_blocks(x: Floats, members: Members, model: int) -> Floats:
    """Return EA/L0 n n^T + N/l (1 - n n^T) as matrices (m, 6, 6)."""
    m = len(members.segments)
    blocks = np.zeros((m, 6, 6))
    n = np.empty(3)
    for k in range(m):
        length, force = stretch(x, members, k, n)
        if force == 0.0 and model != _TAUT_MODEL:
            continue
        axial = members.EA[k] / members.L0[k]
        lateral = force / length if length > 0.0 else 0.0
        if model != _EXACT and lateral < 0.0:
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


@compiled
def find_lengths(x: Floats, members: Members) -> tuple[Floats, Floats]:
    """Return length (m,) and axial force (m,), tension positive."""
    m = len(members.segments)
    length, force = np.empty(m), np.empty(m)
    n = np.empty(3)
    for k in range(m):
        length[k], force[k] = stretch(x, members, k, n)
    return length, force
