"""Where friction grips: the points at which bodies press on cloth, and where on the cloth they stuck."""

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

from .contact import Contact
from .element import Floats, Integers
from .friction import Friction
from .friction_geometry import Slips
from .words import show_count, show_range

_LEAST = 1e-9  # of the largest pressing force: less grips nothing
_THIN = 1e-8  # m2: carriers in a plane, on a line or in a point carry only what lies in it


class Grips(NamedTuple):
    """Points at which bodies press on cloth.

    Triangle and capsule (p,) name a point; body (p, k) and body_shares its carriers; cloth_shares (p, 3) where on the
    cloth it is stuck; pressing (p,) the force across the cloth, N.
    """

    triangle: Integers
    capsule: Integers
    body: Integers
    body_shares: Floats
    cloth_shares: Floats
    pressing: Floats

    def __repr__(self) -> str:
        """Return one line."""
        return f"Grips({show_count(len(self.triangle), 'point')}, {show_range(self.pressing, 'N')})"


def find_grips(
    contact: Contact, positions: Floats, carriers: Mapping[int, Integers], stick: float, before: Grips | None = None
) -> Grips:
    """Return the points at which some capsules press on cloth, one for each triangle and capsule.

    Points that are new stick where they are. Points that were there before keep their slip along the cloth, and with it
    their pull, but no more than the stick length: Coulomb friction drags along what slides. It is measured anew from
    where body and cloth touch now: a body turns, and a skin whose carriers have moved apart would else pull at the
    cloth from a hand's breadth above it, as a couple. Points where nothing presses any more let go.

    Parameters
    ----------
    contact : Contact
        As it stands in its structure (``structure.terms``).
    positions : (n, 3)
        Equilibrium, m.
    carriers : mapping of int to (k,) int
        By capsule, the nodes that carry its skin, all capsules alike many. Four that do not lie in one plane carry it
        as it turns; two, named more than once, only their line: such a capsule is taken not to roll. Capsules that are
        not named do not grip.
    stick : float
        Stick length, m.
    before : Grips or None
        Those of the state before.

    Returns
    -------
    Grips
        In the order of capsules and triangles.

    Examples
    --------
    A ball of 0.5 m, its skin carried by four nodes, lies 0.1 m deep in a triangle:

    >>> places = np.array([[0, 0, 0], [0.01, 0, 0], [0, 0.01, 0], [0, 0, 0.4], [1, 0, 0.4], [0, 1, 0.4], [0, 0, 1.4]])
    >>> ball = Contact([[0, 1, 2]], [[3, 3]], [[0.5, 0.5]], 1e4).attach(places)
    >>> grips = find_grips(ball, places, {0: np.array([3, 4, 5, 6])}, 0.003)
    >>> grips.pressing.round(3).tolist()
    [0.05]
    """
    known = np.array(sorted(carriers))
    pushes = contact.find_pushes(positions)[:, known]  # (m, capsules, 3)
    corners = positions[contact.connectivity]
    face = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    normal = face / np.linalg.norm(face, axis=1, keepdims=True)
    across = np.abs(np.einsum("mci,mi->cm", pushes, normal))
    place, triangle = np.nonzero(across > _LEAST * max(across.max(initial=0.0), np.finfo(float).tiny))
    capsule, pressing = known[place], across[place, triangle]
    body = np.array([carriers[each] for each in known])[place]
    body_shares = carry_points(positions[body], corners[triangle].mean(axis=1))
    stuck = np.einsum("pk,pki->pi", body_shares, positions[body])
    if before is not None:
        at, was = _match(triangle, capsule, before)
        stuck[at] -= _find_slip(positions, contact.connectivity[triangle[at]], before, was, stick)
    return Grips(triangle, capsule, body, body_shares, _find_shares(corners[triangle], stuck), pressing)


def make_friction(contact: Contact, grips: Grips, coefficient: float, stick: float) -> Friction:
    """Return the friction of some points.

    Parameters
    ----------
    contact : Contact
        Whose triangles the points name.
    grips : Grips
        At least one point.
    coefficient : float
        Of Coulomb friction.
    stick : float
        Stick length, m.
    """
    return Friction(
        grips.body,
        grips.body_shares,
        contact.connectivity[grips.triangle],
        grips.cloth_shares,
        coefficient * grips.pressing,
        stick,
    )


def carry_points(carriers: Floats, points: Floats) -> Floats:
    r"""Return shares (p, k) of nodes that carry points: of all that do and add up to 1 those with the least squares.

    Parameters
    ----------
    carriers : (p, k, 3)
        Nodes, m.
    points : (p, 3)
        m.

    Examples
    --------
    >>> carry_points(np.array([[[0.0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1]]]), np.array([[0.5, 0, 0]])).round(3) + 0.0
    array([[0.5, 0.5, 0. , 0. ]])
    """
    middle = carriers.mean(axis=1)
    around = carriers - middle[:, None]
    spread, ways = np.linalg.eigh(around.swapaxes(1, 2) @ around)
    inverse = np.where(spread > _THIN, 1.0 / np.maximum(spread, _THIN), 0.0)
    shares = np.einsum("pki,pij,pj,plj,pl->pk", around, ways, inverse, ways, points - middle, optimize=True)
    return np.asarray(1.0 / carriers.shape[1] + shares)


def _match(triangle: Integers, capsule: Integers, before: Grips) -> tuple[Integers, Integers]:
    """Return which points were there before, and as which."""
    names = [np.column_stack(pair) for pair in ((triangle, capsule), (before.triangle, before.capsule))]
    keys = [pair[:, 0] * (1 + before.capsule.max(initial=0) + capsule.max(initial=0)) + pair[:, 1] for pair in names]
    _, at, was = np.intersect1d(*keys, return_indices=True)
    return at, was


def _find_slip(positions: Floats, cloth: Integers, before: Grips, was: Integers, stick: float) -> Floats:
    """Return the slip (q, 3) m of points along the cloth, none farther than ``stick``."""
    nodes = np.concatenate([cloth, before.body[was]], axis=1)
    weights = np.concatenate([-before.cloth_shares[was], before.body_shares[was]], axis=1)
    slips = Slips.of(positions[nodes], weights)
    left = np.minimum(1.0, stick / np.maximum(slips.length, np.finfo(float).tiny))
    return np.asarray(left[:, None] * slips.flat)


def _find_shares(corners: Floats, points: Floats) -> Floats:
    """Return the shares (p, 3) of the corners (p, 3, 3) at the foot of points (p, 3) on the plane of their triangle."""
    edges = corners[:, 1:] - corners[:, :1]
    square = edges @ edges.swapaxes(1, 2)
    along = np.einsum("pei,pi->pe", edges, points - corners[:, 0])
    shares = np.linalg.solve(square, along[..., None])[..., 0]
    return np.column_stack([1.0 - shares.sum(axis=1), shares])
