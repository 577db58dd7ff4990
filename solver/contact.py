"""Round bodies pressed into cloth."""

import copy
from typing import NamedTuple, Self

import numpy as np

from . import contact_kernel as kernel
from . import crossing_kernel as crossing
from .contact_arrays import Bodies, Numbers, Points, Sheet
from .contact_stiffness_kernel import find_stiffness
from .element import Bools, Coupling, Element, Floats, Integers, Smoothed, StiffnessModel, cast_nodes, cast_positive
from .quadrature import FINE_SHARES, FINE_STARTS, FINE_WEIGHTS
from .words import show_count, show_range

_POINTS = Points(FINE_SHARES, FINE_WEIGHTS, FINE_STARTS)
_SAMPLED = 1  # the rule with 48 points: two thirds of a square centimetre each in triangles of 8 cm
_REACH = 0.4  # of the smallest radius: how far a node may move in one step


class ContactResult(NamedTuple):
    """What cloth and bodies press on each other.

    Pressure (m,) Pa is the force on each triangle over its deformed area; force (3,) N is that on the cloth,
    area m2 the deformed cloth that is touched; push (m, 3) N the force on each triangle. By capsule:
    by_segment (c, 3) N the force on the cloth, depth (c,) m how deep the cloth lies in it at most, touched (c,)
    m2 the deformed cloth it touches.
    """

    pressure: Floats
    force: Floats
    area: float
    push: Floats
    by_segment: Floats
    depth: Floats
    touched: Floats

    def __repr__(self) -> str:
        """Return one line."""
        return (
            f"ContactResult({show_count(len(self.by_segment), 'capsule')}, force {np.linalg.norm(self.force):.3g} N, "
            f"{self.area:.3g} m2, pressure {show_range(self.pressure, 'Pa')})"
        )


class PushSample(NamedTuple):
    """Forces on q points of every triangle.

    Shares (q, 3) of the corners, weights (q,) share of the area, push (m, q, 3) N.
    """

    shares: Floats
    weights: Floats
    push: Floats

    def __repr__(self) -> str:
        """Return one line."""
        return f"PushSample({show_count(len(self.push), 'triangle')}, {len(self.weights)} points each)"


class Contact(Element):
    r"""Frictionless contact of cloth with capsules, by a penalty on depth.

    Each capsule is the hull of two balls; energy :math:`\tfrac12 k \int d^2\,\mathrm{d}A` over the cloth as it
    stands in the structure's first positions, d the depth of a point below the capsule's skin. The integral
    is taken at twelve points a triangle, or in each of its parts, no farther apart than a quarter of the capsule's
    smaller radius, so that a limb does not slip between them and the pressure k d does not depend on the mesh.
    Where capsules overlap, their pressures add up.

    Parameters
    ----------
    triangles : (m, 3) int
        Cloth.
    segments : (c, 2) int
        Nodes at the ends of each capsule's axis; twice the same node is a ball.
    radii : (c, 2)
        Radius at either end, m.
    stiffness : float or (c,)
        Pressure per depth, Pa/m; one for all capsules or one for each.

    Raises
    ------
    ValueError
        For wrong shapes, numbers that are not positive, or a node that is both cloth and body.

    Notes
    -----
    Pressure is k d up to a depth of a quarter of the capsule's smaller radius. Deeper flesh resists ever more, as if a
    bone began at two fifths of it, and no step may take an axis through the cloth.

    Examples
    --------
    >>> ball = Contact([[0, 1, 2]], [[3, 3]], [[0.5, 0.5]], 1e4)
    >>> places = np.array([[0, 0, 0], [0.01, 0, 0], [0, 0.01, 0], [0, 0, 0.4]])
    >>> float(ball.attach(places).result(places).force[2].round(3))  # 0.1 m deep: 1000 Pa on 50 mm2
    -0.05
    """

    def __init__(self, triangles: object, segments: object, radii: object, stiffness: object) -> None:
        self.connectivity = cast_nodes(triangles, 3, "triangles")
        self.segments = cast_nodes(segments, 2, "segments")
        shared = np.intersect1d(self.connectivity, self.segments)
        if len(shared):
            raise ValueError(f"node {shared[0]} is a node of the cloth and of a body: bodies need nodes of their own.")
        count = len(self.segments)
        given = np.asarray(radii, dtype=np.float64)
        if given.shape != (count, 2):
            raise ValueError(f"radii must have shape ({count}, 2), got {given.shape}.")
        self.radii = cast_positive(given.ravel(), 2 * count, "radii").reshape(count, 2)
        self.stiffness = cast_positive(stiffness, count, "stiffness")
        self._cloth, self._body = np.unique(self.connectivity), np.unique(self.segments)
        self._area: Floats | None = None
        self._local = np.empty(0, dtype=np.int64)

    def __repr__(self) -> str:
        """Return one line."""
        return (
            f"Contact({show_count(len(self.connectivity), 'triangle')}, "
            f"{show_count(len(self.segments), 'capsule')}, {show_range(self.stiffness, 'Pa/m')})"
        )

    @property
    def nodes(self) -> Integers:
        """Nodes of cloth and bodies."""
        return np.concatenate([self._cloth, self._body])

    def attach(self, positions: Floats) -> Self:
        """Return this contact with areas as they are at ``positions``."""
        placed = copy.copy(self)
        placed._area = _measure(positions, self.connectivity)
        placed._local = np.empty(len(positions), dtype=np.int64)
        for own in (self._cloth, self._body):
            placed._local[own] = np.arange(len(own))
        return placed

    def _arguments(self) -> tuple[Sheet, Bodies, Points]:
        """Return what every kernel takes after the positions."""
        if self._area is None:
            raise RuntimeError("Contact takes its areas from a structure: call attach(positions) first.")
        return Sheet(self.connectivity, self._area), Bodies(self.segments, self.radii, self.stiffness), _POINTS

    def energy(self, positions: Floats) -> float:
        """Return the stored energy, J."""
        return kernel.add_force(positions, *self._arguments(), np.zeros_like(positions))

    def add_force(self, positions: Floats, force: Floats) -> None:
        """Add the push on cloth and bodies to ``force`` (n, 3) N."""
        kernel.add_force(positions, *self._arguments(), force)

    def smooth(self, positions: Floats, mu: float, before: None, force: Floats) -> Smoothed:
        """Add the push on cloth and bodies to ``force`` (n, 3) N and return the energy, both in one loop."""
        return Smoothed(kernel.add_force(positions, *self._arguments(), force), None, 0)

    def couplings(self) -> list[Coupling]:
        """Return which nodes are coupled: cloth by triangle, each cloth node with all bodies, all bodies."""
        cloth, body = self._cloth[:, None], self._body[None, :]
        triangles, bodies = Coupling(self.connectivity, self.connectivity), Coupling(body, body)
        return [triangles, Coupling(cloth, np.repeat(body, len(cloth), axis=0)), bodies]

    def stiffness_blocks(self, positions: Floats, model: StiffnessModel) -> list[Floats]:
        """Return the blocks that belong to ``couplings``, N/m."""
        numbers = Numbers(self._local, len(self._cloth), len(self._body))
        found = find_stiffness(positions, *self._arguments(), numbers, int(model))
        return [found.cloth, found.cross, found.body[None]]

    def blocks(self, positions: Floats, model: StiffnessModel) -> Floats:
        """Return the triangles' own blocks (m, 9, 9), N/m."""
        return find_stiffness(positions, *self._arguments(), Numbers(self._local, 0, 0), int(model)).cloth

    def longest_step(self) -> float:
        """Return how far a node may move in one explicit step, m: farther, and contact is not what it was."""
        return _REACH * float(self.radii.min())

    def forbids(self, before: Floats, after: Floats) -> bool:
        """Tell whether cloth would pass through the axis of a body between two sets of positions."""
        return crossing.has_passed(before, after, self.connectivity, self.segments)

    def find_pierced(self, positions: Floats) -> Bools:
        """Return through which capsules' axes (c,) the cloth goes: where that is so, the limb is on no side of it."""
        return crossing.find_pierced(positions, self.connectivity, self.segments)

    def find_pushes(self, positions: Floats) -> Floats:
        """Return the force (m, c, 3) of each capsule on each triangle, N."""
        area = _measure(positions, self.connectivity)
        return kernel.find_pressing(positions, *self._arguments(), area).pushes

    def sample_pushes(self, positions: Floats) -> PushSample:
        """Return the force on points spread over every triangle: what varies within a triangle shows there."""
        first, end = _POINTS.starts[_SAMPLED], _POINTS.starts[_SAMPLED + 1]
        pushes = kernel.find_point_pushes(positions, *self._arguments(), _SAMPLED)
        return PushSample(_POINTS.shares[first:end], _POINTS.weights[first:end], pushes)

    def result(self, positions: Floats) -> ContactResult:
        """Return pressure and forces."""
        area = _measure(positions, self.connectivity)
        pushes, depth, touched, whole = kernel.find_pressing(positions, *self._arguments(), area)
        push, by_segment = pushes.sum(axis=1), pushes.sum(axis=0)
        pressure = np.linalg.norm(push, axis=1) / np.maximum(area, np.finfo(float).tiny)
        return ContactResult(pressure, push.sum(axis=0), whole, push, by_segment, depth, touched)


def _measure(positions: Floats, triangles: Integers) -> Floats:
    """Return the area of each triangle (m,), m2."""
    a, b, c = np.moveaxis(positions[triangles], 1, 0)
    return np.asarray(np.linalg.norm(np.cross(b - a, c - a), axis=1) / 2)
