r"""A strap round a tree: its reach, its stretch, the tension of each of its strands, its pressure on the bark.

The trunk is a round of girth G, radius :math:`r = G/2\pi`. A strap of length L that is choked through its own loop goes
round once and reaches :math:`L - G` from the bark. A strap laid round as a basket, both loops in one ring, leaves the
trunk in two tangents; with the ring at the distance c from the middle of the trunk

.. math:: L = 2\sqrt{c^2-r^2} + r\,(\pi + 2\arcsin(r/c))

it reaches :math:`c - r`, and each strand takes :math:`T/(2\cos\theta)`, :math:`\sin\theta = r/c`: the two strands
meet at the angle :math:`2\theta`.

With slings the strap lies behind the trunk alone, and a cord on each side goes on to the joint in front. All of it is
a basket whose joint is put at a chosen reach, so that each sling has to be :math:`s = (L - w)/2` long, w the strap;
where that is more than the free strand :math:`\sqrt{c^2-r^2}`, the rest of the cord lies on the bark.

A strand of tension S and width b presses on the bark with :math:`p = S/(r\,b)`. Friction on the bark is left out of the
strength: it would only take from the tension behind the trunk, by :math:`e^{-\mu\varphi}`. For the stretch what lies on
the bark is taken as held there.
"""

from dataclasses import dataclass
from enum import StrEnum
from math import asin, cos, pi, sqrt

from ..materials import Cord, Webbing
from ..materials.short_repr import write_repr, write_value

SHORTEST_REACH = 0.05  # m from the bark to the ring, judgement: so that loop and ring lie clear of the bark


class Hitch(StrEnum):
    """How a strap goes round a tree."""

    GIRTH = "girth hitch"  # choked through its own loop
    BASKET = "basket"  # laid round, both loops in one ring
    SLINGS = "slings"  # behind a thick trunk, a cord on each side; choked where it reaches all the way round


@dataclass(frozen=True)
class Wrap:
    """A strap as it lies round one trunk.

    Parameters
    ----------
    reach : float
        From the bark to the ring or joint, m.
    strands : int
        Between bark and ring.
    strand : float
        Length of strap in one of them, m.
    spread : float
        Angle between a strand and the line, rad.
    sling : float
        Length each sling has to have, m; zero without slings, or where they are idle.
    slung : float
        Length of sling in a strand, m: the rest lies on the bark.

    Examples
    --------
    >>> Wrap(0.3, 1, 0.3, 0.0).share
    1.0
    """

    reach: float
    strands: int
    strand: float
    spread: float
    sling: float = 0.0
    slung: float = 0.0

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{write_value(self.reach, 'length')} from bark to ring",
            f"{self.strands} strands of {write_value(self.strand + self.slung, 'length')}",
            f"slings of {write_value(self.sling, 'length')}" if self.sling else "",
        )

    @property
    def share(self) -> float:
        """Tension of a strand over the pull of the line."""
        return 1.0 / (self.strands * cos(self.spread))

    @property
    def flexibility(self) -> float:
        """How much the ring gives for each newton, times the strap's EA, m."""
        return self.strand * self.share**2 * self.strands

    @property
    def sling_flexibility(self) -> float:
        """The same of the slings, times the EA of their cord, m."""
        return self.slung * self.share**2 * self.strands

    @property
    def cord_on_bark(self) -> float:
        """Length of sling that lies on the bark on each side, m: the strap is shorter than its way round."""
        return self.sling - self.slung


@dataclass(frozen=True)
class Slings:
    """An adjustable cord on each side of a short strap, joined in front of the trunk.

    Parameters
    ----------
    cord : Cord
        What both are made of.
    reach : float
        From the bark to the joint, m.
    shortest, longest : float
        Between which each can be set, from the loop of the strap to the joint, m.
    toggle_mass : float or None
        Of what joins them and the line, kg; None for a knot.
    """

    cord: Cord
    reach: float
    shortest: float
    longest: float
    toggle_mass: float | None = None

    def __repr__(self) -> str:
        span = " to ".join(write_value(length, "length") for length in (self.shortest, self.longest))
        return write_repr(self, self.cord.name, span, f"joined {write_value(self.reach, 'length')} from the bark")


@dataclass(frozen=True)
class TreeStrap:
    """A separate strap between line and tree.

    Parameters
    ----------
    webbing : Webbing
        What it is made of.
    length : float
        From loop to loop, m.
    hitch : Hitch
        How it goes round the tree.
    slings : Slings or None
        Of ``Hitch.SLINGS`` only.
    """

    webbing: Webbing
    length: float
    hitch: Hitch
    slings: Slings | None = None

    def __repr__(self) -> str:
        return write_repr(self, self.webbing.name, f"{write_value(self.length, 'length')} long", str(self.hitch))

    def wrap(self, girth: float) -> Wrap:
        """Return how it lies round a trunk of that girth, m.

        A strap with slings is choked, and they are idle, where it reaches round and 5 cm beyond.

        Raises
        ------
        ValueError
            For a trunk it does not reach round, or on which it leaves no room for slings.

        Examples
        --------
        >>> from tautlay.materials import Cord, Webbing, read_library
        >>> webbing = read_library().find(Webbing, "polyester 1 in, 25 g/m")
        >>> round(TreeStrap(webbing, 1.5, Hitch.GIRTH).wrap(1.1).reach, 3)
        0.4
        >>> wrap = TreeStrap(webbing, 1.5, Hitch.BASKET).wrap(1.1)
        >>> round(wrap.reach, 3), round(wrap.share, 3)
        (0.265, 0.545)
        >>> cord = read_library().find(Cord, "12-strand UHMWPE 2.5 mm")
        >>> short = TreeStrap(webbing, 0.7, Hitch.SLINGS, Slings(cord, 0.3, 0.3, 0.9))
        >>> wrap = short.wrap(1.7)
        >>> round(wrap.sling, 3), round(wrap.share, 3), short.wrap(0.6).strands
        (0.711, 0.568, 1)
        """
        if self.slings is not None and self.length < girth + SHORTEST_REACH:
            return _wrap_slings(self.slings, self.length, girth)
        if self.length <= girth:
            raise ValueError("the strap does not reach round the trunk.")
        if self.hitch is not Hitch.BASKET:
            return Wrap(self.length - girth, 1, self.length - girth, 0.0)
        radius = girth / (2 * pi)
        middle = _find_ring(self.length, radius)
        return Wrap(middle - radius, 2, sqrt(middle**2 - radius**2), asin(radius / middle))

    def measure_give(self, wrap: Wrap) -> float:
        r"""Return how far the ring gives for each newton of pull, m/N.

        .. math:: g = \frac{n\,(l_s/EA_s + l_c/EA_c)}{(n\cos\theta)^2}

        Parameters
        ----------
        wrap : Wrap
            Of this strap: n strands with the lengths l of strap and sling.
        """
        give = wrap.flexibility / self.webbing.ea
        return give if self.slings is None else give + wrap.sling_flexibility / self.slings.cord.ea

    def weigh_free(self, wrap: Wrap) -> float:
        """Return the mass of what is not on the bark, which the line carries, kg."""
        strap = wrap.strands * wrap.strand * self.webbing.linear_mass
        if self.slings is None:
            return strap
        return strap + wrap.strands * wrap.slung * self.slings.cord.linear_mass + (self.slings.toggle_mass or 0.0)


def _wrap_slings(slings: Slings, strap: float, girth: float) -> Wrap:
    """Return how a strap too short to go round lies behind a trunk, its slings joined at their reach."""
    radius = girth / (2 * pi)
    middle = radius + slings.reach
    spread, tangent = asin(radius / middle), sqrt(middle**2 - radius**2)
    sling = tangent + radius * (pi / 2 + spread) - strap / 2
    if sling <= 0.0:
        raise ValueError("the strap leaves no room for slings on the trunk.")
    slung = min(sling, tangent)
    return Wrap(slings.reach, 2, tangent - slung, spread, sling, slung)


def _find_ring(length: float, radius: float) -> float:
    """Return how far the ring of a basket is from the middle of the trunk, m."""
    from scipy.optimize import brentq

    def miss(middle: float) -> float:
        return 2 * sqrt(middle**2 - radius**2) + radius * (pi + 2 * asin(radius / middle)) - length

    return float(brentq(miss, radius, length, xtol=1e-12))


@dataclass(frozen=True)
class Tree:
    """A trunk, and the strap round it.

    Parameters
    ----------
    girth : float
        Round the trunk where the strap lies, m.
    strap : TreeStrap or None
        None where the line itself goes round the tree.

    Examples
    --------
    >>> round(Tree(1.0).diameter, 3)
    0.318
    """

    girth: float
    strap: TreeStrap | None = None

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"girth {write_value(self.girth, 'length')}",
            f"strap of {self.strap.webbing.name}" if self.strap is not None else "",
        )

    @property
    def diameter(self) -> float:
        """Of the trunk, m."""
        return self.girth / pi

    @property
    def wrap(self) -> Wrap | None:
        """How the strap lies round it; None where there is none."""
        return None if self.strap is None else self.strap.wrap(self.girth)

    def find_pressure(self, tension: float, width: float) -> float:
        r"""Return how hard something round the trunk presses on the bark, Pa.

        .. math:: p = S / (r\,b)

        Parameters
        ----------
        tension : float
            Of one strand, S, N.
        width : float
            Of strap or cord, b, m.

        Notes
        -----
        Statics of a belt without friction. Bark is uneven: single ridges bear more.

        Examples
        --------
        >>> round(Tree(1.885).find_pressure(340.0, 0.025) / 1e3, 1)
        45.3
        """
        return tension / (self.diameter / 2 * width)
