"""Coulomb friction between points of a body and of cloth that press on each other."""

from typing import NamedTuple

import numpy as np

from .element import Element, Floats, Smoothed, StiffnessModel, cast_nodes, cast_positive
from .friction_geometry import Slips
from .vectors import square
from .words import show_count, show_range


class FrictionResult(NamedTuple):
    """What friction carries.

    Force (p, 3) N on the body; slip (p,) m; share (p,) of the most that friction can give, 1 where points slide.
    """

    force: Floats
    slip: Floats
    share: Floats

    def __repr__(self) -> str:
        """Return one line."""
        sliding = int((self.share >= 1.0).sum())
        return f"FrictionResult({show_count(len(self.slip), 'point')}, {sliding} sliding, {show_range(self.slip, 'm')})"


class Friction(Element):
    r"""Coulomb friction at points where a body is pressed on cloth, lagged and smoothed.

    At each point the body has :math:`\sum_a w_a x_a`, carried by some of its nodes, and the cloth
    :math:`\sum_j v_j x_j` in the plane of a triangle, where both stuck at first. u is from the one to the other, n the
    normal of the triangle as it stands now, and y the length of u along the cloth, :math:`y^2 = u^2 - (u\cdot n)^2`.
    With the most that friction can give, g = coefficient times pressing force, and the stick length :math:`\epsilon`
    the energy is

    .. math:: g \left(\frac{y^2}{\epsilon} - \frac{y^3}{3\epsilon^2}\right), \quad y \le \epsilon;
              \qquad g\left(y - \frac{\epsilon}{3}\right) \text{ beyond}

    so that the pull grows from zero to g at :math:`\epsilon` and stays there. g and the points belong to the state at
    which the element was made (they lag behind): solve, find where it grips now with
    :func:`~tautlay.solver.find_grips`, solve again.

    Parameters
    ----------
    body : (p, k) int
        Nodes that carry the body at each point; one may be named twice where there are fewer.
    body_shares : (p, k)
        Their shares; each row adds up to 1.
    cloth : (p, 3) int
        Corners of the triangle at each point.
    cloth_shares : (p, 3)
        Their shares; each row adds up to 1. Outside the triangle one is below zero.
    limits : (p,)
        g, N; zero is smooth.
    stick : float
        Stick length, m: the slip at which all friction is called up.

    Raises
    ------
    ValueError
        For wrong shapes, shares that do not add up to 1, and limits below zero.

    Notes
    -----
    Source: M. Li et al., Incremental potential contact, ACM Trans. Graph. 39(4), 2020, section 5 (the function of y),
    from memory.

    Examples
    --------
    A point pulled 0.2 m along a triangle that gives at most 5 N:

    >>> grip = Friction([[0]], [[1.0]], [[1, 2, 3]], [[1.0, 0.0, 0.0]], [5.0], 0.01)
    >>> places = np.array([[0.2, 0, 0.1], [0, 0, 0], [1, 0, 0], [0, 1, 0]])
    >>> grip.result(places).force.round(9) + 0.0
    array([[-5.,  0.,  0.]])
    """

    def __init__(  # side by side in the formula
        self, body: object, body_shares: object, cloth: object, cloth_shares: object, limits: object, stick: float
    ) -> None:
        given = np.asarray(body)
        carriers = cast_nodes(given, given.shape[-1] if given.ndim == 2 else 1, "body")
        corners = cast_nodes(cloth, 3, "cloth")
        self.connectivity = np.concatenate([corners, carriers], axis=1)
        shares = _cast_shares(body_shares, carriers.shape, "body_shares")
        self._weights = np.concatenate([-_cast_shares(cloth_shares, corners.shape, "cloth_shares"), shares], axis=1)
        self._limits = cast_positive(limits, len(corners), "limits", zero=True)
        self._stick = float(cast_positive(stick, 1, "stick")[0])

    def __repr__(self) -> str:
        """Return one line."""
        limits = show_range(self._limits, "N")
        return f"Friction({show_count(len(self._limits), 'point')}, {limits}, stick {self._stick:.3g} m)"

    def _find_slips(self, positions: Floats) -> Slips:
        """Return the slip of every point."""
        return Slips.of(positions[self.connectivity], self._weights)

    def energy(self, positions: Floats) -> float:
        """Return the energy, J."""
        return self._find_energy(self._find_slips(positions).length)

    def _find_energy(self, length: Floats) -> float:
        """Return the energy, J, at slips (p,)."""
        y = np.minimum(length, self._stick)
        return float(self._limits @ (y**2 / self._stick - y**3 / (3.0 * self._stick**2) + length - y))

    def _lean(self, length: Floats) -> Floats:
        """Return the pull over the slip at slips (p,): half of what the energy changes with their square, N/m."""
        y = np.minimum(length, self._stick)
        return np.asarray(self._limits * (2.0 - y / self._stick) * y / self._stick / np.maximum(length, _TINY))

    def add_force(self, positions: Floats, force: Floats) -> None:
        """Add friction to ``force`` (n, 3) N."""
        self.smooth(positions, 0.0, None, force)

    def smooth(self, positions: Floats, mu: float, before: None, force: Floats) -> Smoothed:
        """Add friction to ``force`` (n, 3) N and return the energy, which is smooth as it is."""
        slips = self._find_slips(positions)
        pull = -0.5 * self._lean(slips.length)[:, None, None] * slips.find_slope()
        np.add.at(force, self.connectivity, pull)
        return Smoothed(self._find_energy(slips.length), None, 0)

    def blocks(self, positions: Floats, model: StiffnessModel) -> Floats:
        """Return the blocks (p, 3k, 3k), N/m.

        The positive ones are those of springs that pull as friction does now (pull over slip, the normal held): the
        energy is concave in the square of the slip, so that it lies below that of these springs everywhere else.
        """
        slips = self._find_slips(positions)
        if model is StiffnessModel.TAUT:
            return 2.0 * (self._limits / self._stick)[:, None, None] * slips.find_flat_bend()
        lean = self._lean(slips.length)
        if model is StiffnessModel.POSITIVE:
            return np.asarray(lean[:, None, None] * slips.find_flat_bend())
        slope = slips.find_slope().reshape(len(lean), -1)
        # what half the lean changes with the square of the slip, times the slope's dyad
        y = np.maximum(slips.length, _NONE * self._stick)
        turn = -self._limits / (4.0 * y) / np.maximum(y, self._stick) ** 2
        return np.asarray(0.5 * lean[:, None, None] * slips.find_bend() + turn[:, None, None] * square(slope, slope))

    def result(self, positions: Floats) -> FrictionResult:
        """Return force, slip and share of the limit."""
        slips = self._find_slips(positions)
        lean = self._lean(slips.length)
        share = lean * slips.length / np.maximum(self._limits, _TINY)
        return FrictionResult(-lean[:, None] * slips.flat, slips.length, share)


_TINY = np.finfo(float).tiny
_NONE = 1e-9  # of the stick length: less is no slip


def _cast_shares(value: object, shape: tuple[int, ...], name: str) -> Floats:
    """Return shares of nodes, all finite, that add up to 1 in every row."""
    shares = np.asarray(value, dtype=np.float64)
    if shares.shape != shape or not np.isfinite(shares).all():
        raise ValueError(f"{name} must be finite and have shape {shape}, got {shares.shape}.")
    if np.abs(shares.sum(axis=1) - 1.0).max() > 1e-9:
        raise ValueError(f"{name} must add up to 1 in every row, got {shares.sum(axis=1).min():.6g}.")
    return shares
