"""The body: its finished edges with their allowances, in panels if it is wider than its cloth."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import ceil, sqrt

import numpy as np

from ..hammock.described import Described
from ..hammock.hammock import Attachment
from ..hammock.outline import Edge, draw_outline
from ..making import FoldSection, cut_fold
from ..making.hem import USUAL_ALLOWANCE
from .edge import PieceEdge, Treatment, draw_straight_edge
from .geometry import clip_line, contains, extend_line
from .panels import WeftPull, cut_panels
from .piece import ClothPiece, DrillMark, GuideKind, GuideLine

BODY = "body"
LEFT, RIGHT, HEAD, FOOT = "left", "right", "head end", "foot end"
_CHORDS = 1.0e-5  # m2, by which chords may enlarge the body at each side
_REACH = 0.3  # m that the fold of a hem is drawn on, up to the cut
_FEWEST, _MOST = 100, 400  # chords of a side


@dataclass(frozen=True)
class ChannelCut:
    """What the channels ask of the body's sides, m: cloth beyond the finished edge, a second fold, inboard end."""

    allowance: float
    fold: float
    inboard: float
    lands: float  # where the outermost turn comes to lie, inboard
    turned: float  # where that turn lies in the flat cloth, beyond the finished edge


def cut_channels(described: Described) -> ChannelCut | None:
    """Return what the channels ask of the sides of the body; None where they are not described.

    Parameters
    ----------
    described : Described
        Hammock and how it is made.
    """
    fold = described.workmanship.fold
    if fold is None:
        return None
    section = cut_fold(fold, described.hammock.body.layers, described.hammock.channel.cord.diameter)
    allowance = section.body_allowance
    twice = fold.strip is None and fold.folds == 2
    turned = fold.width if twice else allowance
    return ChannelCut(allowance, fold.width if twice else 0.0, fold.width, _find_landing(section), max(turned, 0.0))


def _find_landing(section: FoldSection) -> float:
    """Return how far inboard the cloth that lies outermost comes to lie, m; 0 where nothing is turned."""
    turns = next(layer for layer in section.layers if layer.cloth == "body").turns
    return turns[2] if len(turns) > 2 else 0.0


def draw_side(edge: Edge, name: str, channel: ChannelCut | None) -> PieceEdge:
    """Return a long side of the body.

    Parameters
    ----------
    edge : Edge
        Its curve.
    name : str
        ``left`` or ``right``.
    channel : ChannelCut or None
        What is done to it; None is nothing known.
    """
    depth = abs(float(edge.curve.height(np.array(edge.span / 2)) - edge.curve.height(np.array(edge.span)) / 2))
    chords = min(max(ceil(sqrt(4 * depth * edge.span / 3 / _CHORDS)), _FEWEST), _MOST)
    x = np.linspace(0.0, edge.span, chords + 1)
    slope = edge.curve.slope(x)
    points = np.stack([x, edge.place(x)], -1)
    normals = np.stack([-slope, np.full_like(x, float(edge.side))], -1) / np.hypot(1.0, slope)[:, None]
    if edge.side > 0:  # the cloth lies on the left of every edge
        points, normals = points[::-1], normals[::-1]
    given = (0.0, 0.0) if channel is None else (channel.allowance, channel.fold)
    return PieceEdge(name, points, normals, Treatment.CHANNEL, *given)


def draw_edges(described: Described) -> tuple[PieceEdge, ...]:
    """Return the edges of the body: right side, foot end, left side, head end.

    Parameters
    ----------
    described : Described
        Hammock and how it is made.
    """
    body, work = described.hammock.body, described.workmanship
    outline, channel = draw_outline(body), cut_channels(described)
    right, left = draw_side(outline.right, RIGHT, channel), draw_side(outline.left, LEFT, channel)
    ends = []
    head, foot = described.hammock.ends
    for end, name, first, last in ((foot, FOOT, right, left), (head, HEAD, left, right)):
        joined = end.bar.set_in > 0
        straight = draw_straight_edge(
            name, first.points[-1], last.points[0], Treatment.SEAM if joined else Treatment.HEM
        )
        hem = USUAL_ALLOWANCE if work.hem is None else work.hem.allowance
        given = (work.cutting.allowance, 0.0) if joined else (hem, hem / 2)
        ends.append(replace(straight, allowance=given[0], fold=given[1]))
    edges = (right, ends[0], left, ends[1])
    return tuple(replace(edge, allowance=edge.allowance + work.cutting.melted) for edge in edges)


def draft_body(described: Described, pull: WeftPull | None) -> tuple[ClothPiece, ...]:
    """Return the body, or its panels, the largest first, without notches.

    Parameters
    ----------
    described : Described
        Hammock and how it is made.
    pull : callable or None
        See :func:`~tautlay.cutting.panels.cut_panels`.
    """
    body, rules = described.hammock.body, described.workmanship.cutting
    loops = cut_panels(draw_edges(described), body.grain, rules, pull)
    channel = cut_channels(described)
    lines = [line for edges in loops for line in _list_guides(edges, channel)]
    drills = [mark for edges in loops for mark in _mark_locks(described, edges, channel)]
    pieces = []
    for number, edges in enumerate(loops, 1):
        name = BODY if number == 1 else f"{BODY} panel {number}"
        even = len(loops) == 1 and body.is_even
        piece = ClothPiece(name, BODY, edges, body.fabric, body.layers, grain=body.grain, even=even)
        guides = [replace(line, points=run) for line in lines for run in clip_line(line.points, piece.boundary)]
        guides += _draw_middle(edges) if even else []
        marks = tuple(mark for mark in drills if contains(piece.boundary, mark.point[None])[0])
        pieces.append(replace(piece, guides=tuple(guides), drills=marks))
    return tuple(pieces)


def _list_guides(edges: tuple[PieceEdge, ...], channel: ChannelCut | None) -> Iterator[GuideLine]:
    """Yield second folds, and where the channels end inboard."""
    for edge in edges:
        if edge.fold > 0:
            line = edge.shift(edge.fold)
            reaching = extend_line(line, _REACH) if edge.treatment is Treatment.HEM else line
            yield GuideLine(f"{edge.name}, second fold", GuideKind.FOLD, reaching)
        if edge.treatment is Treatment.CHANNEL and channel is not None:
            yield GuideLine(f"{edge.name}, channel ends", GuideKind.PLACE, edge.shift(-channel.inboard))


def _draw_middle(edges: tuple[PieceEdge, ...]) -> Iterator[GuideLine]:
    """Yield the line through the middles of both ends of the cut."""
    _, foot, _, head = edges
    ends = [end.points.mean(axis=0) + end.allowance * end.normals[0] for end in (head, foot)]
    yield GuideLine("middle", GuideKind.MIDDLE, np.array(ends))


def find_anchor_length(described: Described) -> float:
    """Return the length at each corner, m, over which stitching through the cord must hold; 0 is none, or not given."""
    channel, lock = described.hammock.channel, described.workmanship.lock
    if channel.attachment is Attachment.LOCKED:
        return channel.lock_length
    return (lock.corner_length or 0.0) if lock is not None else 0.0


def _mark_locks(described: Described, edges: tuple[PieceEdge, ...], channel: ChannelCut | None) -> Iterator[DrillMark]:
    """Yield where the stitching through the cord at the corners ends, on the line where the channel ends."""
    anchored = find_anchor_length(described)
    if channel is None or anchored <= 0:
        return
    outline = draw_outline(described.hammock.body)
    for edge in edges:
        if edge.treatment is Treatment.CHANNEL:
            length = outline.pick_edge(edge.name).length
            for distance, end in ((anchored, "first"), (length - anchored, "last")):
                if edge.start <= distance <= edge.end:
                    name = f"{edge.name}, stitching through the cord, {end} end"
                    yield DrillMark(name, edge.locate(distance, -channel.inboard))
