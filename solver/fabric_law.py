r"""Woven cloth: orthotropic, linear in Green strain; taut, wrinkled or slack, exactly.

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

Strain and compliance vectors are ordered 11, 22, 2*12.
"""

import math
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from . import interior_kernel as interior
from .compiling import compiled
from .element import Floats, StiffnessModel
from .fabric_moduli import Moduli
from .law import SLACK, TAUT, WRINKLED, Law, LawResponse, SmoothResponse

_TAUT_MODEL = int(StiffnessModel.TAUT)
_ITERATIONS = 60
_SCAN = 512


@dataclass(frozen=True, repr=False)
class FabricLaw(Law):
    r"""Orthotropic plane-stress law per unit width, relaxed to a tension field.

    Strain follows stress as :math:`E_{11} = S_{11}/K_1 - \nu S_{22}/K_1`,
    :math:`E_{22} = S_{22}/K_2 - \nu S_{11}/K_1`, :math:`2E_{12} = S_{12}/G`, with PK2 line stress S.

    Parameters
    ----------
    warp, weft : float
        Stiffness along warp and weft, N/m.
    poisson : float
        Contraction along the weft per stretch along the warp, 1.
    shear : float
        Shear stiffness, N/m per rad.
    tension_only : bool
        Relax the energy so that the cloth wrinkles or goes slack instead of carrying compression.
    prestress : (float, float, float)
        PK2 line stress 11, 22, 12 in the flat state, N/m.

    Raises
    ------
    ValueError
        For a stiffness that is not positive or a Poisson ratio outside ``poisson**2 < warp/weft``.

    Notes
    -----
    Valid for strains up to some ten per cent; cloth is only roughly linear even there.

    Examples
    --------
    >>> FabricLaw(30e3, 25e3, 0.1, 100.0).stiffness()[0].round().tolist()
    [30252.0, 2521.0, 0.0]
    """

    warp: float
    weft: float
    poisson: float
    shear: float
    tension_only: bool = field(default=True, kw_only=True)
    prestress: tuple[float, float, float] = field(default=(0.0, 0.0, 0.0), kw_only=True)

    def __post_init__(self) -> None:
        for name in ("warp", "weft", "poisson", "shear"):
            value = getattr(self, name)
            if not np.isfinite(value) or (value <= 0 and name != "poisson"):
                raise ValueError(f"{name} must be {'finite' if name == 'poisson' else 'positive'}, got {value}.")
        if self.poisson**2 * self.weft >= self.warp:
            limit = self.warp / self.weft
            raise ValueError(f"poisson {self.poisson} must satisfy poisson**2 < warp/weft = {limit:g}.")
        if len(self.prestress) != 3 or not np.isfinite(self.prestress).all():
            raise ValueError(f"prestress must be three finite numbers (11, 22, 12), got {self.prestress}.")
        object.__setattr__(self, "prestress", tuple(float(stress) for stress in self.prestress))

    def __repr__(self) -> str:
        """Return one line."""
        stiffness = f"{self.warp / 1e3:.3g} N/mm warp, {self.weft / 1e3:.3g} weft, {self.shear / 1e3:.3g} shear"
        rest = f"{'' if self.tension_only else ', both ways'}{', prestressed' if any(self.prestress) else ''}"
        return f"FabricLaw({stiffness}, Poisson {self.poisson:.2g}{rest})"

    def compliance(self) -> Floats:
        """Return strain per line stress (3, 3), m/N, in the order 11, 22, 2*12."""
        cross = -self.poisson / self.warp
        return np.array([[1 / self.warp, cross, 0], [cross, 1 / self.weft, 0], [0, 0, 1 / self.shear]])

    def stiffness(self) -> Floats:
        """Return line stress per strain (3, 3), N/m, in the order 11, 22, 2*12."""
        return np.asarray(np.linalg.inv(self.compliance()), dtype=np.float64)

    def prestrain(self) -> Floats:
        """Return the strain (3,) that the prestress stands for."""
        return np.asarray(self.compliance() @ np.asarray(self.prestress), dtype=np.float64)

    def flat_energy(self) -> float:
        """Return the energy per flat area, J/m2, that the prestress stores in flat cloth."""
        return 0.5 * float(np.dot(self.prestress, self.prestrain()))

    @cached_property
    def _moduli(self) -> Moduli:
        """What the loops take."""
        (D11, D12, _), (_, D22, _), (_, _, D33) = self.stiffness().tolist()
        (C11, C12, _), (_, C22, _), (_, _, C33) = self.compliance().tolist()
        e1, e2, g = self.prestrain().tolist()
        return Moduli(D11, D12, D22, D33, C11, C12, C22, C33, e1, e2, g, bool(self.tension_only))

    def respond(self, strain: Floats) -> LawResponse:
        """Return kind, stress, energy and angle at Green ``strain`` (m, 3)."""
        return find_response(strain, self._moduli)

    def find_tangents(self, strain: Floats, response: LawResponse, model: StiffnessModel) -> Floats:
        """Return stress per strain (m, 3, 3), N/m; the exact one is positive semi-definite."""
        return find_tangents(strain, response, self._moduli, int(model))

    def smooth(self, strain: Floats, mu: float, before: SmoothResponse | None) -> SmoothResponse:
        """Return what smoothed cloth answers; see ``interior_kernel``."""
        if mu == 0.0 or not self.tension_only:
            return super().smooth(strain, mu, before)
        law = self._moduli
        factors = before.memory if before is not None else interior.begin_factors(strain, law, mu)
        energy, factors, strays = interior.smooth(strain, factors, law, mu)
        return SmoothResponse(interior.find_stress(factors), energy, factors, strays)

    def linearise(
        self, strain: Floats, mu: float, here: SmoothResponse, model: StiffnessModel
    ) -> tuple[Floats, Floats]:
        """Return tangent (m, 3, 3) and lead (m, 3) of smoothed cloth, N/m; see ``interior_kernel``."""
        if mu == 0.0 or not self.tension_only:
            return super().linearise(strain, mu, here, model)
        tangent, lead = interior.linearise(strain, here.memory, self._moduli, mu)
        return tangent, lead


@compiled
def _slopes(
    angle: float, e1: float, e2: float, g: float, law: Moduli
) -> tuple[float, float, float, float, float, float]:
    """Return e, C and the first two derivatives of L = ln e - ln(C)/2 at an angle; L is -inf where e <= 0."""
    c, s = math.cos(angle), math.sin(angle)
    a1, a2, a3 = c * c, s * s, c * s
    c2, s2 = c * c - s * s, 2.0 * c * s
    e = e1 * a1 + e2 * a2 + g * a3
    h1 = law.C11 * a1 + law.C12 * a2
    h2 = law.C12 * a1 + law.C22 * a2
    h3 = law.C33 * a3
    C = a1 * h1 + a2 * h2 + a3 * h3
    if e <= 0.0:
        return e, C, -math.inf, 0.0, 0.0, 0.0
    de = (e2 - e1) * s2 + g * c2
    dde = 2.0 * ((e2 - e1) * c2 - g * s2)
    dC = 2.0 * (s2 * (h2 - h1) + c2 * h3)
    curve = s2 * s2 * (law.C11 - 2.0 * law.C12 + law.C22) + c2 * c2 * law.C33
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


@compiled
def _climb(angle: float, e1: float, e2: float, g: float, law: Moduli) -> tuple[float, float]:
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


@compiled
def _is_global(angle: float, e1: float, e2: float, g: float, law: Moduli) -> bool:
    """Tell whether no stretch is left across the tension line at ``angle``."""
    c, s = math.cos(angle), math.sin(angle)
    e, C, _, _, _, _ = _slopes(angle, e1, e2, g, law)
    if e <= 0.0:
        return False
    h1 = law.C11 * c * c + law.C12 * s * s
    h2 = law.C12 * c * c + law.C22 * s * s
    across = e1 * s * s + e2 * c * c - g * c * s
    left = across - e / C * (s * s * h1 + c * c * h2 - c * c * s * s * law.C33)
    return left <= 1e-9 * (abs(e1) + abs(e2) + abs(g))


@compiled
def _find_tension_angle(e1: float, e2: float, g: float, law: Moduli) -> float:
    """Return the angle of the tension line of wrinkled cloth, rad from the warp: the global maximum."""
    s1 = law.D11 * e1 + law.D12 * e2
    s2 = law.D12 * e1 + law.D22 * e2
    top, best = 0.0, -math.inf
    for start in range(4):
        if start == 0:
            angle = 0.5 * math.atan2(2.0 * law.D33 * g, s1 - s2)
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


@compiled
def _find_stress(e1: float, e2: float, g: float, law: Moduli) -> tuple[int, float, float, float, float, float]:
    """Return kind, PK2 line stress 11, 22, 12 (N/m), energy per area (J/m2) and tension angle (rad)."""
    s1 = law.D11 * e1 + law.D12 * e2
    s2 = law.D12 * e1 + law.D22 * e2
    s3 = law.D33 * g
    if not law.relaxed or (s1 + s2 >= 0.0 and s1 * s2 >= s3 * s3):
        return TAUT, s1, s2, s3, 0.5 * (s1 * e1 + s2 * e2 + s3 * g), 0.0
    if e1 + e2 <= 0.0 and 4.0 * e1 * e2 >= g * g:
        return SLACK, 0.0, 0.0, 0.0, 0.0, 0.0
    angle = _find_tension_angle(e1, e2, g, law)
    c, s = math.cos(angle), math.sin(angle)
    e, C, _, _, _, _ = _slopes(angle, e1, e2, g, law)
    if e <= 0.0:  # the only stretch was rounding
        return SLACK, 0.0, 0.0, 0.0, 0.0, 0.0
    sigma = e / C
    return WRINKLED, sigma * c * c, sigma * s * s, sigma * c * s, 0.5 * sigma * e, angle


@compiled
def find_response(strain: Floats, law: Moduli) -> LawResponse:
    """Return kind, stress, energy and tension angle of Green strains (m, 3)."""
    m = len(strain)
    kind, stress = np.empty(m, np.int64), np.empty((m, 3))
    energy, angle = np.empty(m), np.empty(m)
    for k in range(m):
        kind[k], stress[k, 0], stress[k, 1], stress[k, 2], energy[k], angle[k] = _find_stress(
            strain[k, 0] + law.e1, strain[k, 1] + law.e2, strain[k, 2] + law.g, law
        )
    return LawResponse(kind, stress, energy, angle)


@compiled
def find_tangents(strain: Floats, response: LawResponse, law: Moduli, model: int) -> Floats:
    """Return the derivative (m, 3, 3) of the line stress by Green strains (m, 3), N/m, in the wanted model."""
    tangents = np.zeros((len(strain), 3, 3))
    for k in range(len(strain)):
        if model == _TAUT_MODEL or response.kind[k] == TAUT:
            _fill_taut(law, tangents[k])
        elif response.kind[k] == WRINKLED:
            e1, e2, g = strain[k, 0] + law.e1, strain[k, 1] + law.e2, strain[k, 2] + law.g
            _fill_wrinkled(_slopes(response.angle[k], e1, e2, g, law), response.angle[k], tangents[k])
    return tangents


@compiled
def _fill_taut(law: Moduli, tangent: Floats) -> None:
    """Fill ``tangent`` (3, 3), zero so far, with the stiffness D."""
    tangent[0, 0], tangent[0, 1] = law.D11, law.D12
    tangent[1, 0], tangent[1, 1] = law.D12, law.D22
    tangent[2, 2] = law.D33


@compiled
def _fill_wrinkled(slopes: tuple[float, float, float, float, float, float], angle: float, tangent: Floats) -> None:
    r"""Fill ``tangent`` (3, 3) with that of wrinkled cloth, from the ``slopes`` at the angle of its tension line.

    :math:`(a a^T + w w^T/(-L''))/C` with a the strain picker of the tension line and
    :math:`w = a' - a\,C'/2C` its turning, by the implicit function theorem.
    """
    _, C, _, _, curvature, q = slopes
    c, s = math.cos(angle), math.sin(angle)
    a = (c * c, s * s, c * s)
    turn = (-2.0 * c * s - 0.5 * q * a[0], 2.0 * c * s - 0.5 * q * a[1], c * c - s * s - 0.5 * q * a[2])
    give = -1.0 / curvature if curvature < 0.0 else 0.0
    for i in range(3):
        for j in range(3):
            tangent[i, j] = (a[i] * a[j] + give * turn[i] * turn[j]) / C
