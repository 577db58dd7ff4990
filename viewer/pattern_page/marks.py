"""Notches and crosses of a piece in words, for those who mark out with a rule instead of paper."""

from collections.abc import Callable

from markupsafe import Markup

from ...cutting import ClothPiece
from ..report.wording import mark_pair
from .offsets import write_millimetres, write_sixteenths

_SAME = 1e-6  # m
_TOGETHER = "\N{NO-BREAK SPACE}"


def tell_notches(piece: ClothPiece, number: int) -> Markup:
    """Return how far along an edge its notches stand; nothing where it has none.

    Parameters
    ----------
    piece : ClothPiece
        Whose edge it is.
    number : int
        Place of the edge among those of the piece, from 0; it is measured along its finished line from where the one
        before it ends.
    """
    edge = piece.edges[number]
    places = sorted(
        notch.distance - edge.start
        for notch in piece.notches
        if notch.edge == edge.name and edge.start - _SAME <= notch.distance <= edge.end + _SAME
    )
    if not places:
        return Markup()
    before = (number - 1) % len(piece.edges) + 1
    return Markup("notches from the corner with {}: {}").format(
        before, _pair(lambda write: ", ".join(map(write, places)))
    )


def tell_crosses(piece: ClothPiece) -> Markup:
    """Return where crosses stand on the axes of the drawing, along and across; of an even piece those of one half."""
    crosses = sorted((float(x), float(y)) for x, y in (mark.point for mark in piece.drills))
    seen = [(x, y) for x, y in crosses if not piece.even or y > -_SAME]
    if not seen:
        return Markup()
    return _pair(lambda write: "; ".join(f"{write(x)},{_TOGETHER}{write(y)}" for x, y in seen))


def _pair(write_all: Callable[[Callable[[float], str]], str]) -> Markup:
    """Return words in millimetres and in inches, numbers and pairs not broken over two lines."""
    inches = write_all(lambda length: write_sixteenths(length).replace(" ", _TOGETHER))
    return mark_pair(f"{write_all(write_millimetres)}{_TOGETHER}mm", f"{inches}{_TOGETHER}in")
