"""Springs that hold two members in line."""

from typing import NamedTuple

import numpy as np

from .element import Element, Floats, StiffnessModel, cast_nodes, cast_positive
from .words import show_count, show_range


class JointResult(NamedTuple):
    """Angle (j,) rad between both members, zero when straight, and the moment (j,) N m that holds it."""

    angle: Floats
    moment: Floats

    def __repr__(self) -> str:
        """Return one line."""
        return (
            f"JointResult({show_count(len(self.angle), 'joint')}, angle {show_range(self.angle, 'rad')}, "
            f"moment {show_range(self.moment, 'N m')})"
        )


class Joint(Element):
    r"""Spring at the middle node of three: energy :math:`k\,(1 - u\cdot v)`, u and v unit vectors ab and bc.

    The moment is :math:`k \sin\theta` at the angle :math:`\theta` between u and v; straight is at rest.

    Parameters
    ----------
    triples : (j, 3) int
        Nodes a, b, c.
    stiffness : float or (j,)
        N m per rad near straight.

    Raises
    ------
    ValueError
        For wrong shapes, numbers that are not positive, or a node named twice in a triple.

    Examples
    --------
    >>> knee = Joint([[0, 1, 2]], 10.0)
    >>> knee.result(np.array([[0, 0, 0], [1, 0, 0], [1, 1, 0]], float)).angle.round(6)
    array([1.570796])
    """

    def __init__(self, triples: object, stiffness: object) -> None:
        self.connectivity = cast_nodes(triples, 3, "triples")
        twice = np.diff(np.sort(self.connectivity, axis=1), axis=1) == 0
        if twice.any():
            raise ValueError(f"triple {int(np.argmax(twice.any(axis=1)))} names a node twice.")
        self.stiffness = cast_positive(stiffness, len(self.connectivity), "stiffness")

    def __repr__(self) -> str:
        """Return one line."""
        return f"Joint({show_count(len(self.connectivity), 'joint')}, {show_range(self.stiffness, 'N m/rad')})"

    def _directions(self, positions: Floats) -> tuple[Floats, Floats, Floats, Floats]:
        """Return unit vectors u, v (j, 3) and lengths (j, 1) of both members."""
        a, b, c = np.moveaxis(positions[self.connectivity], 1, 0)
        first, second = (np.linalg.norm(e, axis=1, keepdims=True) for e in (b - a, c - b))
        return (b - a) / first, (c - b) / second, first, second

    def energy(self, positions: Floats) -> float:
        """Return the stored energy, J; half the square of u - v, which is 1 - u.v without its rounding."""
        u, v, _, _ = self._directions(positions)
        return 0.5 * float(self.stiffness @ ((u - v) ** 2).sum(axis=1))

    def add_force(self, positions: Floats, force: Floats) -> None:
        """Add the restoring force to ``force`` (n, 3) N."""
        u, v, first, second = self._directions(positions)
        k, along = self.stiffness[:, None], (u * v).sum(axis=1, keepdims=True)
        start, end = k * (v - along * u) / first, k * (u - along * v) / second
        np.add.at(force, self.connectivity, np.stack([-start, start - end, end], axis=1))

    def blocks(self, positions: Floats, model: StiffnessModel) -> Floats:
        """Return stiffness matrices (j, 9, 9), N/m."""
        u, v, first, second = self._directions(positions)
        bend = _bend(u, v, first[:, :, None], second[:, :, None])
        if model is not StiffnessModel.EXACT:
            values, axes = np.linalg.eigh(bend)
            kept = np.abs(values) if model is StiffnessModel.TAUT else np.maximum(values, 0.0)
            bend = (axes * kept[:, None, :]) @ np.swapaxes(axes, 1, 2)
        edges = np.zeros((6, 9))
        edges[:3, :3], edges[:3, 3:6] = -np.eye(3), np.eye(3)
        edges[3:, 3:6], edges[3:, 6:] = -np.eye(3), np.eye(3)
        return np.asarray(self.stiffness[:, None, None] * (edges.T @ bend @ edges))

    def result(self, positions: Floats) -> JointResult:
        """Return angle and moment of every joint."""
        u, v, _, _ = self._directions(positions)
        across = np.linalg.norm(np.cross(u, v), axis=1)
        return JointResult(np.arctan2(across, (u * v).sum(axis=1)), self.stiffness * across)


def _bend(u: Floats, v: Floats, first: Floats, second: Floats) -> Floats:
    """Return the second derivative (j, 6, 6) of -u.v by both members' vectors; lengths (j, 1, 1)."""
    along = (u * v).sum(axis=1)[:, None, None]
    flat_u, flat_v = (np.eye(3) - e[:, :, None] * e[:, None, :] for e in (u, v))
    toward_v, toward_u = v - along[:, :, 0] * u, u - along[:, :, 0] * v

    def own(e: Floats, across: Floats, flat: Floats, length: Floats) -> Floats:
        mixed = e[:, :, None] * across[:, None, :]
        return np.asarray((mixed + np.swapaxes(mixed, 1, 2) + along * flat) / length**2)

    cross = -flat_u @ flat_v / (first * second)
    top = np.concatenate([own(u, toward_v, flat_u, first), cross], axis=2)
    bottom = np.concatenate([np.swapaxes(cross, 1, 2), own(v, toward_u, flat_v, second)], axis=2)
    return np.concatenate([top, bottom], axis=1)
