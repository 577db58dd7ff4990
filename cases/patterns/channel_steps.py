"""How strips, channels and side cords are sewn."""

from ...cutting import Draft, Join
from ...cutting.seams import STRIP_SEAM
from ...cutting.strip import BEYOND
from ...hammock.described import Described
from ...hammock.hammock import Attachment
from ...hammock.outline import draw_outline
from ...making import Fold
from ...materials import make_sentence
from .pattern_check import find_growth
from .sewing_step import SewingStep, describe_rows

_PULL = 50.0  # N under which a cord is measured; engineering judgement, no source
_FOLDS = {  # by how often, and whether there is a strip
    (1, False): "Fold the edge over once along the finished line; the channel is {width:length} wide.",
    (2, False): (
        "Fold the raw edge in along the fold line, then along the finished line; the channel is {width:length} wide."
    ),
    (1, True): "Wrap the strip round the cord to the upper side of the body; the channel is {width:length} wide.",
    (2, True): (
        "Wrap the strip round the raw edge of the body to its upper side, then fold strip and body in half along the "
        "finished line; the channel is {width:length} wide."
    ),
}


def sew_strips(fold: Fold, draft: Draft) -> SewingStep:
    """Return how the strips are sewn under the body.

    Parameters
    ----------
    fold : Fold
        How the channels are made, with a strip.
    draft : Draft
        Pieces and joins.
    """
    joins = [join for join in draft.joins if join.seam == STRIP_SEAM]
    assert fold.strip is not None
    sentences: list[str] = [
        make_sentence(
            "Turn the {beyond:length} at both ends of each strip in. Lay it under the body, its sewn edge along the "
            "dotted line, {inset:length} from the raw edge.",
            beyond=BEYOND,
            inset=fold.strip.inset,
        )
    ]
    sentences += [_tell_join(join, draft) for join in joins]
    sentences.append(describe_rows(joins[0].stitching, "strip_rows to [channel.fold]"))
    return SewingStep(
        "Sew the strips under the body",
        tuple(sentences),
        "Body and strip must lie flat on each other between every two notches.",
    )


def _tell_join(join: Join, draft: Draft) -> str:
    """Return which marks meet, and which edge is held back."""
    first, second = join.measure(draft.pieces)
    return make_sentence(
        "{name}: match marks 0 to {last} from the head. {first:length.4} meet {second:length.4}: stretch the shorter "
        "by {ease:length}, evenly.",
        name=join.name.capitalize(),
        last=len(join.matches) - 1,
        first=first,
        second=second,
        ease=abs(join.ease),
    )


def close_channels(fold: Fold, draft: Draft) -> SewingStep:
    """Return how the channels are turned and closed.

    Parameters
    ----------
    fold : Fold
        How they are made.
    draft : Draft
        Pieces and joins.
    """
    turned = [
        make_sentence(
            "{name}: the curved edge must grow by {ease:length}, {share:.1f} % where it is bent most. Sew from mark to "
            "mark and stretch evenly.",
            name=join.name.capitalize(),
            ease=abs(join.ease),
            share=100 * find_growth(draft, join),
        )
        for join in draft.joins
        if join.is_turned
    ]
    sentences = [
        _tell_fold(fold),
        *turned,
        describe_rows(fold.seam, "[channel.fold]"),
        "Leave both ends open for the cord. Tuck in the ear that stands beyond a hemmed end.",
    ]
    return SewingStep(
        "Turn and close the channels",
        tuple(sentences),
        "Pull a bodkin with the cord through before the last row: it must not catch.",
    )


def _tell_fold(fold: Fold) -> str:
    """Return how the channel is folded."""
    return make_sentence(_FOLDS[fold.folds, fold.strip is not None], width=fold.width)


def thread_cords(described: Described) -> SewingStep:
    """Return how the side cords are made and held.

    Parameters
    ----------
    described : Described
        Hammock and how it is made.
    """
    channel, work = described.hammock.channel, described.workmanship
    outline = draw_outline(described.hammock.body)
    sentences: list[str] = []
    for side in ("left", "right"):
        length = channel.cord_length or outline.pick_edge(side).length
        sentences.append(
            make_sentence(
                "The {side} side cord is {length:length.4} from eye to eye when it is finished.",
                side=side,
                length=length,
            )
        )
    sentences.append(
        make_sentence(
            "Make one end, pull hard, thread the cord, then mark the other end at that length under about {pull:force} "
            "and make it. A splice shortens its cord by what nobody can tell beforehand: never trust the cut length.",
            pull=_PULL,
        )
    )
    sentences.append(_tell_hold(described))
    if channel.attachment is not Attachment.FREE and work.lock is not None:
        sentences.append(describe_rows(work.lock.stitching, "[channel.lock]"))
    return SewingStep(
        "Thread the side cords",
        tuple(sentences),
        "Measure both cords from eye to eye, pulled alike: they may differ by 3 mm (1/8 in) at most.",
    )


def _tell_hold(described: Described) -> str:
    """Return how the cords are held in their channels."""
    channel = described.hammock.channel
    if channel.attachment is Attachment.SEWN:
        lock = described.workmanship.lock
        if lock is None or lock.corner_length is None:
            return "Pull the cloth smooth along the cord and sew through the cord along the whole channel."
        return make_sentence(
            "Pull the cloth smooth along the cord and sew through the cord along the whole channel. Of each row the "
            "first {length:length} from a corner take the difference between leg and side cord (corner_length): begin "
            "at the very corner, and leave no stitch out there.",
            length=lock.corner_length,
        )
    if channel.attachment is Attachment.LOCKED:
        return make_sentence(
            "Pull the cloth smooth along the cord and sew through the cord over {length:length} from each corner, to "
            "the crosses.",
            length=channel.lock_length,
        )
    return "The cord slides in its channel; its eyes hold the corners."
