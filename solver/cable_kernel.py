r"""Loops over cords that pull and never push, smoothed: tension T and slack V have a product.

What ``interior_kernel`` says of cloth, of one number each: with the strain :math:`e = l/L_0 - 1`,
:math:`T/EA - V = e` and :math:`T V = \mu`, T is the slope of the smooth convex energy
:math:`\varphi = \max_{T>0}\; e T - T^2/(2 EA) + \mu \ln T` per length. From where T and V stand a step leads to
:math:`T' = (\mu + T e + T V)/(T/EA + V)`, and the tangent is :math:`T/(T/EA + V)`: EA where taut, next to none where
slack. A cord of many pieces would otherwise be drawn tight piece by piece, each a kink of the energy.

Sources: as there.
"""

import math
from typing import NamedTuple

import numpy as np

from .compiling import compiled
from .element import Floats
from .line_kernel import Members, stretch

_BORDER = 0.9  # of the way to where T or V would lose its sign
_LONG = 0.7  # part of a step below which both are set anew


class CordPull(NamedTuple):
    """What smoothed cords carry, m of them."""

    tension: Floats  # (m,) T, N
    slack: Floats  # (m,) V


class SmoothCords(NamedTuple):
    """What smoothed cords answer."""

    energy: float  # J
    pull: CordPull
    strays: int  # how many were set anew


@compiled
def _settle(e: float, EA: float, mu: float) -> float:
    """Return the tension whose product with the slack is mu."""
    taut = EA * e
    root = math.sqrt(taut * taut + 4.0 * EA * mu)
    return 0.5 * (taut + root) if taut > 0.0 else 2.0 * EA * mu / (root - taut)


@compiled
def _reach(now: float, then: float) -> float:
    """Return the part of the way from ``now`` to ``then`` that stays clear of zero."""
    return 1.0 if then > (1.0 - _BORDER) * now else _BORDER * now / (now - then)


@compiled
def begin_pull(x: Floats, members: Members, mu: float) -> CordPull:
    """Return the pull that belongs to positions x (n, 3), found from nothing."""
    m = len(members.segments)
    tension, n = np.empty(m), np.empty(3)
    for k in range(m):
        length, _ = stretch(x, members, k, n)
        tension[k] = _settle(length / members.L0[k] - 1.0, members.EA[k], mu)
    return CordPull(tension, mu / tension)


@compiled
def smooth(x: Floats, members: Members, before: CordPull, mu: float, force: Floats) -> SmoothCords:
    """Add the pull one step on, or settled where the step was cut short, to force (n, 3); return the energy."""
    m = len(members.segments)
    tension, slack, n = np.empty(m), np.empty(m), np.empty(3)
    energy, strays = 0.0, 0
    for k in range(m):
        EA = members.EA[k]
        length, _ = stretch(x, members, k, n)
        e = length / members.L0[k] - 1.0
        T, V, settled = before.tension[k], before.slack[k], _settle(e, EA, mu)
        then = (mu + T * e + T * V) / (T / EA + V)
        part = min(_reach(T, then), _reach(V, then / EA - e))
        if part < _LONG:
            tension[k], slack[k], strays = settled, mu / settled, strays + 1
        else:
            tension[k], slack[k] = T + part * (then - T), V + part * (then / EA - e - V)
        energy += members.L0[k] * (settled * (e - 0.5 * settled / EA) + mu * math.log(settled))
        for i in range(3):
            force[members.segments[k, 0], i] += tension[k] * n[i]
            force[members.segments[k, 1], i] -= tension[k] * n[i]
    return SmoothCords(energy, CordPull(tension, slack), strays)


@compiled
def linearise(x: Floats, members: Members, pull: CordPull, mu: float, lead: Floats) -> Floats:
    """Return the stiffness (m, 6, 6), N/m; add by what the force would change if nothing moved to lead (n, 3)."""
    m = len(members.segments)
    blocks, n = np.empty((m, 6, 6)), np.empty(3)
    for k in range(m):
        length, _ = stretch(x, members, k, n)
        T, V = pull.tension[k], pull.slack[k]
        loose = T / members.EA[k] + V
        change = (mu + T * (length / members.L0[k] - 1.0) + T * V) / loose - T
        lateral = T / length if length > 0.0 else 0.0
        axial = T / loose / members.L0[k] - lateral
        for i in range(3):
            lead[members.segments[k, 0], i] += change * n[i]
            lead[members.segments[k, 1], i] -= change * n[i]
            for j in range(3):
                value = axial * n[i] * n[j] + (lateral if i == j else 0.0)
                blocks[k, i, j] = blocks[k, 3 + i, 3 + j] = value
                blocks[k, i, 3 + j] = blocks[k, 3 + i, j] = -value
    return blocks
