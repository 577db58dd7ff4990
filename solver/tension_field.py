r"""The relaxed energy of cloth: taut, wrinkled or slack, exact for orthotropic cloth.

Cloth that cannot carry compression stores the least energy over all wrinkle strains,

.. math:: W(E) = \min_{E_w \succeq 0} \tfrac12 (E+E_w):D:(E+E_w)
               = \max_{S \succeq 0}\; S:E - \tfrac12 S:C:S .

* taut: :math:`D:E` is positive semi-definite, and is the stress;
* slack: :math:`E` is negative semi-definite, no stress;
* wrinkled: :math:`S = \sigma\, t \otimes t` with :math:`\sigma = e/C`, :math:`e = t\cdot E t`,
  :math:`C` the compliance along t, at the angle that maximises :math:`e^2/C` among :math:`e>0`.

Shear-soft cloth can have two local maxima. The right one is known by the optimality condition of the
convex problem: no stretch left across the tension line, :math:`n\cdot(E - C{:}S)\,n \le 0` with n
across t. Source: A. C. Pipkin, IMA J. Appl. Math. 36 (1986) 85-99 (relaxed energy; from memory); the
form for orthotropic cloth is derived here and checked by tests against brute force.

Strain and compliance vectors are ordered 11, 22, 2*12. A law is packed by ``pack_law`` into one row.
"""

import math

import numba
import numpy as np

from .element import Floats
from .fabric_law import FabricLaw

SLACK, WRINKLED, TAUT = 0, 1, 2

# Columns of a packed law
_D11, _D12, _D22, _D33, _C11, _C12, _C22, _C33, _RELAXED = range(9)

_ITERATIONS = 60
_SCAN = 512


def pack_law(law: FabricLaw) -> Floats:
    """Return the nine numbers the kernels need: stiffness, compliance, and whether to relax."""
    D, C = law.stiffness(), law.compliance()
    return np.array([D[0, 0], D[0, 1], D[1, 1], D[2, 2], C[0, 0], C[0, 1], C[1, 1], C[2, 2], law.tension_only])


@numba.njit(cache=True)
def _slopes(angle, e1, e2, g, law):
    """Return e, C and the first two derivatives of L = ln e - ln(C)/2 at an angle; L is -inf where e <= 0."""
    c, s = math.cos(angle), math.sin(angle)
    a1, a2, a3 = c * c, s * s, c * s
    c2, s2 = c * c - s * s, 2.0 * c * s
    e = e1 * a1 + e2 * a2 + g * a3
    h1 = law[_C11] * a1 + law[_C12] * a2
    h2 = law[_C12] * a1 + law[_C22] * a2
    h3 = law[_C33] * a3
    C = a1 * h1 + a2 * h2 + a3 * h3
    if e <= 0.0:
        return e, C, -math.inf, 0.0, 0.0, 0.0
    de = (e2 - e1) * s2 + g * c2
    dde = 2.0 * ((e2 - e1) * c2 - g * s2)
    dC = 2.0 * (s2 * (h2 - h1) + c2 * h3)
    curve = s2 * s2 * (law[_C11] - 2.0 * law[_C12] + law[_C22]) + c2 * c2 * law[_C33]
    ddC = 2.0 * (2.0 * c2 * (h2 - h1) - 2.0 * s2 * h3 + curve)
    p, q = de / e, dC / C
    return (
        e,
        C,
        math.log(e) - 0.5 * math.log(C),
        p - 0.5 * q,
        dde / e - p * p - 0.5 * ddC / C + 0.5 * q * q,
        q,
    )


@numba.njit(cache=True)
def _climb(angle, e1, e2, g, law):
    """Return the local maximum of L reached uphill from ``angle``, by safeguarded Newton steps."""
    _, _, best, slope, curvature, _ = _slopes(angle, e1, e2, g, law)
    for _ in range(_ITERATIONS):
        step = -slope / curvature if curvature < 0.0 else math.copysign(0.1, slope)
        step = min(max(step, -0.4), 0.4)
        if abs(step) < 1e-14:
            break
        moved = False
        for _ in range(40):
            _, _, level, new_slope, new_curvature, _ = _slopes(angle + step, e1, e2, g, law)
            if level > best or (abs(step) < 1e-6 and abs(new_slope) < abs(slope)):
                moved = True
                break
            step *= 0.5
        if not moved:
            break
        angle += step
        best, slope, curvature = level, new_slope, new_curvature
    return angle, best


@numba.njit(cache=True)
def _is_global(angle, e1, e2, g, law):
    """Tell whether no stretch is left across the tension line at ``angle``."""
    c, s = math.cos(angle), math.sin(angle)
    e, C, _, _, _, _ = _slopes(angle, e1, e2, g, law)
    if e <= 0.0:
        return False
    h1 = law[_C11] * c * c + law[_C12] * s * s
    h2 = law[_C12] * c * c + law[_C22] * s * s
    across = e1 * s * s + e2 * c * c - g * c * s
    left = across - e / C * (s * s * h1 + c * c * h2 - c * c * s * s * law[_C33])
    return left <= 1e-9 * (abs(e1) + abs(e2) + abs(g))


@numba.njit(cache=True)
def find_tension_angle(e1, e2, g, law):
    """Return the angle of the tension line of wrinkled cloth, rad from the warp: the global maximum."""
    s1 = law[_D11] * e1 + law[_D12] * e2
    s2 = law[_D12] * e1 + law[_D22] * e2
    top, best = 0.0, -math.inf
    for start in range(4):
        if start == 0:
            angle = 0.5 * math.atan2(2.0 * law[_D33] * g, s1 - s2)
        elif start == 1:
            angle = 0.5 * math.atan2(g, e1 - e2)
        elif start == 2:
            angle = 0.0
        else:
            angle = 0.5 * math.pi
        _, _, level, _, _, _ = _slopes(angle, e1, e2, g, law)
        if level == -math.inf:
            continue
        angle, level = _climb(angle, e1, e2, g, law)
        if level > best:
            top, best = angle, level
            if _is_global(top, e1, e2, g, law):
                return top
    scan = top
    for k in range(_SCAN):
        angle = math.pi * k / _SCAN
        _, _, level, _, _, _ = _slopes(angle, e1, e2, g, law)
        if level > best:
            scan, best = angle, level
    return _climb(scan, e1, e2, g, law)[0]


@numba.njit(cache=True)
def find_stress(e1, e2, g, law):
    """Return kind, PK2 line stress 11, 22, 12 (N/m), energy per area (J/m2) and tension angle (rad)."""
    s1 = law[_D11] * e1 + law[_D12] * e2
    s2 = law[_D12] * e1 + law[_D22] * e2
    s3 = law[_D33] * g
    if law[_RELAXED] == 0.0 or (s1 + s2 >= 0.0 and s1 * s2 >= s3 * s3):
        return TAUT, s1, s2, s3, 0.5 * (s1 * e1 + s2 * e2 + s3 * g), 0.0
    if e1 + e2 <= 0.0 and 4.0 * e1 * e2 >= g * g:
        return SLACK, 0.0, 0.0, 0.0, 0.0, 0.0
    angle = find_tension_angle(e1, e2, g, law)
    c, s = math.cos(angle), math.sin(angle)
    e, C, _, _, _, _ = _slopes(angle, e1, e2, g, law)
    if e <= 0.0:  # the only stretch was rounding
        return SLACK, 0.0, 0.0, 0.0, 0.0, 0.0
    sigma = e / C
    return WRINKLED, sigma * c * c, sigma * s * s, sigma * c * s, 0.5 * sigma * e, angle


@numba.njit(cache=True)
def fill_tangent(kind, angle, e1, e2, g, law, tangent):
    r"""Fill ``tangent`` (3, 3) with the derivative of the line stress, N/m.

    Wrinkled: :math:`(a a^T + w w^T/(-L''))/C` with a the strain picker of the tension line and
    :math:`w = a' - a\,C'/2C` its turning, by the implicit function theorem.
    """
    tangent[:] = 0.0
    if kind == TAUT:
        tangent[0, 0], tangent[0, 1] = law[_D11], law[_D12]
        tangent[1, 0], tangent[1, 1] = law[_D12], law[_D22]
        tangent[2, 2] = law[_D33]
    elif kind == WRINKLED:
        c, s = math.cos(angle), math.sin(angle)
        _, C, _, _, curvature, q = _slopes(angle, e1, e2, g, law)
        a = (c * c, s * s, c * s)
        turn = (-2.0 * c * s - 0.5 * q * a[0], 2.0 * c * s - 0.5 * q * a[1], c * c - s * s - 0.5 * q * a[2])
        give = -1.0 / curvature if curvature < 0.0 else 0.0
        for i in range(3):
            for j in range(3):
                tangent[i, j] = (a[i] * a[j] + give * turn[i] * turn[j]) / C


@numba.njit(cache=True)
def find_stresses(strain, law):
    """Return kind (m,), PK2 line stress (m, 3), energy per area (m,) and tension angle (m,) of strains (m, 3)."""
    m = len(strain)
    kind, stress = np.empty(m, np.int64), np.empty((m, 3))
    energy, angle = np.empty(m), np.empty(m)
    for k in range(m):
        kind[k], stress[k, 0], stress[k, 1], stress[k, 2], energy[k], angle[k] = find_stress(
            strain[k, 0], strain[k, 1], strain[k, 2], law
        )
    return kind, stress, energy, angle
