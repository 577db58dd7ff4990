"""The cloth beyond a bar that is set in: extension, closing triangles, end cap, as pieces or as part of the body."""

from collections.abc import Iterator
from dataclasses import replace
from math import cos, sin

import numpy as np

from ..hammock.arrays import FloatArray
from ..hammock.cap import draw_cap
from ..hammock.cone import Cone, draw_cut_cone
from ..hammock.described import Described
from ..hammock.extension import CapShape, Extension, ExtensionMake
from ..hammock.extension_areas import OpenCorner, cut_corner, measure_triangle
from ..hammock.facet import list_facets
from ..hammock.hammock import HammockEnd
from ..making import Workmanship
from ..making.hem import USUAL_ALLOWANCE
from .edge import PieceEdge, Treatment, draw_curved_edge
from .geometry import clip_line
from .piece import ClothPiece, GuideKind, GuideLine

SEWN, FAR, TOP = "sewn edge", "far edge", "top edge"
ON_BODY, ON_SHEET, ON_LEG = "side on the body", "side on the extension", "side on the leg"


def name_sheet(end: str) -> str:
    """Return the name of an extension that is sewn on."""
    return f"{end} extension"


def name_triangle(end: str, side: str, *, even: bool) -> str:
    """Return the name of a closing triangle: mirrored for the other side, or one of two unlike ones."""
    return f"{end} closing triangle" if even else f"{end} {side} closing triangle"


def name_cap(end: str) -> str:
    """Return the name of an end cap."""
    return f"{end} end cap"


def draft_extensions(described: Described) -> tuple[ClothPiece, ...]:
    """Return all pieces beyond the bars, without notches.

    Parameters
    ----------
    described : Described
        Hammock and how it is made.
    """
    return tuple(
        piece for end in described.hammock.ends if end.bar.set_in > 0 for piece in _draft_pieces(described, end)
    )


def _draft_pieces(described: Described, end: HammockEnd) -> Iterator[ClothPiece]:
    """Yield the pieces beyond one bar."""
    body, cone, extension = described.hammock.body, draw_cut_cone(end), end.bar.extension
    if extension.made is ExtensionMake.SEWN_ON:
        edges = finish_edges(_draw_sheet(end, cone), described.workmanship)
        name = name_sheet(end.name)
        yield _add_guides(ClothPiece(name, name, edges, body.fabric, body.layers, grain=body.grain, even=body.is_even))
    if extension.closed:
        yield from _draft_triangles(described, end, cone)
    cap = draw_cap(extension.cap, cone.scale * end.bar.length, cone.scale * cone.width)
    if cap is not None:
        name, edges = name_cap(end.name), finish_edges(_draw_cap_edges(cap), described.workmanship)
        yield _add_guides(ClothPiece(name, name, edges, body.fabric, body.layers, even=True))


def _draft_triangles(described: Described, end: HammockEnd, cone: Cone) -> Iterator[ClothPiece]:
    """Yield the closing triangles: of an even body one and its mirror image, else the right and the left one."""
    body, plain = described.hammock.body, "right" if end.name == "head" else "left"
    for side in (plain,) if body.is_even else ("right", "left"):
        ring = _draw_triangle(cone, end.bar.extension, -1 if side == "right" else 1, turned=side != plain)
        edges, name = finish_edges(ring, described.workmanship), name_triangle(end.name, side, even=body.is_even)
        mirrored = body.layers if body.is_even else 0
        yield _add_guides(ClothPiece(name, name, edges, body.fabric, body.layers, mirrored))


def _draw_sheet(end: HammockEnd, cone: Cone) -> tuple[PieceEdge, ...]:
    """Return the edges of an extension that is sewn on, without allowances; x towards the foot, zero at the bar."""
    extension = end.bar.extension
    start, stop = extension.opening, cone.width - extension.opening
    sewn = cone.trace_sewn(start, stop)
    right, left = (cut_corner(cone, extension, side) for side in (-1, 1))
    far = cone.scale * cone.sewn
    ring = [
        ("right side", np.array([far[0], right.leg_end]), Treatment.LEG, 0.0),
        *_draw_opening("right opening", right, extension, turned=False),
        (SEWN, sewn, Treatment.SEAM, start),
        *_draw_opening("left opening", left, extension, turned=True),
        ("left side", np.array([left.leg_end, far[-1]]), Treatment.LEG, 0.0),
        (FAR, far[::-1], _treat_far(extension), 0.0),
    ]
    middle = np.array([np.interp(cone.width / 2, cone.along, cone.distance), 0.0])
    if end.name == "head":
        return tuple(draw_curved_edge(n, points - middle, t, at) for n, points, t, at in ring)
    turned = [(n, ((points - middle) * [-1.0, 1.0])[::-1], t, at) for n, points, t, at in reversed(ring)]
    return tuple(draw_curved_edge(*each) for each in turned)


def _draw_opening(
    name: str, corner: OpenCorner, extension: Extension, *, turned: bool
) -> Iterator[tuple[str, FloatArray, Treatment, float]]:
    """Yield the edge at an open corner, if there is one, from the leg to the seam or the other way."""
    if extension.opening:
        line = np.array([corner.leg_end, corner.seam_end])
        yield name, line[::-1] if turned else line, Treatment.HEM, 0.0


def _treat_far(extension: Extension) -> Treatment:
    """Return what is done to the far edge."""
    return Treatment.ROLLED if extension.cap is CapShape.NONE else Treatment.SEAM


def _draw_triangle(cone: Cone, extension: Extension, side: int, *, turned: bool) -> tuple[PieceEdge, ...]:
    """Return the edges of a closing triangle, its corner at zero.

    It lies as the right one at the head and the left one at the foot, or ``turned`` over as the others.
    """
    on_body, on_sheet, on_leg = measure_triangle(cone, extension, side)
    turn = float(np.arccos((on_body**2 + on_leg**2 - on_sheet**2) / (2 * on_body * on_leg)))
    corner, seam_end = np.zeros(2), np.array([on_body, 0.0])
    leg_end = on_leg * np.array([cos(turn), sin(turn)])
    ring = (
        (ON_BODY, corner, seam_end, Treatment.SEAM),
        (ON_SHEET, seam_end, leg_end, Treatment.SEAM),
        (ON_LEG, leg_end, corner, Treatment.LEG),
    )
    edges = [(name, np.array([a, b]), treatment, 0.0) for name, a, b, treatment in ring]
    if turned:
        edges = [(name, line[::-1] * [1.0, -1.0], treatment, start) for name, line, treatment, start in edges[::-1]]
    return tuple(draw_curved_edge(*each) for each in edges)


def _draw_cap_edges(lower: FloatArray) -> tuple[PieceEdge, ...]:
    """Return the edges of a cap; a lower edge with a corner in the middle is two edges."""
    top = draw_curved_edge(TOP, lower[[-1, 0]], Treatment.HEM, 0.0)
    if len(lower) > 3:
        return top, draw_curved_edge("lower edge", lower, Treatment.SEAM, 0.0)
    right = draw_curved_edge("lower edge", lower[:2], Treatment.SEAM, 0.0)
    return top, right, draw_curved_edge("lower edge", lower[1:], Treatment.SEAM, right.length)


def draw_running_on(end: HammockEnd, first: FloatArray, last: FloatArray, name: str) -> tuple[PieceEdge, ...]:
    """Return the end of a body whose extension runs on, without allowances.

    Parameters
    ----------
    end : HammockEnd
        Which end.
    first, last : (2,)
        Where the long sides meet it, m, the cloth on the left.
    name : str
        Of the end.
    """
    cone, extension = draw_cut_cone(end), end.bar.extension
    along = (last - first) / np.hypot(*(last - first))
    away = np.array([along[1], -along[0]])
    facets = list_facets(cone, extension.darts)
    if end.name == "head":  # the body's end runs from left to right, facets from right to left
        turned = [(facet.far[::-1] * [-1.0, 1.0] + [cone.width, 0.0]) for facet in reversed(facets)]
        places = [cone.width - facet.base[0] for facet in reversed(facets)][:-1]
        sides = ("left", "right")
        angles = facets[-1].last, facets[0].first
    else:
        turned, places = [facet.far for facet in facets], [facet.base[1] for facet in facets][:-1]
        sides, angles = ("right", "left"), (facets[0].first, facets[-1].last)
    ring: list[tuple[str, FloatArray, Treatment, float]] = []
    room, gap = extension.corner_room, extension.opening
    starts = np.array([[room * cos(angles[0]), room * sin(angles[0])], [gap, 0.0]])
    if gap:
        ring.append((name, np.array([[0.0, 0.0], [gap, 0.0]]), Treatment.ROLLED, 0.0))
        ring.append((f"{end.name} {sides[0]} opening", starts[::-1], Treatment.RAW, 0.0))
    ring.append((f"{end.name} {sides[0]} side", np.array([starts[0], turned[0][0]]), Treatment.LEG, 0.0))
    reached = 0.0
    for number, line in enumerate(turned):
        if number:
            point = np.array([places[number - 1], 0.0])
            dart = f"{end.name} dart {number}"
            ring.append((f"{dart} a", np.array([turned[number - 1][-1], point]), Treatment.SEAM, 0.0))
            ring.append((f"{dart} b", np.array([point, line[0]]), Treatment.SEAM, 0.0))
        ring.append((f"{end.name} {FAR}", line, _treat_far(extension), reached))
        reached += float(np.hypot(*np.diff(line, axis=0).T).sum())
    back = np.array([cone.width - room * cos(angles[1]), room * sin(angles[1])])
    ring.append((f"{end.name} {sides[1]} side", np.array([turned[-1][-1], back]), Treatment.LEG, 0.0))
    if gap:
        seam_end = np.array([cone.width - gap, 0.0])
        ring.append((f"{end.name} {sides[1]} opening", np.array([back, seam_end]), Treatment.RAW, 0.0))
        ring.append((name, np.array([seam_end, [cone.width, 0.0]]), Treatment.ROLLED, cone.width - gap))
    return tuple(
        draw_curved_edge(each, first + points[:, :1] * along + points[:, 1:] * away, treatment, start)
        for each, points, treatment, start in ring
    )


def finish_edges(edges: tuple[PieceEdge, ...], work: Workmanship) -> tuple[PieceEdge, ...]:
    """Return edges with the allowances of what is done to them.

    Parameters
    ----------
    edges : tuple of PieceEdge
        None of them a channel.
    work : Workmanship
        How it is made.
    """
    hem = USUAL_ALLOWANCE if work.hem is None else work.hem.allowance
    seam = work.cutting.allowance
    given = {
        Treatment.HEM: (hem, hem / 2),
        Treatment.LEG: (hem, hem / 2),
        Treatment.ROLLED: (seam, seam / 2),
        Treatment.SEAM: (seam, 0.0),
        Treatment.RAW: (0.0, 0.0),
    }
    return tuple(
        replace(edge, allowance=given[edge.treatment][0] + work.cutting.melted, fold=given[edge.treatment][1])
        for edge in edges
    )


def _add_guides(piece: ClothPiece) -> ClothPiece:
    """Return a piece with its second folds, and its middle line where half of it is enough."""
    folds = [
        GuideLine(f"{edge.name}, second fold", GuideKind.FOLD, run)
        for edge in piece.edges
        if edge.fold > 0
        for run in clip_line(edge.shift(edge.fold), piece.boundary)
    ]
    ends = np.array([[piece.boundary[:, 0].min(), 0.0], [piece.boundary[:, 0].max(), 0.0]])
    middle = (
        [GuideLine("middle", GuideKind.MIDDLE, run[[0, -1]]) for run in clip_line(ends, piece.boundary)]
        if piece.even
        else []
    )
    return replace(piece, guides=(*folds, *middle))
