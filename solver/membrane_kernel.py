"""Loops over cloth triangles: from positions to strain, and from what a law makes of it to energy, force, stiffness.

F is the deformation gradient, its columns f, h; S the PK2 line stress, D its derivative by the Green strain.
"""

from typing import NamedTuple

import numpy as np

from .compiling import compiled
from .element import Floats, Integers, StiffnessModel

_EXACT = int(StiffnessModel.EXACT)


class Cloth(NamedTuple):
    """Triangles lying flat."""

    triangles: Integers  # (m, 3) nodes
    gradients: Floats  # (m, 3, 2) of the corner shape functions in flat axes, 1/m
    area: Floats  # (m,) m2


class Deformation(NamedTuple):
    """What has become of the flat triangles."""

    gradient: Floats  # (m, 3, 2) F
    strain: Floats  # (m, 3) Green strain 11, 22, 2*12


@compiled
def deform(x: Floats, cloth: Cloth) -> Deformation:
    """Return what positions x (n, 3) m make of each triangle."""
    m = len(cloth.triangles)
    F, strain = np.empty((m, 3, 2)), np.empty((m, 3))
    for k in range(m):
        nodes, B = cloth.triangles[k], cloth.gradients[k]
        e1, e2, g = -0.5, -0.5, 0.0
        for i in range(3):
            f = x[nodes[0], i] * B[0, 0] + x[nodes[1], i] * B[1, 0] + x[nodes[2], i] * B[2, 0]
            h = x[nodes[0], i] * B[0, 1] + x[nodes[1], i] * B[1, 1] + x[nodes[2], i] * B[2, 1]
            F[k, i, 0], F[k, i, 1] = f, h
            e1 += 0.5 * f * f
            e2 += 0.5 * h * h
            g += f * h
        strain[k, 0], strain[k, 1], strain[k, 2] = e1, e2, g
    return Deformation(F, strain)


@compiled
def sum_energy(energy: Floats, area: Floats) -> float:
    """Return the energy of all triangles, J, from that per flat area (m,) J/m2."""
    total = 0.0
    for k in range(len(area)):
        total += area[k] * energy[k]
    return total


@compiled
def add_force(cloth: Cloth, F: Floats, stress: Floats, force: Floats) -> None:
    """Add minus the gradient of the energy to force (n, 3) N."""
    for k in range(len(cloth.triangles)):
        nodes, B = cloth.triangles[k], cloth.gradients[k]
        s1, s2, s3 = stress[k, 0], stress[k, 1], stress[k, 2]
        for a in range(3):
            along = cloth.area[k] * (s1 * B[a, 0] + s3 * B[a, 1])
            across = cloth.area[k] * (s3 * B[a, 0] + s2 * B[a, 1])
            for i in range(3):
                force[nodes[a], i] -= along * F[k, i, 0] + across * F[k, i, 1]


@compiled
def _keep_positive(s1: float, s2: float, s3: float) -> tuple[float, float, float]:
    """Return the positive semi-definite part of the stress 11, 22, 12."""
    mean, half = 0.5 * (s1 + s2), 0.5 * (s1 - s2)
    radius = np.sqrt(half * half + s3 * s3)
    if mean >= radius:
        return s1, s2, s3
    if mean <= -radius:
        return 0.0, 0.0, 0.0
    scale = 0.5 * (mean + radius)
    return scale * (1.0 + half / radius), scale * (1.0 - half / radius), scale * s3 / radius


@compiled
def find_blocks(cloth: Cloth, F: Floats, stress: Floats, tangents: Floats, model: int) -> Floats:
    """Return material plus geometric stiffness (m, 9, 9), N/m; but for the exact model of the tension in it alone."""
    m = len(cloth.triangles)
    blocks = np.empty((m, 9, 9))
    P, Q = np.empty((9, 3)), np.empty((9, 3))
    for k in range(m):
        B, D, area = cloth.gradients[k], tangents[k], cloth.area[k]
        _fill_strain_rates(F[k], B, P)
        for r in range(9):
            for j in range(3):
                Q[r, j] = area * (P[r, 0] * D[0, j] + P[r, 1] * D[1, j] + P[r, 2] * D[2, j])
        for r in range(9):
            for c in range(r, 9):
                value = Q[r, 0] * P[c, 0] + Q[r, 1] * P[c, 1] + Q[r, 2] * P[c, 2]
                blocks[k, r, c] = value
                blocks[k, c, r] = value
        s = stress[k, 0], stress[k, 1], stress[k, 2]
        _add_geometric(B, area, s if model == _EXACT else _keep_positive(*s), blocks[k])
    return blocks


@compiled
def _fill_strain_rates(F: Floats, B: Floats, P: Floats) -> None:
    """Fill P (9, 3) with the change of a triangle's strain per displacement of its corners, 1/m."""
    for a in range(3):
        for i in range(3):
            P[3 * a + i, 0] = F[i, 0] * B[a, 0]
            P[3 * a + i, 1] = F[i, 1] * B[a, 1]
            P[3 * a + i, 2] = F[i, 0] * B[a, 1] + F[i, 1] * B[a, 0]


@compiled
def _add_geometric(B: Floats, area: float, s: tuple[float, float, float], block: Floats) -> None:
    """Add what the stress 11, 22, 12 resists as it turns with its triangle to ``block`` (9, 9)."""
    for a in range(3):
        along = area * (s[0] * B[a, 0] + s[2] * B[a, 1])
        across = area * (s[2] * B[a, 0] + s[1] * B[a, 1])
        for b in range(3):
            value = along * B[b, 0] + across * B[b, 1]
            for i in range(3):
                block[3 * a + i, 3 * b + i] += value
