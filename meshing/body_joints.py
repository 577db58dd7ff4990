r"""How a person's joints resist bending: moments measured on people who let their muscles rest.

Knee: R. Riener and T. Edrich, J. Biomechanics 32, 539 to 544 (1999), ten people; with the foot pointed by 25 degrees,
as it falls when one lies, and the hip bent by 10 (both judgement). It then rests at 7 degrees and resists being
straightened with 7 N m. The same people's hips pull towards the belly with 9 N m when straight; with that a lying
person puts 6 to 8 hundredths of the weight on the heels, where 13 men on a mattress put 3, and other published fits
give none there. So a hip is all but free here: judgement, made with those 13 men in view.

Waist and neck: :math:`M = M_e(\mathrm{e}^{b(\varphi/R-1)} - \mathrm{e}^{-b(\varphi/R'+1)})`, R and R' the ranges
forwards and backwards. For the waist it runs through what T. Beach and others measured on 12 people (in a review,
PMC9293810): 0.7 N m for each hundredth of the range at its end, 0.1 in the transition, nothing at first. Range
forwards 52 degrees (126 people standing, PMC6339318); backwards 25 degrees and the transition at three fifths of
the range are from memory. For the neck 10 N m at the end of the range: S. McGill and others, Clinical Biomechanics 9,
193 to 198 (1994), who found that people bear a little less; its range, 60 degrees both ways, is from memory and its
shape that of the waist.
"""

from math import copysign, degrees, exp, log, radians
from typing import NamedTuple

import numpy as np

from ..hammock.arrays import FloatArray, IntegerArray
from ..materials.short_repr import write_repr
from ..solver import Hinge

_POINTED, _BENT = 25.0, 10.0  # degrees: the foot, the hip
_RISE = log(7.0) / 0.4  # of the slope, over the range: from 0.1 to 0.7 N m for each hundredth in the last two fifths
_WAIST_END = 70.0 / _RISE  # N m, from 0.7 N m for each hundredth of the range
_NECK_END = 10.0  # N m
_WAIST_RANGE, _NECK_RANGE = (52.0, 25.0), (60.0, 60.0)  # degrees forwards and backwards
_HIP = 5.0  # N m/rad
_SIDEWAYS = 100.0  # N m/rad: a knee hardly bends sideways; judgement
_NODDING = 10.0  # N m/rad: a neck bent sideways, so that a head does not roll off its pillow; judgement
_SPREAD = 15.0  # N m/rad: legs that part; judgement
_DRAWN = 20.0  # N m/rad: hips and knees drawn up stay so, held by muscles and by what they lie on; judgement
_STIFF = 500.0  # N m/rad: a bone


class HingeLaw(NamedTuple):
    """Moment c + k angle + sum of a exp(b angle), N m, by which a joint resists, angle in rad from lying straight."""

    terms: tuple[tuple[float, float], ...]  # a, N m, and b, 1/rad
    constant: float = 0.0  # c, N m
    slope: float = 0.0  # k, N m/rad
    across: float = 0.0  # N m/rad against bending across the axis

    def __repr__(self) -> str:
        return write_repr(
            self, f"{len(self.terms)} terms", f"{self.slope:g} N m/rad", f"across {self.across:g} N m/rad"
        )

    def shift(self, straight: float) -> "HingeLaw":
        """Return the law over the angle of a hinge that measures ``straight``, rad, where the body lies straight."""
        terms = tuple((a * exp(-b * straight), b) for a, b in self.terms)
        return self._replace(terms=terms, constant=self.constant - self.slope * straight)


def _per_degree(offset: float, rate: float) -> tuple[float, float]:
    """Return a term exp(offset + rate x degrees) that resists with the sign of its rate."""
    return copysign(exp(offset), rate), degrees(rate)


def make_knee(*, drawn: bool = False) -> HingeLaw:
    """Return the law of a knee, positive where it is bent; ``drawn`` up it rests where it is.

    Examples
    --------
    >>> knee = make_knee()
    >>> round(sum(a for a, _ in knee.terms) + knee.constant, 1)  # N m, straight
    -6.8
    """
    if drawn:
        return HingeLaw((), slope=_DRAWN, across=_SIDEWAYS)
    terms = (
        _per_degree(1.800 - 0.0460 * _POINTED + 0.0217 * _BENT, -0.0352),
        _per_degree(-3.971 - 0.0004 * _POINTED - 0.0128 * _BENT, 0.0495),
        _per_degree(2.220, -0.150),
    )
    return HingeLaw(terms, constant=4.820, across=_SIDEWAYS)


def make_hip(*, drawn: bool = False) -> HingeLaw:
    """Return the law of a hip, positive where the thigh is drawn towards the belly; ``drawn`` up it rests there."""
    return HingeLaw((), slope=_DRAWN if drawn else _HIP, across=_SPREAD)


def make_shin() -> HingeLaw:
    """Return the law that keeps the calf in line with knee and ankle."""
    return HingeLaw((), slope=_STIFF, across=_STIFF)


def make_waist() -> HingeLaw:
    """Return the law of half of a waist on one side: two hinges in a row on each of two sides, positive forwards."""
    return HingeLaw(tuple((a / 2, 2 * b) for a, b in _list_ends(_WAIST_END, _WAIST_RANGE)))


def make_neck() -> HingeLaw:
    """Return the law of half of a neck, positive where the chin goes to the breast."""
    return HingeLaw(tuple((a / 2, b) for a, b in _list_ends(_NECK_END, _NECK_RANGE)), across=_NODDING / 2)


def _list_ends(end: float, bounds: tuple[float, float]) -> tuple[tuple[float, float], ...]:
    """Return the terms of a moment ``end``, N m, at the bounds, degrees forwards and backwards, even when straight."""
    forwards, backwards = (_RISE / radians(bound) for bound in bounds)
    return (end * exp(-_RISE), forwards), (-end * exp(-_RISE), -backwards)


def make_hinges(nodes: IntegerArray, laws: tuple[HingeLaw, ...]) -> Hinge:
    """Return hinges at ``nodes`` (j, 5) that resist as ``laws`` say."""
    amplitude, rate = _stack_terms(laws)
    constant, slope, across = ([getattr(law, name) for law in laws] for name in ("constant", "slope", "across"))
    return Hinge(nodes, amplitude, rate, constant, slope, across)


def _stack_terms(laws: tuple[HingeLaw, ...]) -> tuple[FloatArray, FloatArray]:
    """Return amplitudes and rates (j, t) of laws, with zeros where one has fewer terms."""
    found = np.zeros((2, len(laws), max(len(law.terms) for law in laws)))
    for place, law in enumerate(laws):
        for number, (a, b) in enumerate(law.terms):
            found[:, place, number] = a, b
    return found[0], found[1]
