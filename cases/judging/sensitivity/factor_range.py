r"""Likely range of the factor of a check.

With the factor :math:`f_0` found and :math:`f_i` with one input at an end of its range, everything else as it was,

.. math:: a_i = \ln(f_0 / \min f_i) \ge 0, \quad b_i = \ln(\max f_i / f_0) \ge 0

.. math:: f_{least} = f_0\,e^{-\sqrt{\sum a_i^2}}, \quad f_{most} = f_0\,e^{\sqrt{\sum b_i^2}}, \quad
    f_{worst} = f_0\,e^{-\sum a_i}

The first two apply if the inputs are independent, the ends of all ranges equally likely, and effects multiply; they are
likely values, not bounds. The third has every input at its worse end at once. How effects of two inputs depend on each
other is ignored. Propagation of independent errors, of common use in statistics.
"""

from dataclasses import dataclass, replace
from functools import cached_property
from math import exp, fsum, hypot, log

from ..checks import Check
from .range_input import Input


@dataclass(frozen=True)
class InputEffect:
    """Effect of the range of one input on one check.

    Parameters
    ----------
    source : Input
        The input.
    factors : tuple of (float, float or None)
        Each end of its range that differs from the nominal value, SI, and the factor with it; None was not found.
    """

    source: Input
    factors: tuple[tuple[float, float | None], ...]

    @property
    def found(self) -> tuple[float, ...]:
        """The factors that were found."""
        return tuple(factor for _, factor in self.factors if factor is not None)

    def find_shift(self, factor: float) -> tuple[float, float]:
        """Return how far the factor falls and rises, as natural logarithms, 0 or more."""
        shifts = [0.0, *(log(each / factor) for each in self.found)]
        return -min(shifts), max(shifts)


@dataclass(frozen=True)
class FactorRange:
    """Likely range of the factor of one check.

    Parameters
    ----------
    check : Check
        As it was found.
    effects : tuple of InputEffect
        Of every input whose range changes the factor.
    unknown : tuple of Input
        Inputs of which no range is known, though the factor depends on them: assumed exact.

    Examples
    --------
    >>> from tautlay.making import FACTORS, Capacity
    >>> check = Check("left head leg", "breaks", 1000.0, Capacity(6000.0, "force", ()), FACTORS["cord"])
    >>> strength = Input("breaking load", 6000.0, (4800.0, 6600.0), "force", "cord.breaking_load")
    >>> share = Input("share kept", 0.6, (0.6, 0.8), "ratio", "end")
    >>> effects = (InputEffect(strength, ((4800.0, 4.8), (6600.0, 6.6))), InputEffect(share, ((0.8, 8.0),)))
    >>> band = FactorRange(check, effects)
    >>> round(band.least, 2), round(band.most, 2), band.worth_measuring.title, round(band.find_share(effects[1]), 2)
    (4.8, 8.12, 'breaking load', 0.39)
    """

    check: Check
    effects: tuple[InputEffect, ...]
    unknown: tuple[Input, ...] = ()

    def __repr__(self) -> str:
        """Return between what the factor of which check lies."""
        return f"FactorRange({self.check.title!r:.120}, {self.least:.2f} to {self.most:.2f})"

    @cached_property
    def least(self) -> float:
        """Likely lowest factor."""
        return self.check.found * exp(-self._combine()[0])

    @cached_property
    def most(self) -> float:
        """Likely highest factor."""
        return self.check.found * exp(self._combine()[1])

    @property
    def worst(self) -> float:
        """Factor with every input at its worse end."""
        return self.check.found * exp(-fsum(effect.find_shift(self.check.found)[0] for effect in self.effects))

    @property
    def complete(self) -> bool:
        """Whether the factor was found at every end of every range; if not, the true range is wider."""
        return all(factor is not None for effect in self.effects for _, factor in effect.factors)

    @property
    def falls_short(self) -> bool:
        """Whether the factor passes as found, but not everywhere in its range: UNCERTAIN."""
        return self.check.passed and self.least < self.check.asked.value

    def narrow(self, source: Input) -> "FactorRange":
        """Return the range once an input is known exactly and equals its nominal value."""
        return replace(self, effects=tuple(effect for effect in self.effects if effect.source != source))

    def find_share(self, effect: InputEffect) -> float:
        """Return by what share of its width, on a log scale, the range narrows once an input is known exactly."""
        width = log(self.most / self.least)
        narrow = self.narrow(effect.source)
        return 1.0 - log(narrow.most / narrow.least) / width if width > 0.0 else 0.0

    @property
    def ranked(self) -> tuple[InputEffect, ...]:
        """The effects, the largest share of the range first."""
        return tuple(sorted(self.effects, key=self.find_share, reverse=True))

    @property
    def worth_measuring(self) -> Input | None:
        """The input without whose range the factor range would narrow most; None if nothing widens it."""
        effect = max(self.effects, key=self.find_share, default=None)
        return effect.source if effect is not None and self.find_share(effect) > 0.0 else None

    def _combine(self) -> tuple[float, float]:
        """Return how far the factor falls and rises, as natural logarithms, all inputs together."""
        shifts = [effect.find_shift(self.check.found) for effect in self.effects]
        return hypot(*(down for down, _ in shifts)), hypot(*(up for _, up in shifts))
