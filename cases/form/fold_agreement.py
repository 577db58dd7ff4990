"""Conflicts in how a channel is folded and sewn."""

from collections.abc import Iterator
from math import pi
from typing import Any

from ...hammock import GeometryIssue, Hammock
from ...hammock.hammock import Attachment
from ...making import Fold, Workmanship, flatten_cord
from ...making.fold import SPACING
from ...materials import make_sentence

_SAME = 0.0005  # m: widths nearer than this are the same to a maker
_STRIP = ("strip", "strip_width", "strip_inset")
_ROUND = 1e-9  # m


def list_fold_disagreements(channel: dict[str, Any]) -> Iterator[tuple[tuple[str, ...], str]]:
    """Yield keys of ``[channel.fold]`` and ``[channel.lock]`` that need or exclude each other.

    Parameters
    ----------
    channel : dict
        ``[channel]`` as read from TOML.

    Yields
    ------
    tuple
        Path of the key in question, and a message.
    """
    fold, lock, held = channel.get("fold"), channel.get("lock"), channel.get("attachment")
    if isinstance(fold, dict):
        if "strip_rows" in fold and "strip" not in fold:
            yield (
                ("channel", "fold", "strip_rows"),
                "has no effect without a strip. Remove it, or add strip.",
            )
        given = [key for key in _STRIP if key in fold]
        lacking = [key for key in _STRIP if key not in fold]
        if given and lacking:
            words = (
                f"is missing. A strip needs strip, strip_width and strip_inset; only {' and '.join(given)} is given."
            )
            yield ("channel", "fold", lacking[0]), words
        if "finished_width" not in fold and not (given and fold.get("folds") == 2):
            words = 'is missing: flat width of the sewn channel. Example: finished_width = "20 mm"'
            yield ("channel", "fold", "finished_width"), words
    if isinstance(lock, dict) and held == Attachment.FREE:
        words = 'conflicts with attachment = "free". Remove the table, or write attachment = "sewn" or "locked".'
        yield ("channel", "lock"), words
    elif isinstance(lock, dict) and held == Attachment.LOCKED and "corner_length" in lock:
        words = "has no effect: a locked channel is anchored over its lock_length. Remove it."
        yield ("channel", "lock", "corner_length"), words


def find_fold_issues(hammock: Hammock, workmanship: Workmanship) -> list[GeometryIssue]:
    """Return one issue for everything that keeps a channel from being folded and sewn.

    Parameters
    ----------
    hammock : Hammock
        Whose cord lies in the channel.
    workmanship : Workmanship
        How it is folded.

    Returns
    -------
    list of GeometryIssue
        All at once; empty for a channel that can be sewn, or is not described.
    """
    fold = workmanship.fold
    if fold is None:
        return []
    widths = [*_check_strip(fold)]
    return widths or [*_check_room(fold, hammock.channel.cord.diameter)]


def _check_strip(fold: Fold) -> Iterator[GeometryIssue]:
    """Yield conflicts between the strip and the finished width."""
    strip, stated = fold.strip, fold.finished_width
    if strip is None:
        return
    if fold.folds == 2 and stated is not None and abs(stated - fold.width) > _SAME:
        sentence = make_sentence(
            "strip_inset = {inset:length} gives a channel {width:length} wide, not {stated:length}. Remove "
            "finished_width or change strip_inset.",
            inset=strip.inset,
            width=fold.width,
            stated=stated,
        )
        yield GeometryIssue(sentence, ("channel.fold.finished_width", "channel.fold.strip_inset"))
    if fold.folds == 1 and fold.width <= strip.inset:
        sentence = make_sentence(
            "strip_inset = {inset:length} leaves no space for the cord in a channel {width:length} wide. Make the "
            "channel wider.",
            inset=strip.inset,
            width=fold.width,
        )
        yield GeometryIssue(sentence, ("channel.fold.finished_width", "channel.fold.strip_inset"))
    if fold.lap < -_ROUND:
        sentence = make_sentence(
            "The strip of {strip:length} is too narrow: to wrap the edge and reach its own seam it must be at least "
            "{need:length} wide.",
            strip=strip.width,
            need=strip.width - fold.lap,
        )
        yield GeometryIssue(sentence, ("channel.fold.strip_width", "channel.fold.strip_inset"))


def _check_room(fold: Fold, diameter: float) -> Iterator[GeometryIssue]:
    """Yield conflicts between cord, rows and channel width."""
    width = ("channel.fold.finished_width", "channel.fold.strip_inset")
    once = fold.strip is not None and fold.folds == 1
    beyond = fold.width - fold.strip.inset if fold.strip is not None and once else fold.width
    pocket = min(beyond, fold.width - (fold.stitching_width or 0.0))
    if pocket < flatten_cord(diameter) - _ROUND:
        sentence = make_sentence(
            "The cord of {cord:length} is too thick for a channel {width:length} wide: it needs a pocket of "
            "{need:length} and gets {pocket:length}, enough for {most:length}. Widen the channel.",
            cord=diameter,
            need=flatten_cord(diameter),
            width=fold.width,
            pocket=max(pocket, 0.0),
            most=max(pocket, 0.0) * 2 / pi,
        )
        yield GeometryIssue(sentence, (*width, "channel.fold.stitching_width", "channel.cord"))
        return
    room = fold.find_room(diameter)
    if once and fold.strip is not None and room > fold.strip.inset + _ROUND:
        sentence = make_sentence(
            "stitching_width = {room:length} is more than the overlap of strip and body, {inset:length}. Reduce it.",
            room=room,
            inset=fold.strip.inset,
        )
        yield GeometryIssue(sentence, ("channel.fold.stitching_width", "channel.fold.strip_inset"))
    if room < fold.seam.rows * SPACING:
        sentence = make_sentence(
            "{rows} rows need a stitching width of {need:length}, {each:length} each, but the channel has "
            "{room:length}. Sew fewer rows or widen it.",
            rows=fold.seam.rows,
            need=fold.seam.rows * SPACING,
            each=SPACING,
            room=max(room, 0.0),
        )
        yield GeometryIssue(sentence, ("channel.fold.rows", "channel.fold.stitching_width", *width))
