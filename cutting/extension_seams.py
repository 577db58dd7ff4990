"""The joins beyond the bars: extension to body, darts, closing triangles, end cap."""

from collections.abc import Callable, Iterator

from ..hammock.extension import ExtensionMake
from ..hammock.hammock import HammockEnd
from ..making import Stitching
from .body import BODY, FOOT, HEAD
from .extension import FAR, ON_BODY, ON_SHEET, SEWN, name_cap, name_sheet, name_triangle
from .join import EdgeLine, Join, Match
from .piece import ClothPiece
from .seams import space_marks

PLAIN_SEAM, DART, LAPPED_SEAM = "plain seam", "dart", "lapped seam"
_BENT = 0.10  # m between marks of a seam of which one edge is bent and the other straight; engineering judgement
Place = Callable[[float], float]


def join_extension(
    pieces: tuple[ClothPiece, ...], end: HammockEnd, stitching: Stitching | None, spacing: float
) -> Iterator[Join]:
    """Yield the joins beyond one bar.

    Parameters
    ----------
    pieces : tuple of ClothPiece
        All of the hammock.
    end : HammockEnd
        One whose bar is set in.
    stitching : Stitching or None
        Rows of all of them.
    spacing : float
        Greatest distance between two marks, m.
    """
    extension, name = end.bar.extension, end.name
    runs_on = extension.made is ExtensionMake.RUNS_ON
    bent = min(spacing, _BENT)
    if runs_on:
        yield from _close_darts(pieces, end, stitching, spacing)
    else:
        stops = (extension.opening, end.width - extension.opening)
        lines = EdgeLine(name_sheet(name), SEWN), EdgeLine(BODY, _name_end(name))
        matches = _match(stops, lambda d: end.width - d, bent)
        yield Join(name_sheet(name), *lines, matches, stitching, PLAIN_SEAM)
    if extension.closed:
        for side in ("right", "left"):
            yield from _close_corner(pieces, end, side, stitching)
    cap = [piece for piece in pieces if piece.name == name_cap(name)]
    if cap:
        length = sum(edge.length for edge in cap[0].edges if edge.name == "lower edge")
        part, far = (BODY, f"{name} {FAR}") if runs_on else (name_sheet(name), FAR)
        place: Place = (lambda d: length - d) if name == "head" else (lambda d: d)
        lines = EdgeLine(name_cap(name), "lower edge"), EdgeLine(part, far)
        yield Join(name_cap(name), *lines, _match((0.0, length), place, bent), stitching, PLAIN_SEAM)


def _name_end(end: str) -> str:
    """Return the name of the body's edge at one end."""
    return HEAD if end == "head" else FOOT


def _match(stops: tuple[float, float], place: Place, spacing: float) -> tuple[Match, ...]:
    """Return matches between two distances along a first edge; ``place`` gives those along the second."""
    first, last = stops
    marks = [first + share * (last - first) for share in space_marks(last - first, spacing)]
    return tuple(Match(mark, place(mark), 0.0) for mark in marks)


def _close_darts(
    pieces: tuple[ClothPiece, ...], end: HammockEnd, stitching: Stitching | None, spacing: float
) -> Iterator[Join]:
    """Yield the darts of an extension that runs on, each from the far edge to its point."""
    lengths = {edge.name: edge.length for piece in pieces for edge in piece.edges if piece.part == BODY}
    for number in range(1, end.bar.extension.darts + 1):
        name = f"{end.name} dart {number}"
        length = lengths[f"{name} a"]
        matches = _match((0.0, length), _measure_from(length), spacing)
        yield Join(name, EdgeLine(BODY, f"{name} a"), EdgeLine(BODY, f"{name} b"), matches, stitching, DART)


def _measure_from(length: float) -> Place:
    """Return how far along a mark stands on an edge that runs the other way, m."""
    return lambda distance: length - distance


def _keep(distance: float) -> float:
    """Return a distance along two edges that run the same way."""
    return distance


def _close_corner(
    pieces: tuple[ClothPiece, ...], end: HammockEnd, side: str, stitching: Stitching | None
) -> Iterator[Join]:
    """Yield both joins of a closing triangle."""
    extension, name = end.bar.extension, end.name
    names = {name_triangle(name, side, even=even) for even in (True, False)}
    (triangle,) = (piece for piece in pieces if piece.name in names)
    slanted = next(edge.length for edge in triangle.edges if edge.name == ON_SHEET)
    turned = (name == "head") == (side == "right")  # the edge of body or extension runs against the triangle's
    own = not turned and not triangle.mirrored  # drawn turned over itself, its edges run the other way
    title = f"{name} {side} triangle"
    on_body: Place = _measure_from(end.width) if turned else _measure_from(extension.opening) if own else _keep
    on_sheet: Place = _measure_from(slanted) if turned or own else _keep
    runs_on = extension.made is ExtensionMake.RUNS_ON
    opening = EdgeLine(BODY, f"{name} {side} opening") if runs_on else EdgeLine(name_sheet(name), f"{side} opening")
    for beside, first, second, length, place in (
        ("body", ON_BODY, EdgeLine(BODY, _name_end(name)), extension.opening, on_body),
        ("extension", ON_SHEET, opening, slanted, on_sheet),
    ):
        matches = _match((0.0, length), place, length / 2)
        lines = EdgeLine(triangle.name, first), second
        yield Join(f"{title} to {beside}", *lines, matches, stitching, LAPPED_SEAM)
