"""Loops over cloth triangles: strain, energy, force and stiffness.

Arrays: x (n, 3) positions; triangles (m, 3); B (m, 3, 2) gradients of the corner shape functions in flat
axes; area (m,); e0 (3,) prestrain; law (9,) packed law. F is the deformation gradient, its columns f, h.
"""

import numba
import numpy as np

from .tension_field import fill_tangent, find_stress

_POSITIVE, _TAUT_MODEL, _TAUT_KIND = 0, 2, 2


@numba.njit(cache=True)
def _deform(x, nodes, B, F):
    """Fill F (3, 2) and return the Green strain 11, 22, 2*12."""
    e1, e2, g = -0.5, -0.5, 0.0
    for i in range(3):
        f = x[nodes[0], i] * B[0, 0] + x[nodes[1], i] * B[1, 0] + x[nodes[2], i] * B[2, 0]
        h = x[nodes[0], i] * B[0, 1] + x[nodes[1], i] * B[1, 1] + x[nodes[2], i] * B[2, 1]
        F[i, 0], F[i, 1] = f, h
        e1 += 0.5 * f * f
        e2 += 0.5 * h * h
        g += f * h
    return e1, e2, g


@numba.njit(cache=True)
def find_energy(x, triangles, B, area, e0, law):
    """Return the stored energy of all triangles, J, counted from the unstrained, unprestressed state."""
    F = np.empty((3, 2))
    total = 0.0
    for k in range(len(triangles)):
        e1, e2, g = _deform(x, triangles[k], B[k], F)
        _, _, _, _, density, _ = find_stress(e1 + e0[0], e2 + e0[1], g + e0[2], law)
        total += area[k] * density
    return total


@numba.njit(cache=True)
def add_force(x, triangles, B, area, e0, law, force):
    """Add minus the gradient of the energy to force (n, 3)."""
    F = np.empty((3, 2))
    for k in range(len(triangles)):
        e1, e2, g = _deform(x, triangles[k], B[k], F)
        _, s1, s2, s3, _, _ = find_stress(e1 + e0[0], e2 + e0[1], g + e0[2], law)
        for a in range(3):
            along = area[k] * (s1 * B[k, a, 0] + s3 * B[k, a, 1])
            across = area[k] * (s3 * B[k, a, 0] + s2 * B[k, a, 1])
            for i in range(3):
                force[triangles[k, a], i] -= along * F[i, 0] + across * F[i, 1]


@numba.njit(cache=True)
def _keep_positive(s1, s2, s3):
    """Return the positive semi-definite part of the stress 11, 22, 12."""
    mean, half = 0.5 * (s1 + s2), 0.5 * (s1 - s2)
    radius = np.sqrt(half * half + s3 * s3)
    if mean >= radius:
        return s1, s2, s3
    if mean <= -radius:
        return 0.0, 0.0, 0.0
    scale = 0.5 * (mean + radius)
    return scale * (1.0 + half / radius), scale * (1.0 - half / radius), scale * s3 / radius


@numba.njit(cache=True)
def find_blocks(x, triangles, B, area, e0, law, model, share):
    """Return material plus geometric stiffness (m, 9, 9) in the wanted model, and ``share`` of the taut material's."""
    m = len(triangles)
    blocks = np.empty((m, 9, 9))
    F, D, T = np.empty((3, 2)), np.empty((3, 3)), np.empty((3, 3))
    P, Q = np.empty((9, 3)), np.empty((9, 3))
    for k in range(m):
        e1, e2, g = _deform(x, triangles[k], B[k], F)
        e1, e2, g = e1 + e0[0], e2 + e0[1], g + e0[2]
        kind, s1, s2, s3, _, angle = find_stress(e1, e2, g, law)
        fill_tangent(_TAUT_KIND if model == _TAUT_MODEL else kind, angle, e1, e2, g, law, D)
        if share > 0.0:
            fill_tangent(_TAUT_KIND, angle, e1, e2, g, law, T)
            D += share * T
        if model == _POSITIVE or model == _TAUT_MODEL:
            s1, s2, s3 = _keep_positive(s1, s2, s3)
        for a in range(3):
            for i in range(3):
                P[3 * a + i, 0] = F[i, 0] * B[k, a, 0]
                P[3 * a + i, 1] = F[i, 1] * B[k, a, 1]
                P[3 * a + i, 2] = F[i, 0] * B[k, a, 1] + F[i, 1] * B[k, a, 0]
        for r in range(9):
            for j in range(3):
                Q[r, j] = area[k] * (P[r, 0] * D[0, j] + P[r, 1] * D[1, j] + P[r, 2] * D[2, j])
        for r in range(9):
            for c in range(r, 9):
                value = Q[r, 0] * P[c, 0] + Q[r, 1] * P[c, 1] + Q[r, 2] * P[c, 2]
                blocks[k, r, c] = value
                blocks[k, c, r] = value
        for a in range(3):
            along = area[k] * (s1 * B[k, a, 0] + s3 * B[k, a, 1])
            across = area[k] * (s3 * B[k, a, 0] + s2 * B[k, a, 1])
            for b in range(3):
                value = along * B[k, b, 0] + across * B[k, b, 1]
                for i in range(3):
                    blocks[k, 3 * a + i, 3 * b + i] += value
    return blocks
