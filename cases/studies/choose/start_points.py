"""Where searches for sizes begin: sizes from a Latin hypercube, and of each list the heaviest."""

from .point import STEPS, Picks, PointSet, swap_pick


def draw_starts(points: PointSet, count: int, seed: int) -> list[Picks]:
    """Return where searches begin.

    Parameters
    ----------
    points : PointSet
        What is open.
    count, seed : int
        How many, and the number from which they are drawn.
    """
    from scipy.stats import qmc

    choices = points.sweep.choices
    drawn = qmc.LatinHypercube(d=len(choices), rng=seed).random(count)
    starts = []
    for shares in drawn:
        sizes = tuple(
            0 if each.options else round(float(share) * STEPS) for each, share in zip(choices, shares, strict=True)
        )
        starts.append(_take_heaviest(points, sizes))
    return starts


def _take_heaviest(points: PointSet, point: Picks) -> Picks:
    """Return a point with the heaviest value of each list, one after the other; heavy parts are mostly strong."""
    for place in points.listed:
        made = [pick for pick in points.order(point, place) if points.weigh(swap_pick(point, place, pick))]
        point = swap_pick(point, place, made[-1]) if made else point
    return point
