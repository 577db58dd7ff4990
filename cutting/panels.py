"""A body that is wider than its cloth, cut in panels along the warp and seamed where the pull is least.

A seam along the warp carries what the weft pulls. Without a solved shape the weft is taken to pull the same all over
(it hardly changes across the body, so that a seam bears the same wherever it lies): then the seam with the least
cloth beside it is best, which lies toward the edge, beside the person, and only crosses the wide corners.
"""

from collections.abc import Callable
from dataclasses import replace
from math import ceil, cos, sin

import numpy as np

from ..hammock.arrays import FloatArray
from ..hammock.polygon import measure_area
from ..making import CuttingRules
from .boundary import trace_boundary
from .edge import Treatment
from .split import Loop, split_edges

WeftPull = Callable[[FloatArray], FloatArray]  # points (n, 2) of the flat cloth, m -> what the weft pulls there, N/m
FELLED = (0.007, 0.015)  # m, of the layer inside and of that round it; sewing tutorials, secondary source
FROM_CORNER = 0.10  # m; engineering judgement, no source: at the corners the cloth is pulled most
PANEL_SEAM = "seam"
_STEP = 0.01  # m between the places that are tried
_ALONG = 0.02  # m between points of a seam


def cut_panels(edges: Loop, grain: float, rules: CuttingRules, pull: WeftPull | None) -> list[Loop]:
    """Return the body as it is, or cut into panels that fit the cloth, the largest first.

    Parameters
    ----------
    edges : tuple of PieceEdge
        Of the whole body.
    grain : float
        Angle from the x axis to the warp, rad.
    rules : CuttingRules
        Width of the cloth.
    pull : callable or None
        What the weft pulls at points of the flat cloth, N/m; None is not solved.

    Returns
    -------
    list of tuple of PieceEdge
        Panels with their seam allowances.
    """
    across = np.array([-sin(grain), cos(grain)])
    reach = np.concatenate(trace_boundary(edges)) @ across
    low, high = float(reach.min()), float(reach.max())
    if high - low <= rules.cloth_width + 1e-9:
        return [edges]
    places = _choose_places(edges, across, (low, high), rules, pull)
    done: list[Loop] = []
    rest = [edges]
    for number, place in enumerate(places, 1):
        halves = [split_edges(loop, across, place, f"{PANEL_SEAM} {number}") for loop in rest]
        done += [loop for below, _ in halves for loop in below]
        rest = [loop for _, above in halves for loop in above]
    loops = [_allow(loop, rules.melted) for loop in [*done, *rest]]
    return sorted(loops, key=lambda loop: -measure_area(np.concatenate([edge.points[:-1] for edge in loop])))


def measure_room(channel: float, rules: CuttingRules) -> tuple[float, float]:
    """Return what of the cloth lies beyond the seam on either side of it, m.

    Parameters
    ----------
    channel : float
        Allowance of the long sides, m, which stand out beside a seam where it meets them.
    rules : CuttingRules
        How it is cut.
    """
    inner, outer = (max(felled + rules.melted, channel) for felled in FELLED)
    return inner, outer


def _choose_places(
    edges: Loop, across: FloatArray, reach: tuple[float, float], rules: CuttingRules, pull: WeftPull | None
) -> list[float]:
    """Return where the seams lie across the warp, m: those that carry least, away from corners where that can be."""
    low, high = reach
    room = measure_room(max(edge.allowance for edge in edges if edge.treatment is Treatment.CHANNEL), rules)
    each = rules.cloth_width - sum(room)  # finished width of a panel between two seams
    first, last = rules.cloth_width - room[0], rules.cloth_width - room[1]
    count = 1 + max(ceil((high - low - first - last) / each), 0)
    shortest = high - last - (count - 1) * each
    starts = np.append(np.arange(max(shortest, low + FROM_CORNER), low + first, _STEP), low + first)
    corners = np.array([edge.points[0] @ across for edge in edges])
    tried = [[start + each * number for number in range(count)] for start in starts]
    clear = [each for each in tried if all(np.abs(corners - place).min() >= FROM_CORNER for place in each)]
    middle = (low + high) / 2

    def rate(places: list[float]) -> tuple[float, float]:
        load = sum(_measure_load(edges, across, place, pull) for place in places)
        return round(load, 6), -sum(abs(place - middle) for place in places)

    return min(clear or tried, key=rate)


def _measure_load(edges: Loop, across: FloatArray, place: float, pull: WeftPull | None) -> float:
    """Return what a seam carries in all, N; with no pull known its length, m."""
    along = np.array([across[1], -across[0]])
    ring = np.concatenate([edge.points[:-1] for edge in edges])
    height, reach = ring @ across - place, ring @ along
    after, next_reach = np.roll(height, -1), np.roll(reach, -1)
    crossed = np.flatnonzero((height < 0) != (after < 0))
    share = height[crossed] / (height[crossed] - after[crossed])
    stops = np.sort(reach[crossed] + share * (next_reach - reach)[crossed])
    total = 0.0
    for start, end in zip(stops[::2], stops[1::2], strict=True):
        count = ceil((end - start) / _ALONG) + 1
        places = start + (np.arange(count) + 0.5) / count * (end - start)
        points = place * across + places[:, None] * along
        total += float(end - start) * (1.0 if pull is None else float(np.mean(pull(points))))
    return total


def _allow(loop: Loop, melted: float) -> Loop:
    """Return a panel with its seam allowances: one side goes round the other."""
    wide = {"a": FELLED[0] + melted, "b": FELLED[1] + melted}
    return tuple(
        replace(edge, allowance=wide[edge.name[-1]])
        if edge.treatment is Treatment.SEAM and edge.name.startswith(PANEL_SEAM)
        else edge
        for edge in loop
    )
