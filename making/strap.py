r"""A strap round a tree: its reach, its stretch, the tension of each of its strands.

The trunk is a round of girth G, radius :math:`r = G/2\pi`. A strap of length L that is choked through its own loop goes
round once and reaches :math:`L - G` from the bark. A strap laid round as a basket, both loops in one ring, leaves the
trunk in two tangents; with the ring at the distance c from the middle of the trunk

.. math:: L = 2\sqrt{c^2-r^2} + r\,(\pi + 2\arcsin(r/c))

it reaches :math:`c - r`, and each strand takes :math:`T/(2\cos\theta)`, :math:`\sin\theta = r/c`. The strap is
assumed not to slip on the bark.
"""

from dataclasses import dataclass
from enum import StrEnum
from math import asin, cos, pi, sqrt

from ..materials import Webbing
from ..materials.short_repr import write_repr, write_value

SHORTEST_REACH = 0.05  # m from the bark to the ring, judgement: so that loop and ring lie clear of the bark


class Hitch(StrEnum):
    """How a strap goes round a tree."""

    GIRTH = "girth hitch"  # choked through its own loop
    BASKET = "basket"  # laid round, both loops in one ring


@dataclass(frozen=True)
class Wrap:
    """A strap as it lies round one trunk.

    Parameters
    ----------
    reach : float
        From the bark to the ring, m.
    strands : int
        Between bark and ring.
    strand : float
        Length of one of them, m.
    spread : float
        Angle between a strand and the line, rad.

    Examples
    --------
    >>> Wrap(0.3, 1, 0.3, 0.0).share
    1.0
    """

    reach: float
    strands: int
    strand: float
    spread: float

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{write_value(self.reach, 'length')} from bark to ring",
            f"{self.strands} strands of {write_value(self.strand, 'length')}",
        )

    @property
    def share(self) -> float:
        """Tension of a strand over the pull of the line."""
        return 1.0 / (self.strands * cos(self.spread))

    @property
    def flexibility(self) -> float:
        """How much the ring gives for each newton, times the strap's EA, m."""
        return self.strand * self.share**2 * self.strands


@dataclass(frozen=True)
class TreeStrap:
    """A separate strap between line and tree, the same at both ends.

    Parameters
    ----------
    webbing : Webbing
        What it is made of.
    length : float
        From loop to loop, m.
    hitch : Hitch
        How it goes round the tree.
    """

    webbing: Webbing
    length: float
    hitch: Hitch

    def __repr__(self) -> str:
        return write_repr(self, self.webbing.name, f"{write_value(self.length, 'length')} long", str(self.hitch))

    def wrap(self, girth: float) -> Wrap:
        """Return how it lies round a trunk of that girth, m.

        Raises
        ------
        ValueError
            For a trunk it does not reach round.

        Examples
        --------
        >>> from tautlay.materials import Webbing, read_library
        >>> webbing = read_library().find(Webbing, "polyester 1 in, 25 g/m")
        >>> round(TreeStrap(webbing, 1.5, Hitch.GIRTH).wrap(1.1).reach, 3)
        0.4
        >>> wrap = TreeStrap(webbing, 1.5, Hitch.BASKET).wrap(1.1)
        >>> round(wrap.reach, 3), round(wrap.share, 3)
        (0.265, 0.545)
        """
        if self.length <= girth:
            raise ValueError("the strap does not reach round the trunk.")
        if self.hitch is Hitch.GIRTH:
            return Wrap(self.length - girth, 1, self.length - girth, 0.0)
        radius = girth / (2 * pi)
        middle = _find_ring(self.length, radius)
        return Wrap(middle - radius, 2, sqrt(middle**2 - radius**2), asin(radius / middle))


def _find_ring(length: float, radius: float) -> float:
    """Return how far the ring of a basket is from the middle of the trunk, m."""
    from scipy.optimize import brentq

    def miss(middle: float) -> float:
        return 2 * sqrt(middle**2 - radius**2) + radius * (pi + 2 * asin(radius / middle)) - length

    return float(brentq(miss, radius, length, xtol=1e-12))


@dataclass(frozen=True)
class Trees:
    """The trunks at both ends, and the strap round them.

    Parameters
    ----------
    head_girth, foot_girth : float
        Round the trunk where the strap lies, m.
    strap : TreeStrap or None
        None where the line itself goes round the tree.

    Examples
    --------
    >>> round(Trees(1.0, 1.2).diameter("head"), 3)
    0.318
    """

    head_girth: float
    foot_girth: float
    strap: TreeStrap | None = None

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"girths {write_value(self.head_girth, 'length')} and {write_value(self.foot_girth, 'length')}",
            f"strap of {self.strap.webbing.name}" if self.strap is not None else "",
        )

    def girth(self, end: str) -> float:
        """Return the girth of the ``"head"`` or ``"foot"`` tree, m."""
        return self.head_girth if end == "head" else self.foot_girth

    def diameter(self, end: str) -> float:
        """Return the diameter of the trunk, m."""
        return self.girth(end) / pi

    def wrap(self, end: str) -> Wrap | None:
        """Return how the strap lies round a tree; None where there is none."""
        return None if self.strap is None else self.strap.wrap(self.girth(end))
