"""What the loops of contact share: cloth, bodies, and the points at which the depth is taken."""

from typing import NamedTuple

from .element import Floats, Integers


class Sheet(NamedTuple):
    """Cloth that is pressed."""

    triangles: Integers  # (m, 3) nodes
    area: Floats  # (m,) as first placed, m2


class Bodies(NamedTuple):
    """Capsules."""

    segments: Integers  # (c, 2) nodes at the ends of the axis
    radii: Floats  # (c, 2) m
    stiffness: Floats  # (c,) pressure per depth, Pa/m


class Points(NamedTuple):
    """Rules of quadrature, one after the other, each finer than the one before."""

    shares: Floats  # (q, 3) of the corners
    weights: Floats  # (q,) share of the area
    starts: Integers  # (l + 1,) where each rule begins, and the end


class Numbers(NamedTuple):
    """Numbers of nodes of their own for cloth and bodies; neither has any where bodies are held."""

    local: Integers  # (n,) of each node among those of the cloth or those of the bodies
    cloth: int  # how many nodes of the cloth count
    body: int  # and of the bodies


class ContactStiffness(NamedTuple):
    """Stiffness of contact, N/m, with l nodes of the cloth and h of the bodies."""

    cloth: Floats  # (m, 9, 9) by triangle
    cross: Floats  # (l, 3, 3h)
    body: Floats  # (3h, 3h)


class Pressing(NamedTuple):
    """What cloth and bodies press on each other."""

    pushes: Floats  # (m, c, 3) of each capsule on each triangle, N
    depth: Floats  # (c,) the deepest, m
    touched: Floats  # (c,) deformed area, m2
    whole: float  # deformed area that any capsule touches, m2
