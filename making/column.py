"""A column on pins: many short pieces, each of one rigidity; how it bends, and its highest stress."""

from dataclasses import dataclass
from functools import lru_cache
from math import cos, inf, pi, sin, sqrt
from typing import NamedTuple

from ..materials import RodSection, Tube, buckling_load
from ..materials.short_repr import write_repr, write_value
from .bar import find_outer


class Fibre(NamedTuple):
    """The share of one part in a piece of the column.

    Parameters
    ----------
    part : int
        Which part, counted from 0.
    section : Tube or RodSection
        Its section there.
    shares : tuple of float
        Share of the bending moment it carries at the left and at the right end of the piece.
    """

    part: int
    section: Tube | RodSection
    shares: tuple[float, float]

    def __repr__(self) -> str:
        return write_repr(self, f"part {self.part}", self.section.name)

    def stress(self, thrust: float, moment: float) -> float:
        """Return the largest stress by the thrust, N, and its own bending moment, N m, in Pa."""
        section = self.section
        return thrust / section.area + moment * find_outer(section) / 2 / section.second_moment


class Piece(NamedTuple):
    """A short length of the column.

    Parameters
    ----------
    start, length : float
        From the left end, and its own, m.
    rigidity : float
        Bending rigidity EI, N m2.
    fibres : tuple of Fibre
        One part, or the two of an overlap.
    joint : float
        Stiffness against turning of a joint at the left end, N m/rad; infinite where there is none.
    kink : float
        Angle of a joint with play at the left end, rad.
    """

    start: float
    length: float
    rigidity: float
    fibres: tuple[Fibre, ...]
    joint: float = inf
    kink: float = 0.0

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{write_value(self.length, 'length')} long",
            f"{self.rigidity:.3g} N m2",
            f"{len(self.fibres)} sections",
        )


class Strain(NamedTuple):
    """Highest stress of a part.

    Parameters
    ----------
    share : float
        Stress over strength.
    growth : float
        How many times the lever arm of the thrust has grown from the unloaded bar.
    place : float
        From the left end of the bar, m.
    """

    share: float
    growth: float
    place: float


@dataclass(frozen=True)
class Column:
    """A bar on pins, with its imperfections.

    Parameters
    ----------
    pieces : tuple of Piece
        From left to right.
    bow : float
        How far the middle is out of line, in half a sine wave, m.
    eccentricity : float
        How far beside the axis the thrust enters at both ends, on the side of the bow, m.

    Examples
    --------
    >>> from tautlay.making import BarBuild, BarPart, build_column
    >>> tube = Tube("demo", "aluminium", 0.016, 0.001, 70e9, 2700.0, 240e6)
    >>> column = build_column(BarBuild((BarPart(tube, 0.9),)), bow=0.002, eccentricity=0.0)
    >>> round(column.buckling_load, 1), round(max(column.bend(400.0)) * 1e3, 3)
    (1135.5, 3.088)
    """

    pieces: tuple[Piece, ...]
    bow: float
    eccentricity: float

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{len(self.pieces)} pieces",
            f"bow {write_value(self.bow, 'length')}",
            f"eccentricity {write_value(self.eccentricity, 'length')}",
        )

    @property
    def length(self) -> float:
        """Length, m."""
        return self.pieces[-1].start + self.pieces[-1].length

    @property
    def buckling_load(self) -> float:
        """Elastic buckling load of the straight bar, N."""
        return _find_buckling_load(self.pieces)

    @property
    def axial_stiffness(self) -> float:
        """EA of a uniform bar that is shortened as much, N; of two parts in an overlap the softer one counts."""
        give = sum(piece.length / min(fibre.section.ea for fibre in piece.fibres) for piece in self.pieces)
        return self.length / give

    def rest_arms(self) -> list[float]:
        """Return the lever arm of the thrust at the ends of all pieces before it bends the bar (n + 1,), m."""
        ends = [*(piece.start for piece in self.pieces), self.length]
        leans = [(piece.start, piece.kink) for piece in self.pieces if piece.kink]
        return [
            self.eccentricity
            + self.bow * sin(pi * x / self.length)
            + sum(kink * (min(x, at) - x * at / self.length) for at, kink in leans)
            for x in ends
        ]

    def bend(self, thrust: float) -> list[float]:
        r"""Return the lever arm of the thrust at the ends of all pieces of the bent bar (n + 1,), m.

        The arm m is eccentricity, bow and kinks and what the bar bends; :math:`EI (m - m_0)'' + P m = 0`, solved
        exactly in every piece, in which the unloaded arm :math:`m_0` is straight.

        Parameters
        ----------
        thrust : float
            Above 0 and below the buckling load, N.
        """
        rest = self.rest_arms()
        slopes = [(b - a) / piece.length for a, b, piece in zip(rest, rest[1:], self.pieces, strict=False)]
        given = self._pass_on(thrust, (self.eccentricity, 0.0), slopes)
        free = self._pass_on(thrust, (0.0, 1.0), None)
        turn = (self.eccentricity - given[-1]) / free[-1]
        return [a + turn * b for a, b in zip(given, free, strict=True)]

    def _pass_on(self, thrust: float, start: tuple[float, float], slopes: list[float] | None) -> list[float]:
        """Return the arms that follow from arm and slope at the left end; the unloaded slopes turn the bent bar."""
        arm, slope = start
        arms = [arm]
        for place, piece in enumerate(self.pieces):
            slope -= thrust * arm / piece.joint
            if slopes is not None and place:
                slope += slopes[place] - slopes[place - 1]
            k = sqrt(thrust / piece.rigidity)
            c, s = cos(k * piece.length), sin(k * piece.length)
            arm, slope = arm * c + slope * s / k, slope * c - arm * k * s
            arms.append(arm)
        return arms

    def strain(self, thrust: float, strengths: dict[int, float]) -> dict[int, Strain]:
        """Return the highest stress of each part with a strength.

        Parameters
        ----------
        thrust : float
            Above 0 and below the buckling load, N.
        strengths : dict of int to float
            Strength by part, Pa; the other parts are left out.
        """
        rest, bent = self.rest_arms(), self.bend(thrust)
        worst: dict[int, Strain] = {}
        for place, piece in enumerate(self.pieces):
            for fibre in piece.fibres:
                if fibre.part not in strengths:
                    continue
                moments = [thrust * abs(bent[place + end]) * fibre.shares[end] for end in (0, 1)]
                end = moments.index(max(moments))
                share = fibre.stress(thrust, moments[end]) / strengths[fibre.part]
                if fibre.part not in worst or share > worst[fibre.part].share:
                    at = place + end
                    growth = abs(bent[at]) / rest[at] if rest[at] > 0 else 1.0
                    worst[fibre.part] = Strain(share, growth, piece.start + end * piece.length)
        return worst

    def find_limit(self, strengths: dict[int, float]) -> float:
        """Return the thrust at which the first of some parts reaches its strength, N.

        Short struts end at the crushing load, slender ones near the buckling load, and those between below both: no
        separate rule for short struts is needed.

        Parameters
        ----------
        strengths : dict of int to float
            Strength by part, Pa.
        """
        return _find_limit(self, tuple(strengths.items()))


# The bars of a design stay while its hang, its cloth or the person changes, and every solve asks for them.
@lru_cache(maxsize=256)
def _find_buckling_load(pieces: tuple[Piece, ...]) -> float:
    """Return the elastic buckling load of a straight bar, N."""
    return buckling_load(
        [piece.length for piece in pieces],
        [piece.rigidity for piece in pieces],
        joint_stiffness=[piece.joint for piece in pieces[1:]],
    )


@lru_cache(maxsize=256)
def _find_limit(column: Column, written: tuple[tuple[int, float], ...]) -> float:
    """Return the thrust at which the first part reaches its strength, N; parts and strengths in pairs."""
    from scipy.optimize import brentq

    strengths = dict(written)

    def miss(thrust: float) -> float:
        return max(each.share for each in column.strain(thrust, strengths).values()) - 1

    fibres = (fibre for piece in column.pieces for fibre in piece.fibres if fibre.part in strengths)
    squash = min(fibre.section.area * strengths[fibre.part] for fibre in fibres)
    most = min(column.buckling_load * (1 - 1e-9), squash * (1 + 1e-9))
    if miss(most) < 0:
        return most
    return float(brentq(miss, most * 1e-9, most, rtol=1e-9))
