"""Conflicts between the ends of cords and their lengths."""

from collections.abc import Iterator
from typing import NamedTuple

from ...hammock import Attachment, GeometryIssue, Hammock
from ...hammock.outline import draw_outline
from ...making import Workmanship
from ...materials import make_sentence


class _Piece(NamedTuple):
    """A cord or strap: its name, finished length, m, its two ends in ``Rigging``, and the key of its length."""

    name: str
    length: float
    ends: tuple[str, str]
    key: str


def find_end_issues(hammock: Hammock, workmanship: Workmanship) -> Iterator[GeometryIssue]:
    """Yield splices longer than their cord, and anchored lengths that are zero or too long.

    Parameters
    ----------
    hammock : Hammock
        One that can be sewn and hung.
    workmanship : Workmanship
        How its ends are made.

    Yields
    ------
    GeometryIssue
        One for each cord.
    """
    for piece in _list_pieces(hammock):
        endings = [getattr(workmanship.rigging, key) for key in piece.ends]
        buried = sum(ending.bury or 0.0 for ending in endings if ending is not None)
        if buried > piece.length:
            sentence = make_sentence(
                "The {name} is {length:length.4} long, but both buries together take {buried:length.4}. Bury less or "
                "lengthen it.",
                name=piece.name,
                length=piece.length,
                buried=buried,
            )
            given = [key for key, end in zip(piece.ends, endings, strict=True) if end is not None and end.bury]
            yield GeometryIssue(sentence, (*dict.fromkeys(f"ends.{key}.bury" for key in given), piece.key))
    yield from _check_corner_length(hammock, workmanship)


def _list_pieces(hammock: Hammock) -> Iterator[_Piece]:
    """Yield every cord and strap that has two ends."""
    outline, suspension = draw_outline(hammock.body), hammock.suspension
    for side, edge in (("left", outline.left), ("right", outline.right)):
        length = hammock.channel.cord_length or edge.length
        yield _Piece(f"{side} side cord", length, ("side_cord", "side_cord"), "channel.cord_length")
    for name, _, _, leg in hammock.ends:
        yield _Piece(f"{name} leg", leg, ("leg_at_corner", "leg_at_apex"), f"suspension.{name}_leg_length")
        wrap = suspension.trees.wrap(name) if suspension.trees else None
        line = suspension.line_length - (wrap.reach if wrap else 0.0)
        yield _Piece(f"{name} line", line, ("line_at_apex", "line_at_tree"), "suspension.line_length")
    if suspension.trees and suspension.trees.strap:
        yield _Piece("strap", suspension.trees.strap.length, ("strap", "strap"), "trees.strap_length")


def _check_corner_length(hammock: Hammock, workmanship: Workmanship) -> Iterator[GeometryIssue]:
    """Yield an anchored length that is zero, or more than half the edge."""
    lock = workmanship.lock
    if lock is None or lock.corner_length is None or hammock.channel.attachment is not Attachment.SEWN:
        return
    outline = draw_outline(hammock.body)
    length, least = lock.corner_length, lock.stitching.stitch_length
    half = min(outline.left.length, outline.right.length) / 2
    if not least <= length <= half:
        sentence = make_sentence(
            "The anchored length of {length:length} at each corner must be at least one stitch, {least:length}, and at "
            "most half the edge, {half:length}.",
            length=length,
            least=least,
            half=half,
        )
        yield GeometryIssue(sentence, ("channel.lock.corner_length",))
