r"""The chance of something so rare that hardly any draw meets it: importance sampling about the design point.

In a space of independent standard normal variables u the design point is the failure that is likeliest,

.. math:: u^* = \arg\min_{g(u) \le 0} |u|, \quad \beta = |u^*|, \quad P_{FORM} = \Phi(-\beta)

with g the response above its limit (first-order reliability method; Hasofer and Lind 1974, from memory). Draws v about
it are each counted with what they weigh in the original density,

.. math:: P = \frac1n \sum_{g(v) < 0} \exp\left(\tfrac12 \beta^2 - u^* \cdot v\right)
"""

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

import numpy as np
from scipy.optimize import minimize
from scipy.special import ndtr

from ....hammock.arrays import FloatArray
from .chance import Spread
from .distribution import REACH, Distribution
from .response import Response

ENOUGH = 2000  # draws that meet it, from which plain Monte Carlo is good to 2 %
_DRAWS = 100_000
_SEED = 47
_AHEAD = 1e-4
_WIDE, _LOOKS = 4.0, 4096  # standard deviations and number of draws that are looked at for a start
_MET = 1e-6  # of the response in the middle: how near to its limit a design point has to be


class RareChance(NamedTuple):
    """A small chance.

    Parameters
    ----------
    chance : float
        By importance sampling.
    error : float
        Its standard error.
    beta : float
        Distance of the design point, the reliability index; infinite where the response never meets the limit.
    """

    chance: float
    error: float
    beta: float

    @property
    def first_order(self) -> float:
        """The chance by FORM alone."""
        return float(ndtr(-self.beta))


def find_rare_chance(response: Response, laws: Sequence[Distribution], limit: float) -> RareChance:
    """Return the chance that a response falls below a limit.

    Parameters
    ----------
    response : Response
        What it misses counts as one more variable, normal and as large as its misses.
    laws : sequence of Distribution
        Of its inputs.
    limit : float
        Below the middle of the response.

    Notes
    -----
    One design point: a second one as likely, which a response of products may have, would be missed. Like plain
    Monte Carlo it continues the polynomial beyond the points that were solved.

    Examples
    --------
    >>> import numpy as np
    >>> laws = [Distribution("normal", 0.0, 1.0, "demo")] * 2
    >>> found = find_rare_chance(Response(((0,), (1,)), np.array([5.0, 0.6, 0.8]), np.zeros(20), 1.0), laws, 0.0)
    >>> f"{found.first_order:.2e} {found.beta:.2f}", abs(found.chance / 2.87e-7 - 1.0) < 0.03
    ('2.87e-07 5.00', True)
    """
    used = sorted({place for term in response.terms for place in term})
    even = np.array([laws[place].kind == "even" for place in used], dtype=bool)
    missed = float(np.sqrt(np.mean(response.left**2)))

    def fall(points: FloatArray) -> FloatArray:
        """Return how far the response stays above the limit at points (n, used + 1)."""
        scores = np.zeros((len(points), len(laws)))
        plain = points[:, :-1]
        scores[:, used] = np.where(even, REACH * (2.0 * ndtr(plain) - 1.0), plain)
        above: FloatArray = response.predict(scores) + missed * points[:, -1] - limit
        return above

    design = _find_design_point(fall, len(used) + 1)
    if design is None:
        return RareChance(0.0, 0.0, float("inf"))
    beta = float(np.linalg.norm(design))
    points = design + np.random.default_rng(_SEED).normal(size=(_DRAWS, len(design)))
    counts = np.where(fall(points) < 0.0, np.exp(0.5 * beta**2 - points @ design), 0.0)
    return RareChance(float(counts.mean()), float(counts.std() / np.sqrt(_DRAWS)), beta)


def find_chance(response: Response, laws: Sequence[Distribution], spread: Spread, limit: float) -> float:
    """Return the chance of falling below a limit: by plain draws where enough meet it, else about the design point.

    Parameters
    ----------
    response, laws, limit
        As for :func:`find_rare_chance`.
    spread : Spread
        Plain draws of the response.
    """
    plain = spread.find_chance(limit)
    rare = plain * len(spread.values) < ENOUGH
    return find_rare_chance(response, laws, limit).chance if rare else plain


def _find_design_point(fall: Callable[[FloatArray], FloatArray], size: int) -> FloatArray | None:
    """Return the likeliest failure; None where there is none."""
    ahead = np.vstack([np.zeros(size), _AHEAD * np.eye(size)])
    middle = fall(ahead)
    starts = _list_starts(fall, (middle[1:] - middle[0]) / _AHEAD, float(middle[0]))
    found = [_descend(fall, start) for start in starts]
    near = _MET * max(abs(float(middle[0])), 1.0)
    met = [point for point in found if abs(float(fall(point[None, :])[0])) <= near]
    return min(met, key=lambda point: float(point @ point), default=None)


def _list_starts(fall: Callable[[FloatArray], FloatArray], slope: FloatArray, middle: float) -> Iterator[FloatArray]:
    """Yield where to look from: down the slope of the middle, and the failure nearest to it among wide draws."""
    if slope @ slope > 0.0:
        yield -slope * middle / (slope @ slope)
    wide = _WIDE * np.random.default_rng(_SEED).normal(size=(_LOOKS, len(slope)))
    below = wide[fall(wide) < 0.0]
    if len(below):
        yield below[np.argmin((below**2).sum(axis=1))]


def _descend(fall: Callable[[FloatArray], FloatArray], start: FloatArray) -> FloatArray:
    """Return the point of the limit that is nearest to the middle, from a start."""
    found = minimize(
        lambda point: 0.5 * point @ point,
        start,
        jac=lambda point: point,
        constraints={"type": "eq", "fun": lambda point: fall(point[None, :])[0]},
        method="SLSQP",
        options={"maxiter": 300, "ftol": 1e-10},
    )
    point: FloatArray = found.x
    return point
