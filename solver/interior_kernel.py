r"""Loops over cloth that wrinkles, smoothed: tension T and wrinkles V have a product.

The relaxed energy :math:`\min_{V \succeq 0} \tfrac12 (E+V):D:(E+V)` is reached with line stress T and wrinkle strain V
that are both positive semi-definite and have no product. With :math:`T V = \mu 1` instead, T is the slope of the smooth
convex energy :math:`\varphi = \max_{T \succ 0}\; E:T - \tfrac12 T:C:T + \mu \ln\det T`.

A step goes along the linearised equations, scaled so that T and V look alike. Both are carried as factors,
:math:`T = F F^T,\ V = H H^T`, since T spans twenty powers of ten. With :math:`U s W^T = H^T F` and
:math:`N = F W s^{-1/2}` both are diag(s) in the frame N:

.. math:: T = N s N^T,\quad V = N^{-T} s N^{-1},\quad N^{-T} = H U s^{-1/2}.

J takes the change Y (11, 22, 12) of T in that frame to stress 11, 22, 12. Then

.. math:: A = J^T C J + \mathrm{diag}(1,1,2),\quad A\,Y = J^T (E - C T) + \mu/s,\quad \Delta V = \mu/s - s - Y,

and the tangent is :math:`J A^{-1} J^T`: that of taut cloth, of a line, or next to none, and smooth between. E is
that of the new place, turned as it is: with E made linear the walk takes a tenth more steps.

Sources: Y. E. Nesterov and M. J. Todd, Math. Oper. Res. 22 (1997) 1-42 (scaling); S. J. Wright, Primal-Dual
Interior-Point Methods (1997); A. C. Pipkin, IMA J. Appl. Math. 36 (1986) 85-99 (relaxed energy); all from memory.
"""

import math
from typing import NamedTuple

import numpy as np

from .compiling import compiled
from .element import Floats
from .fabric_moduli import Moduli

_BORDER = 0.9  # of the way to where T or V would lose its sign
_SHORT, _LONG, _LOST = 0.3, 0.7, 0.02  # parts of a step at which the goal is raised, lowered, the start given up
_AGAIN = 10.0  # times by which it is raised and lowered
_CLOSE = 1e-3  # of T and V: the energy is then right to its square
_ROUNDS = 100


class ClothFactors(NamedTuple):
    """Tension and wrinkles of m triangles."""

    F: Floats  # (m, 2, 2) with T = F F^T, (N/m)^1/2
    H: Floats  # (m, 2, 2) with V = H H^T


class Smooth(NamedTuple):
    """What smoothed cloth answers."""

    energy: Floats  # (m,) phi, J/m2
    factors: ClothFactors
    strays: int  # how many were set anew


class Linear(NamedTuple):
    """How the stress changes from here on."""

    tangent: Floats  # (m, 3, 3) stress per strain, N/m
    lead: Floats  # (m, 3) by what the stress would change if nothing moved, N/m


class _ClothRoom(NamedTuple):
    """Room to work in."""

    N: Floats  # (2, 2)
    R: Floats  # (2, 2) N^-T
    J: Floats  # (3, 3)
    A: Floats  # (3, 3) lower factor
    s: Floats  # (2,)
    y: Floats  # (3,) Y
    z: Floats  # (3,) the same of V


@compiled
def _make_room() -> _ClothRoom:
    """Return room for one triangle after the other."""
    square, cube = np.empty((2, 2)), np.empty((3, 3))
    return _ClothRoom(square, square.copy(), cube, cube.copy(), np.empty(2), np.empty(3), np.empty(3))


@compiled
def _multiply(F: Floats) -> tuple[float, float, float]:
    """Return 11, 22, 12 of F F^T."""
    return (
        F[0, 0] * F[0, 0] + F[0, 1] * F[0, 1],
        F[1, 0] * F[1, 0] + F[1, 1] * F[1, 1],
        F[0, 0] * F[1, 0] + F[0, 1] * F[1, 1],
    )


@compiled
def _scale(F: Floats, H: Floats, room: _ClothRoom) -> bool:
    """Fill N, N^-T and s, the larger one first; tell whether there is such a frame."""
    a, b = H[0, 0] * F[0, 0] + H[1, 0] * F[1, 0], H[0, 0] * F[0, 1] + H[1, 0] * F[1, 1]
    c, d = H[0, 1] * F[0, 0] + H[1, 1] * F[1, 0], H[0, 1] * F[0, 1] + H[1, 1] * F[1, 1]
    angle = 0.5 * math.atan2(2.0 * (a * b + c * d), a * a + c * c - b * b - d * d)
    cos, sin = math.cos(angle), math.sin(angle)
    u, v = a * cos + b * sin, c * cos + d * sin
    large = math.sqrt(u * u + v * v)
    volume = (F[0, 0] * F[1, 1] - F[0, 1] * F[1, 0]) * (H[0, 0] * H[1, 1] - H[0, 1] * H[1, 0])
    if not (abs(volume) > 0.0 and large < math.inf):
        return False
    small, side = abs(volume) / large, math.copysign(1.0, volume)
    first, second = 1.0 / math.sqrt(large), 1.0 / math.sqrt(small)
    u, v = u / large, v / large
    for i in range(2):
        room.N[i, 0] = (F[i, 0] * cos + F[i, 1] * sin) * first
        room.N[i, 1] = (F[i, 1] * cos - F[i, 0] * sin) * second
        room.R[i, 0] = (H[i, 0] * u + H[i, 1] * v) * first
        room.R[i, 1] = (H[i, 1] * u - H[i, 0] * v) * side * second
    room.s[0], room.s[1] = large, small
    return True


@compiled
def _fill_equations(E: Floats, F: Floats, mu: float, law: Moduli, room: _ClothRoom) -> None:
    """Fill J, the lower factor of A and the right side y."""
    N, J, A, y = room.N, room.J, room.A, room.y
    t1, t2, t3 = _multiply(F)
    d1 = E[0] + law.e1 - law.C11 * t1 - law.C12 * t2
    d2 = E[1] + law.e2 - law.C12 * t1 - law.C22 * t2
    d3 = E[2] + law.g - law.C33 * t3
    for k in range(3):
        i, j, twice = (0, 1, 0)[k], (0, 1, 1)[k], (1.0, 1.0, 2.0)[k]
        J[0, k], J[1, k] = twice * N[0, i] * N[0, j], twice * N[1, i] * N[1, j]
        J[2, k] = 0.5 * twice * (N[0, i] * N[1, j] + N[1, i] * N[0, j])
        y[k] = J[0, k] * d1 + J[1, k] * d2 + J[2, k] * d3
    y[0], y[1] = y[0] + mu / room.s[0], y[1] + mu / room.s[1]
    for k in range(3):
        h1, h2 = law.C11 * J[0, k] + law.C12 * J[1, k], law.C12 * J[0, k] + law.C22 * J[1, k]
        for i in range(k, 3):
            A[i, k] = J[0, i] * h1 + J[1, i] * h2 + J[2, i] * law.C33 * J[2, k]
        A[k, k] += (1.0, 1.0, 2.0)[k]
    A[0, 0] = math.sqrt(A[0, 0])
    A[1, 0], A[2, 0] = A[1, 0] / A[0, 0], A[2, 0] / A[0, 0]
    A[1, 1] = math.sqrt(A[1, 1] - A[1, 0] * A[1, 0])
    A[2, 1] = (A[2, 1] - A[2, 0] * A[1, 0]) / A[1, 1]
    A[2, 2] = math.sqrt(A[2, 2] - A[2, 0] * A[2, 0] - A[2, 1] * A[2, 1])


@compiled
def _solve_lower(A: Floats, y: Floats) -> None:
    """Solve A y = y in place with a lower factor A."""
    y[0] /= A[0, 0]
    y[1] = (y[1] - A[1, 0] * y[0]) / A[1, 1]
    y[2] = (y[2] - A[2, 0] * y[0] - A[2, 1] * y[1]) / A[2, 2]


@compiled
def _reach(y: Floats, s: Floats) -> float:
    """Return the least eigenvalue of Y scaled by s: at -1 the sign is lost."""
    a, b, c = y[0] / s[0], y[1] / s[1], y[2] / math.sqrt(s[0] * s[1])
    return float(0.5 * (a + b) - math.sqrt(0.25 * (a - b) ** 2 + c * c))


@compiled
def _put(frame: Floats, s: Floats, y: Floats, share: float, F: Floats) -> None:
    """Set F so that F F^T is s + share Y in a frame."""
    top = math.sqrt(s[0] + share * y[0])
    low = share * y[2] / top
    rest = math.sqrt(max(s[1] + share * y[1] - low * low, 0.0))
    for i in range(2):
        F[i, 0] = frame[i, 0] * top + frame[i, 1] * low
        F[i, 1] = frame[i, 1] * rest


@compiled
def _step(E: Floats, F: Floats, H: Floats, mu: float, law: Moduli, room: _ClothRoom) -> tuple[float, float]:
    """Go one step with the factors of a triangle; return what part of it and how long it was, against T and V."""
    A, s, y, z = room.A, room.s, room.y, room.z
    if not _scale(F, H, room):
        return 0.0, math.inf
    _fill_equations(E, F, mu, law, room)
    _solve_lower(A, y)
    y[2] /= A[2, 2]
    y[1] = (y[1] - A[2, 1] * y[2]) / A[1, 1]
    y[0] = (y[0] - A[1, 0] * y[1] - A[2, 0] * y[2]) / A[0, 0]
    z[0], z[1], z[2] = mu / s[0] - s[0] - y[0], mu / s[1] - s[1] - y[1], -y[2]
    low = min(_reach(y, s), _reach(z, s))
    part = 1.0 if low > -_BORDER else -_BORDER / low
    _put(room.N, s, y, part, F)
    _put(room.R, s, z, part, H)
    size = (abs(y[0]) + abs(z[0])) / s[0] + (abs(y[1]) + abs(z[1])) / s[1] + 2.0 * abs(y[2]) / math.sqrt(s[0] * s[1])
    return part, size


@compiled
def _begin(E: Floats, F: Floats, H: Floats, mu: float, law: Moduli) -> None:
    """Set factors from nothing: wrinkles as large as the strain and the tension that this would be."""
    wrinkle = max(abs(E[0] + law.e1) + abs(E[1] + law.e2) + abs(E[2] + law.g), math.sqrt(mu / law.D11))
    F[:], H[:] = 0.0, 0.0
    F[0, 0] = F[1, 1] = math.sqrt(wrinkle * law.D11)
    H[0, 0] = H[1, 1] = math.sqrt(wrinkle)


@compiled
def _settle(E: Floats, F: Floats, H: Floats, mu: float, law: Moduli, room: _ClothRoom) -> None:
    """Go on until T V = mu: with a goal above mu where the way is short, from nothing where there is none."""
    goal, fresh = mu, False
    for _ in range(_ROUNDS):
        part, size = _step(E, F, H, goal, law, room)
        if part == 1.0 and size < _CLOSE and goal == mu:
            return
        if part < _LOST and not fresh:
            _begin(E, F, H, mu, law)
            goal, fresh = mu, True
        elif part < _SHORT:
            goal *= _AGAIN
        elif part > _LONG:
            goal = max(mu, goal / _AGAIN)


@compiled
def begin_factors(strain: Floats, law: Moduli, mu: float) -> ClothFactors:
    """Return the factors that belong to strains (m, 3), found from nothing."""
    m = len(strain)
    F, H, room = np.empty((m, 2, 2)), np.empty((m, 2, 2)), _make_room()
    for k in range(m):
        _begin(strain[k], F[k], H[k], mu, law)
        _settle(strain[k], F[k], H[k], mu, law, room)
    return ClothFactors(F, H)


@compiled
def smooth(strain: Floats, factors: ClothFactors, law: Moduli, mu: float) -> Smooth:
    """Return the smooth energy at strains (m, 3) and factors one step on, or settled where the step was cut short."""
    m = len(strain)
    F, H, energy = factors.F.copy(), factors.H.copy(), np.empty(m)
    f, h, room, strays = np.empty((2, 2)), np.empty((2, 2)), _make_room(), 0
    for k in range(m):
        part, _ = _step(strain[k], F[k], H[k], mu, law, room)
        f[:], h[:] = F[k], H[k]
        _settle(strain[k], f, h, mu, law, room)
        if part < _LONG:
            F[k], H[k], strays = f, h, strays + 1
        t1, t2, t3 = _multiply(f)
        bent = law.C11 * t1 * t1 + 2.0 * law.C12 * t1 * t2 + law.C22 * t2 * t2 + law.C33 * t3 * t3
        pull = (strain[k, 0] + law.e1) * t1 + (strain[k, 1] + law.e2) * t2 + (strain[k, 2] + law.g) * t3
        energy[k] = pull - 0.5 * bent + 2.0 * mu * math.log(abs(f[0, 0] * f[1, 1] - f[0, 1] * f[1, 0]))
    return Smooth(energy, ClothFactors(F, H), strays)


@compiled
def find_stress(factors: ClothFactors) -> Floats:
    """Return the line stress (m, 3) of factors, N/m."""
    stress = np.empty((len(factors.F), 3))
    for k in range(len(stress)):
        stress[k, 0], stress[k, 1], stress[k, 2] = _multiply(factors.F[k])
    return stress


@compiled
def linearise(strain: Floats, factors: ClothFactors, law: Moduli, mu: float) -> Linear:
    """Return tangent and lead at strains (m, 3)."""
    m = len(strain)
    tangent, lead = np.zeros((m, 3, 3)), np.zeros((m, 3))
    room, L = _make_room(), np.empty((3, 3))
    for k in range(m):
        if not _scale(factors.F[k], factors.H[k], room):
            continue
        _fill_equations(strain[k], factors.F[k], mu, law, room)
        _solve_lower(room.A, room.y)
        L[:] = room.J
        for i in range(3):
            _solve_lower(room.A, L[i])
        for i in range(3):
            for j in range(3):
                lead[k, i] += L[i, j] * room.y[j]
                for n in range(3):
                    tangent[k, i, j] += L[i, n] * L[j, n]
    return Linear(tangent, lead)
