"""Joints that bend more easily one way than the other."""

from typing import NamedTuple

import numpy as np

from .element import Element, Floats, Integers, Smoothed, StiffnessModel, cast_nodes, cast_positive
from .vectors import cross, make_cross_matrix, square
from .words import show_count, show_range

_MOST = 200.0  # N m: beyond it the exponentials go on as straight lines, lest numbers overflow
_FLAT = np.zeros((3, 3))


class HingeResult(NamedTuple):
    """Angle (j,) rad by which each hinge is bent, and the moment (j,) N m that this takes."""

    angle: Floats
    moment: Floats

    def __repr__(self) -> str:
        """Return one line."""
        return (
            f"HingeResult({show_count(len(self.angle), 'hinge')}, angle {show_range(self.angle, 'rad')}, "
            f"moment {show_range(self.moment, 'N m')})"
        )


class Hinge(Element):
    r"""Joint of two members about an axis, with a moment that grows exponentially towards the ends of its range.

    With unit vectors u and v along ab and bc and w along the axis, the angle is
    :math:`\varphi = \operatorname{atan2}(w\cdot(u\times v),\ u\cdot v)` and the moment that bends the hinge so far

    .. math:: M(\varphi) = c + k\,\varphi + \sum_i a_i\,\mathrm{e}^{b_i\varphi}.

    Bending across the axis, :math:`q = w\cdot(v-u)`, stores :math:`\tfrac12 k_q q^2`.

    Parameters
    ----------
    nodes : (j, 5) int
        a, b, c, and the beginning and end of the axis.
    amplitude, rate : (j, t)
        a, N m, and b, 1/rad, of the same sign, so that the energy has one lowest point.
    constant, slope, across : float or (j,)
        c, N m; k and k_q, N m/rad, neither negative.

    Raises
    ------
    ValueError
        For wrong shapes, numbers that are not finite, or an amplitude and a rate of unlike sign.

    Notes
    -----
    The form is that of measured passive moments of human joints: R. Riener and T. Edrich, J. Biomechanics 32, 539 to
    544 (1999). Beyond 200 N m each exponential goes on as a straight line. The angle is lost where v is bent squarely
    across the axis.

    Examples
    --------
    >>> knee = Hinge([[0, 1, 2, 3, 4]], [[-2.0, 2.0]], [[-1.0, 1.0]], 0.0, 5.0, 0.0)
    >>> bent = np.array([[0, 0, 0], [1, 0, 0], [2, 0, -1], [0, -1, 0], [0, 1, 0]], float)
    >>> float(np.degrees(knee.result(bent).angle[0]).round(6))
    45.0
    """

    member_arrays = ("connectivity", "amplitude", "rate", "constant", "slope", "across")

    def __init__(
        self, nodes: object, amplitude: object, rate: object, constant: object, slope: object, across: object
    ) -> None:
        self.connectivity = cast_nodes(nodes, 5, "nodes")
        count = len(self.connectivity)
        self.amplitude = np.array(amplitude, dtype=np.float64)
        self.rate = np.array(rate, dtype=np.float64)
        if self.amplitude.shape != self.rate.shape or self.amplitude.ndim != 2 or len(self.rate) != count:
            raise ValueError(
                f"amplitude and rate must both be ({count}, t), got {self.amplitude.shape} and {self.rate.shape}."
            )
        if not np.isfinite(self.amplitude).all() or not np.isfinite(self.rate).all():
            raise ValueError("amplitude and rate must be finite.")
        if (self.amplitude * self.rate < 0).any():
            raise ValueError("an amplitude and its rate must have the same sign, or the hinge would open by itself.")
        self.constant = np.broadcast_to(np.asarray(constant, dtype=np.float64), (count,)).copy()
        self.slope = cast_positive(slope, count, "slope", zero=True)
        self.across = cast_positive(across, count, "across", zero=True)

    def __repr__(self) -> str:
        """Return one line."""
        return f"Hinge({show_count(len(self.connectivity), 'hinge')}, across {show_range(self.across, 'N m/rad')})"

    def energy(self, positions: Floats) -> float:
        """Return the stored energy, J."""
        return self.smooth(positions, 0.0, None, np.zeros_like(positions)).energy

    def add_force(self, positions: Floats, force: Floats) -> None:
        """Add the restoring force to ``force`` (n, 3) N."""
        self.smooth(positions, 0.0, None, force)

    def smooth(self, positions: Floats, mu: float, before: None, force: Floats) -> Smoothed:
        """Add the restoring force to ``force`` (n, 3) N and return the energy, which has nothing to smooth."""
        bend = _Bend(positions, self.connectivity)
        stored, moment, _ = self._bend(bend.angle)
        np.add.at(force, self.connectivity, -_EDGES.T @ bend.pull_back(self._slope(bend, moment)))
        return Smoothed(float((stored + 0.5 * self.across * bend.aside**2).sum()), None, 0)

    def blocks(self, positions: Floats, model: StiffnessModel) -> Floats:
        """Return stiffness matrices (j, 15, 15), N/m."""
        bend = _Bend(positions, self.connectivity)
        _, moment, stiffness = self._bend(bend.angle)
        whole = bend.pull_back_twice(self._slope(bend, moment), self._curve(bend, moment, stiffness))
        if model is not StiffnessModel.EXACT:
            values, axes = np.linalg.eigh(whole)
            kept = np.abs(values) if model is StiffnessModel.TAUT else np.maximum(values, 0.0)
            whole = (axes * kept[:, None, :]) @ np.swapaxes(axes, 1, 2)
        return np.asarray(_SPREAD.T @ whole @ _SPREAD)

    def result(self, positions: Floats) -> HingeResult:
        """Return angle and moment of every hinge."""
        angle = _Bend(positions, self.connectivity).angle
        return HingeResult(angle, self._bend(angle)[1])

    def _bend(self, angle: Floats) -> tuple[Floats, Floats, Floats]:
        """Return energy, moment and stiffness (j,) at the angles (j,)."""
        size = np.where(self.amplitude == 0.0, 1.0, np.abs(self.amplitude))
        rate = np.where(self.rate == 0.0, 1.0, self.rate)
        limit = np.log(_MOST / size) / rate  # where an exponential reaches the most it may
        turned = np.broadcast_to(angle[:, None], limit.shape)
        at = np.where(rate > 0, np.minimum(turned, limit), np.maximum(turned, limit))
        moment = self.amplitude * np.exp(rate * at)
        slope, beyond = moment * rate, turned - at
        energy = moment / rate - self.amplitude / rate + beyond * (moment + 0.5 * slope * beyond)
        return (
            energy.sum(axis=1) + self.constant * angle + 0.5 * self.slope * angle**2,
            (moment + slope * beyond).sum(axis=1) + self.constant + self.slope * angle,
            slope.sum(axis=1) + self.slope,
        )

    def _slope(self, bend: "_Bend", moment: Floats) -> Floats:
        """Return the first derivative (j, 9) of the energy by the three unit vectors."""
        return np.asarray(moment[:, None] * bend.turning + (self.across * bend.aside)[:, None] * bend.sliding)

    def _curve(self, bend: "_Bend", moment: Floats, stiffness: Floats) -> Floats:
        """Return the second derivative (j, 9, 9) of the energy by the three unit vectors."""
        k = self.across[:, None, None]
        return np.asarray(
            stiffness[:, None, None] * square(bend.turning, bend.turning)
            + moment[:, None, None] * bend.curve_angle()
            + k * square(bend.sliding, bend.sliding)
            + k * bend.aside[:, None, None] * _ASIDE
        )


class _Bend:
    """Angles of hinges and their derivatives by the unit vectors u, v, w, in that order."""

    def __init__(self, positions: Floats, nodes: Integers) -> None:
        edges = _EDGES @ positions[nodes]
        self.length = np.linalg.norm(edges, axis=2, keepdims=True)
        self.unit = edges / self.length
        u, v, w = self.unit[:, 0], self.unit[:, 1], self.unit[:, 2]
        normal = cross(u, v)
        self.p, self.s = (u * v).sum(axis=1), (w * normal).sum(axis=1)
        self.square = self.p**2 + self.s**2
        self.angle = np.arctan2(self.s, self.p)
        self.aside = (w * (v - u)).sum(axis=1)
        self.along = np.hstack([v, u, np.zeros_like(u)])  # of p
        self.around = np.hstack([cross(v, w), cross(w, u), normal])  # of s
        self.sliding = np.hstack([-w, w, v - u])  # of aside
        self.turning = (self.p / self.square)[:, None] * self.around - (self.s / self.square)[:, None] * self.along

    def curve_angle(self) -> Floats:
        """Return the second derivative (j, 9, 9) of the angle."""
        p, s, r = self.p, self.s, self.square
        u, v, w = self.unit[:, 0], self.unit[:, 1], self.unit[:, 2]
        mixed = np.zeros((len(p), 9, 9))
        for row, col, vector in ((0, 3, -w), (0, 6, v), (3, 6, -u)):
            mixed[:, row : row + 3, col : col + 3] = make_cross_matrix(vector)
        twist = mixed + np.swapaxes(mixed, 1, 2)
        both = square(self.along, self.around)

        def share(value: Floats) -> Floats:
            return np.asarray(value[:, None, None])

        return np.asarray(
            share(p / r) * twist
            - share(s / r) * _ALONG
            + share(2 * p * s / r**2) * (square(self.along, self.along) - square(self.around, self.around))
            + share((s**2 - p**2) / r**2) * (both + np.swapaxes(both, 1, 2))
        )

    def pull_back(self, slope: Floats) -> Floats:
        """Return a first derivative (j, 3, 3) by the three members from one (j, 9) by their unit vectors."""
        own = slope.reshape(-1, 3, 3)
        return np.asarray((own - (own * self.unit).sum(axis=2, keepdims=True) * self.unit) / self.length)

    def pull_back_twice(self, slope: Floats, curve: Floats) -> Floats:
        """Return a second derivative (j, 9, 9) by the three members."""
        own, whole = slope.reshape(-1, 3, 3), np.zeros_like(curve)
        flat = (np.eye(3) - self.unit[..., :, None] * self.unit[..., None, :]) / self.length[..., None]
        for i in range(3):
            for j in range(3):
                block = curve[:, 3 * i : 3 * i + 3, 3 * j : 3 * j + 3]
                whole[:, 3 * i : 3 * i + 3, 3 * j : 3 * j + 3] = flat[:, i] @ block @ flat[:, j]
            e, size = self.unit[:, i], self.length[:, i, :, None]
            inward = (own[:, i] * e).sum(axis=1)[:, None, None]
            side = square((flat[:, i] @ own[:, i, :, None])[:, :, 0], e) / size
            whole[:, 3 * i : 3 * i + 3, 3 * i : 3 * i + 3] -= (
                inward * flat[:, i] / size + side + np.swapaxes(side, 1, 2)
            )
        return whole


_EDGES = np.array([[-1.0, 1, 0, 0, 0], [0, -1, 1, 0, 0], [0, 0, 0, -1, 1]])
_ONE = np.eye(3)
_SPREAD = np.kron(_EDGES, _ONE)  # members of nodes, each coordinate by itself
_ALONG = np.block([[_FLAT, _ONE, _FLAT], [_ONE, _FLAT, _FLAT], [_FLAT, _FLAT, _FLAT]])
_ASIDE = np.block([[_FLAT, _FLAT, -_ONE], [_FLAT, _FLAT, _ONE], [-_ONE, _ONE, _FLAT]])
