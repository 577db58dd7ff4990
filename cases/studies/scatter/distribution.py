r"""How each input scatters, in one place; every choice with its source or as a judgement.

A range of the library is what is likely, not a bound: 90 of 100 lie within it. Quantities that are positive and
differ by factors (stiffness, strength, size) are log-normal, shares that a published range gives evenly spread between
its ends, what is measured with a rule or by eye normal. All of that is engineering judgement: the sources of the ranges
tell no distribution. Inputs count as independent.
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from ....hammock.arrays import FloatArray
from ...judging.sensitivity.range_input import Input

_JUDGED = "engineering judgement: 90 of 100 within"
CUT = (0.005, f"{_JUDGED} 5 mm of the design, cut and sewn with care")
CORD = (0.01, f"{_JUDGED} 1 cm of the design, spliced or knotted to length")
STRAP = (0.05, f"{_JUDGED} 5 cm of the design, held against the body by eye")
ANGLE = (0.0524, f"{_JUDGED} 3 degrees of the design, judged with a hand")
WEIGHT = (3.0, f"{_JUDGED} 3 kg of the person in the design: clothes, what is carried, morning and evening")
NINETY = 1.6448536269514722  # standard deviations to the 95th percentile of the normal distribution
REACH = 3.0**0.5  # a score that is even between plus and minus this has a variance of 1


@dataclass(frozen=True)
class Distribution:
    r"""How an input scatters.

    With :math:`z` a score of mean 0 and variance 1 and :math:`a, b` the ends of the range, the value is
    :math:`\sqrt{ab}\,(b/a)^{z/3.29}` (log-normal), :math:`(a+b)/2 + (b-a)\,z/3.29` (normal) or
    :math:`(a+b)/2 + (b-a)\,z/3.46` (even). Scores are normal, of an even law even: so that a polynomial of few terms
    fits.

    Parameters
    ----------
    kind : {"log-normal", "normal", "even"}
        Its law.
    low, high : float
        5th and 95th percentile, of an even one both ends, SI.
    source : str
        Where law and ends come from.

    Raises
    ------
    ValueError
        For ends in the wrong order, or a log-normal one that is not positive.

    Examples
    --------
    >>> import numpy as np
    >>> Distribution("log-normal", 20.0, 45.0, "judgement").take(np.array([0.0, 1.6449])).round(2)
    array([30., 45.])
    >>> Distribution("even", 0.6, 0.8, "judgement").take(np.array([0.0])).round(2)
    array([0.7])
    """

    kind: Literal["log-normal", "normal", "even"]
    low: float
    high: float
    source: str

    def __post_init__(self) -> None:
        if not self.low < self.high:
            raise ValueError(f"the ends {self.low} and {self.high} of a range are in the wrong order.")
        if self.kind == "log-normal" and self.low <= 0.0:
            raise ValueError(f"a log-normal value is positive: {self.low} is not.")

    @property
    def reach(self) -> float:
        """Largest size of a score: infinite but for an even law."""
        return REACH if self.kind == "even" else float("inf")

    def take(self, scores: FloatArray) -> FloatArray:
        """Return the values (n,), SI, that belong to scores (n,)."""
        if self.kind == "even":
            return (self.low + self.high) / 2 + (self.high - self.low) / (2 * REACH) * scores
        low, high = (np.log(self.low), np.log(self.high)) if self.kind == "log-normal" else (self.low, self.high)
        plain: FloatArray = (low + high) / 2 + (high - low) / (2 * NINETY) * scores
        return np.exp(plain) if self.kind == "log-normal" else plain

    def score(self, shares: FloatArray) -> FloatArray:
        """Return the scores (n,) below which these shares (n,) of all lie."""
        from scipy.special import ndtri

        found: FloatArray = REACH * (2.0 * shares - 1.0) if self.kind == "even" else ndtri(shares)
        return found


def choose_distribution(source: Input) -> Distribution:
    """Return how an input of the library scatters within its range.

    Parameters
    ----------
    source : Input
        With a range.

    Raises
    ------
    ValueError
        Without a range.

    Examples
    --------
    >>> choose_distribution(Input("share kept", 0.6, (0.6, 0.8), "ratio", "end")).kind
    'even'
    """
    if source.range is None:
        raise ValueError(f"no range is known of {source.title}.")
    low, high = source.range
    if source.dimension == "ratio" or low <= 0.0:
        return Distribution("even", low, high, "engineering judgement: evenly between the ends of the published range")
    return Distribution("log-normal", low, high, "engineering judgement: 90 of 100 within the range of the library")
