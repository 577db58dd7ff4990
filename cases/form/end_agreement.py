"""Conflicts between the ends of cords and their lengths."""

from collections.abc import Iterator
from typing import NamedTuple

from ...hammock import Attachment, GeometryIssue, Hammock
from ...hammock.outline import draw_outline
from ...making import Workmanship
from ...materials import make_sentence


class _Piece(NamedTuple):
    """A cord or strap: its name, finished length, m, its two ends, head or foot and field of ``Rigging``, its key."""

    name: str
    length: float
    ends: tuple[tuple[str, str], tuple[str, str]]
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
        endings = [getattr(workmanship.pick_rigging(end), key) for end, key in piece.ends]
        buried = sum(ending.bury or 0.0 for ending in endings if ending is not None)
        if buried > piece.length:
            sentence = make_sentence(
                "The {name} is {length:length.4} long, but both buries together take {buried:length.4}. Bury less or "
                "lengthen it.",
                name=piece.name,
                length=piece.length,
                buried=buried,
            )
            given = [place for place, made in zip(piece.ends, endings, strict=True) if made is not None and made.bury]
            yield GeometryIssue(sentence, (*dict.fromkeys(f"{end}_ends.{key}.bury" for end, key in given), piece.key))
    yield from _check_corner_length(hammock, workmanship)


def _list_pieces(hammock: Hammock) -> Iterator[_Piece]:
    """Yield every cord and strap that has two ends; of straps that are alike one."""
    outline = draw_outline(hammock.body)
    for side, edge in (("left", outline.left), ("right", outline.right)):
        length = hammock.channel.cord_length or edge.length
        ends = (("head", "side_cord"), ("foot", "side_cord"))
        yield _Piece(f"{side} side cord", length, ends, "channel.cord_length")
    for name, _, _, hung in hammock.ends:
        legs = ((name, "leg_at_corner"), (name, "leg_at_apex"))
        yield _Piece(f"{name} leg", hung.leg_length, legs, f"suspension.{name}.leg_length")
        line = hung.line_length - (hung.wrap.reach if hung.wrap else 0.0)
        lines = ((name, "line_at_apex"), (name, "line_at_tree"))
        yield _Piece(f"{name} line", line, lines, f"suspension.{name}.line_length")
    straps = {hung.strap: name for name, _, _, hung in reversed(hammock.ends) if hung.strap}
    for strap, name in reversed(straps.items()):
        noun = "strap" if len(straps) == 1 else f"{name} strap"
        yield _Piece(noun, strap.length, ((name, "strap"), (name, "strap")), f"suspension.{name}.tree.strap.length")
        if strap.slings is not None:  # the cord has to hold both buries however short it is set
            ends = ((name, "sling_at_strap"), (name, "sling_at_joint"))
            yield _Piece(f"{name} sling", strap.slings.longest, ends, f"suspension.{name}.tree.strap.slings.longest")


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
