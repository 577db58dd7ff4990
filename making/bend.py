"""A cord bent over a pin, a bar's tip or the edge of a hole."""

from bisect import bisect_right

from ..materials import Cord, make_sentence
from .capacity import Basis, Capacity, Multiplier

# Ratio of the diameter it is bent over to the cord's own, and the share of strength left: both ends of the ranges.
BENDS = ((1.0, 0.50, 0.60), (3.0, 0.75, 0.80), (5.0, 0.85, 0.90), (8.0, 0.95, 0.95))
SOURCE = (
    "12-strand UHMWPE over a pin, ranges unverified: D/d 1 keeps 50 to 60 %, 3 keeps 75 to 80 %, 5 keeps 85 to 90 %, "
    "8 keeps 95 %; lower ends, linear between"
)
_SHARP = "below D/d 1 proportional to D/d, engineering judgement: a sharp edge cuts"
_OTHER = (
    "used for nylon and polyester too, engineering judgement on the safe side: a sailors' magazine that pulled knots "
    "in all three found that they bear a bend better than UHMWPE"
)


def find_bend_share(ratio: float, *, upper: bool = False) -> float:
    r"""Return the share of its strength that a cord keeps in a bend, by :math:`D/d`.

    Straight lines between the points of ``BENDS``; in proportion to the ratio below the first, even above the last.

    Parameters
    ----------
    ratio : float
        Diameter it is bent over, over the cord's own; positive.
    upper : bool
        Whether to take the upper ends of the ranges instead of the lower.

    Raises
    ------
    ValueError
        For a ratio that is not positive.

    Examples
    --------
    >>> [round(find_bend_share(ratio), 3) for ratio in (0.5, 1, 2, 4, 8, 20)]
    [0.25, 0.5, 0.625, 0.8, 0.95, 0.95]
    >>> round(find_bend_share(2, upper=True), 3)
    0.7
    """
    if not ratio > 0.0:
        raise ValueError(f"D/d = {ratio} must be positive.")
    points = [(0.0, 0.0), *((bend[0], bend[2 if upper else 1]) for bend in BENDS)]
    place = bisect_right(points, (ratio, 1.0))
    if place == len(points):
        return points[-1][1]
    before, after = points[place - 1], points[place]
    return before[1] + (after[1] - before[1]) * (ratio - before[0]) / (after[0] - before[0])


def bend_cord(capacity: Capacity, cord: Cord, over: float) -> Capacity:
    """Return the capacity of one strand of a cord in a bend.

    Parameters
    ----------
    capacity : Capacity
        Of the straight cord.
    cord : Cord
        Of UHMWPE, nylon or polyester; of other fibres no bends were found, and a check has to say so.
    over : float
        Diameter it is bent over, m.

    Returns
    -------
    Capacity
        With the bend as its last step.

    Examples
    --------
    >>> from tautlay.making import find_capacity
    >>> from tautlay.materials import Cord, read_library
    >>> cord = read_library().find(Cord, "12-strand UHMWPE 2 mm")
    >>> bent = bend_cord(find_capacity(cord, "breaking_load", "force", "breaking load"), cord, 0.006)
    >>> round(bent.value / cord.breaking_load, 3), bent.basis
    (0.75, 'memory')
    """
    ratio = over / cord.diameter
    share = find_bend_share(ratio)
    limits = []
    if ratio < BENDS[0][0]:
        limits.append(_SHARP)
    if "UHMWPE" not in cord.kind:
        limits.append(_OTHER)
    judged: Basis = "judgement" if limits else "memory"
    text = make_sentence(
        "bent over {over:length}, D/d {ratio:.2g}, it keeps {share:.0%}", over=over, ratio=ratio, share=share
    )
    spread = None if limits else (share, find_bend_share(ratio, upper=True))
    times = Multiplier(make_sentence("bend over {over:length}, share kept", over=over), "bend", share, spread)
    return capacity.keep(share, text, "; ".join([SOURCE, *limits]), judged, times=times)
