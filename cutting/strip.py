"""The strips that become part of the channels: straight, along the warp."""

import itertools

import numpy as np

from ..hammock.outline import Outline
from ..making import Fold, FoldSection, Strip
from .body import LEFT, RIGHT
from .edge import Treatment, draw_straight_edge
from .piece import ClothPiece, GuideKind, GuideLine

BEYOND = 0.03  # m at each end, turned in with the hem; engineering judgement, no source
SEWN = "sewn edge"  # the edge that is sewn under the body
PAIR = "channel strip"


def measure_strip(length: float, turning: float, width: float) -> float:
    r"""Return the length of a strip between the corners, m: that of the middle of its channel, :math:`L + w\theta/2`.

    A straight strip then is a little long at the finished edge, and a little short where the channel ends.

    Parameters
    ----------
    length : float
        Of the finished edge L, m.
    turning : float
        Angle by which the edge turns, rad.
    width : float
        Of the channel w, m.

    Examples
    --------
    >>> round(measure_strip(2.128598, 0.5564, 0.019), 4)  # 2.1 m long, 15 cm deep
    2.1339
    """
    return length + abs(turning) * width / 2


def name_strip(side: str, *, even: bool) -> str:
    """Return the name of the strip of a side; both sides of an even body share one."""
    return PAIR if even else f"{side} {PAIR}"


def draft_strips(
    outline: Outline, turnings: dict[str, float], fold: Fold, section: FoldSection
) -> tuple[ClothPiece, ...]:
    """Return the strips without notches.

    Parameters
    ----------
    outline : Outline
        Of the body.
    turnings : dict of str to float
        Angle by which each side turns, rad.
    fold : Fold
        How the channels are made, with a strip.
    section : FoldSection
        The same cut across.

    Returns
    -------
    tuple of ClothPiece
        One that is cut twice, once turned over, where both sides are alike.
    """
    assert fold.strip is not None
    even = outline.left.curve == outline.right.curve
    found = []
    for side in (RIGHT,) if even else (LEFT, RIGHT):
        length = measure_strip(outline.pick_edge(side).length, turnings[side], fold.width)
        found.append(_draw_strip(name_strip(side, even=even), length, fold.strip, section, mirrored=int(even)))
    return tuple(found)


def _draw_strip(name: str, length: float, strip: Strip, section: FoldSection, *, mirrored: int) -> ClothPiece:
    """Return a strip from head to foot, its sewn edge along the x axis, the corner of the body at 0."""
    low, high = np.array([-BEYOND, 0.0]), np.array([length + BEYOND, strip.width])
    corners = [low, np.array([high[0], 0.0]), high, np.array([low[0], high[1]]), low]
    names = (SEWN, "foot end", "turned edge", "head end")
    edges = tuple(
        draw_straight_edge(edge, first, last, Treatment.RAW)
        for edge, (first, last) in zip(names, itertools.pairwise(corners), strict=True)
    )
    turns = next(layer for layer in section.layers if layer.cloth == "strip").turns
    folds = np.cumsum(np.abs(np.diff(turns)))[:-1]
    guides = tuple(
        GuideLine(f"fold {number}", GuideKind.FOLD, np.array([[low[0], place], [high[0], place]]))
        for number, place in enumerate(folds, 1)
    )
    return ClothPiece(name, name, edges, strip.fabric, 1, mirrored, guides=guides)
