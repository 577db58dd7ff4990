"""Where searches for sizes begin: sizes from a Latin hypercube, and of each list the heaviest."""

from ...design_issue import DesignError, DesignIssue
from ..sweep.sweep import Sweep
from ..sweep.variant import Variant
from .point import STEPS, Picks, PointSet, swap_pick

_DRAWS = 20  # times as many as are asked, of which some cannot be made


def draw_starts(points: PointSet, count: int, seed: int) -> list[Picks]:
    """Return where searches begin: designs that can be made.

    Parameters
    ----------
    points : PointSet
        What is open.
    count, seed : int
        How many, and the number from which they are drawn.

    Raises
    ------
    DesignError
        If hardly any of the sizes between the ends can be made.
    """
    from scipy.stats import qmc

    choices, starts = points.sweep.choices, list[Picks]()
    sampler = qmc.LatinHypercube(d=len(choices), rng=seed)
    refused: Picks = ()
    for shares in (each for _ in range(_DRAWS) for each in sampler.random(count)):
        sizes = (
            0 if each.options else round(float(share) * STEPS) for each, share in zip(choices, shares, strict=True)
        )
        point = _take_heaviest(points, tuple(sizes))
        if points.weigh(point) is not None:
            starts.append(point)
        else:
            refused = point
        if len(starts) == count:
            return starts
    raise DesignError([_write_fault(points.sweep, points.make_variant(refused), len(starts), _DRAWS * count)])


def _write_fault(sweep: Sweep, refused: Variant, made: int, drawn: int) -> DesignIssue:
    """Return that too few designs can be made, and why one of them cannot."""
    try:
        sweep.make_design(refused)
    except (DesignError, ValueError) as error:
        reason = str(error)
    words = (
        f"of {drawn} designs drawn between the ends of the sizes only {made} can be made. One of the others: {reason}"
    )
    return DesignIssue(str(sweep.path), f"{words} Move `from` and `to`.")


def _take_heaviest(points: PointSet, point: Picks) -> Picks:
    """Return a point with the heaviest value of each list, one after the other; heavy parts are mostly strong."""
    for place in points.listed:
        made = [pick for pick in points.order(point, place) if points.weigh(swap_pick(point, place, pick))]
        point = swap_pick(point, place, made[-1]) if made else point
    return point
