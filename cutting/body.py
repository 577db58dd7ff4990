"""The body: its finished edges with their allowances, in panels if it is wider than its cloth."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from ..hammock.arrays import FloatArray
from ..hammock.chords import count_chords
from ..hammock.described import Described
from ..hammock.extension import ExtensionMake
from ..hammock.hammock import Attachment, HammockEnd
from ..hammock.outline import Edge, draw_outline
from ..making import FoldSection, cut_fold
from .edge import PieceEdge, Treatment, draw_curved_edge, draw_straight_edge
from .extension import draw_running_on, finish_edges
from .geometry import clip_line, contains, extend_line
from .panels import WeftPull, cut_panels
from .piece import ClothPiece, DrillMark, GuideKind, GuideLine

BODY = "body"
LEFT, RIGHT, HEAD, FOOT = "left", "right", "head end", "foot end"
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
    chords = min(max(count_chords(depth), _FEWEST), _MOST)
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
    right, left = (replace(edge, allowance=edge.allowance + work.cutting.melted) for edge in (right, left))
    head, foot = described.hammock.ends
    foot_end = finish_edges(_draw_end(foot, FOOT, right.points[-1], left.points[0]), work)
    head_end = finish_edges(_draw_end(head, HEAD, left.points[-1], right.points[0]), work)
    return (right, *foot_end, left, *head_end)


def _draw_end(end: HammockEnd, name: str, first: FloatArray, last: FloatArray) -> tuple[PieceEdge, ...]:
    """Return the end of the body between its long sides: hemmed, sewn to an extension, or running on into it."""
    extension = end.bar.extension
    if end.bar.set_in == 0.0:
        return (draw_straight_edge(name, first, last, Treatment.HEM),)
    if extension.made is ExtensionMake.RUNS_ON:
        return draw_running_on(end, first, last, name)
    if not extension.opening:
        return (draw_straight_edge(name, first, last, Treatment.SEAM),)
    stops = [0.0, extension.opening, end.width - extension.opening, end.width]
    points = [first + (last - first) * stop / end.width for stop in stops]
    return tuple(
        draw_curved_edge(name, np.array(points[place : place + 2]), treatment, stops[place])
        for place, treatment in enumerate((Treatment.HEM, Treatment.SEAM, Treatment.HEM))
    )


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
    whole, channel = draw_edges(described), cut_channels(described)
    loops = cut_panels(whole, body.grain, rules, pull)
    lines = list(_list_guides(whole, channel))  # of the body before it is cut apart: no line lies twice on a panel
    drills = [mark for edges in loops for mark in _mark_locks(described, edges, channel)]
    pieces = []
    for number, edges in enumerate(loops, 1):
        name = BODY if number == 1 else f"{BODY} panel {number}"
        even = len(loops) == 1 and body.is_even and not _runs_on(described)
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


def _runs_on(described: Described) -> bool:
    """Return whether an extension is one piece with the body, with darts that no half of it shows."""
    bars = (described.hammock.head_bar, described.hammock.foot_bar)
    return any(bar.set_in > 0 and bar.extension.made is ExtensionMake.RUNS_ON for bar in bars)


def _draw_middle(edges: tuple[PieceEdge, ...]) -> Iterator[GuideLine]:
    """Yield the line through the middles of both ends of the cut."""
    length = next(edge for edge in edges if edge.name == RIGHT).points[-1, 0]
    ends = [
        [sign * edge.allowance + place, 0.0]
        for name, sign, place in ((HEAD, -1.0, 0.0), (FOOT, 1.0, length))
        for edge in edges
        if edge.name == name and _holds_middle(edge)
    ]
    yield GuideLine("middle", GuideKind.MIDDLE, np.array(ends))


def _holds_middle(edge: PieceEdge) -> bool:
    """Return whether an edge crosses the middle line."""
    return bool(edge.points[0, 1] * edge.points[-1, 1] < 0)


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
