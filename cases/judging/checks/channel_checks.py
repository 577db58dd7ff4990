"""Side channels: seams, cloth at the seam and under the cord, stitching through the cord."""

from collections.abc import Callable, Iterator
from functools import partial

import numpy as np

from ....hammock import Attachment
from ....hammock.arrays import FloatArray
from ....making import (
    Capacity,
    Fold,
    Lock,
    SewnChannel,
    cut_fold,
    find_fold_cloth,
    find_lock_force,
    find_lock_strength,
    find_seam_cloth,
    find_seam_strength,
    is_usual,
)
from ....materials import Sentence
from ..cloth.channel_load import Pull, find_channel_load, trace_edge
from ..cloth.cord_anchoring import list_jumps
from ..cloth.place import describe_place
from .case import Case
from .check import Check, Unchecked

Pulls = dict[str, Pull]
SIDES = ("left", "right")


def check_channels(case: Case) -> Iterator[Check | Unchecked]:
    """Yield the checks of seam, cloth and stitching through the cord for every channel and corner.

    Loads are averages over 25 mm of cut edge, the width of a strip test. The stitches have to take the whole load,
    though part of it runs past them in the body's own cloth.

    Parameters
    ----------
    case : Case
        What was solved.

    Yields
    ------
    Check
        N/m of channels, N of corners.
    Unchecked
        Where the design does not state how channel or corner are sewn.
    """
    fold, lock = case.workmanship.fold, case.workmanship.lock
    pulls = {side: find_channel_load(case.model, case.state, side).average() for side in SIDES if fold or lock}
    if fold is None:
        yield Unchecked("channels", "the design does not state how they are folded and sewn. Add [channel.fold].")
    else:
        yield from _check_fold(case, fold, pulls)
    if case.hammock.channel.attachment is Attachment.FREE:
        yield Unchecked("corners", "the cord slides, and the design cannot state what keeps the cloth on it.")
    elif lock is None:
        yield Unchecked("corners", "the design does not state how the cord is sewn to the cloth. Add [channel.lock].")
    else:
        yield from _check_lock(case, lock, pulls)


def _check_fold(case: Case, fold: Fold, pulls: Pulls) -> Iterator[Check | Unchecked]:
    """Yield the checks of the sewn fold on either side."""
    body, work = case.hammock.body, case.workmanship
    sewn = SewnChannel(fold, cut_fold(fold, body.layers, case.hammock.channel.cord.diameter), body.fabric, body.layers)
    stitches = find_seam_strength(fold.seam, work.reductions)
    at_seam = partial(find_seam_cloth, sewn, reductions=work.reductions)
    under_cord = partial(find_fold_cloth, sewn, reductions=work.reductions)
    for side, pull in pulls.items():
        part, worst = f"{side} channel", int(np.argmax(pull.whole))
        place = _name_middle(case, side, float(pull.middle[worst]))
        yield Check(part, "seam opens", float(pull.whole[worst]), stitches, work.factors["seam"], place)
        yield _check_cloth(case, side, pull, "cord cuts the fold", under_cord)
        if is_usual(sewn):
            yield _check_cloth(case, side, pull, "cloth tears at seam", at_seam)
    if not is_usual(sewn):
        reason = "a sewn seam in laminate pulls out. Test one and add seam_efficiency to [channel.fold]."
        yield Unchecked("cloth at the seam", reason)


def _check_cloth(case: Case, side: str, pull: Pull, mechanism: str, bears: Callable[[float], Capacity]) -> Check:
    """Return the check of the gauge length where the load is largest for the strength of cloth in its direction."""
    angles = _find_angles(case, side, pull)
    worst = int(np.argmax([demand / bears(angle).value for demand, angle in zip(pull.whole, angles, strict=True)]))
    return Check(
        f"{side} channel",
        mechanism,
        float(pull.whole[worst]),
        bears(float(angles[worst])),
        case.workmanship.factors["cloth"],
        _name_middle(case, side, float(pull.middle[worst])),
    )


def _check_lock(case: Case, lock: Lock, pulls: Pulls) -> Iterator[Check | Unchecked]:
    """Yield the checks of the stitching through the cord, along the channel and at each corner."""
    work, channel = case.workmanship, case.hammock.channel
    asked, line = work.factors["seam"], find_lock_strength(lock.stitching, work.reductions)
    for side, pull in pulls.items():
        worst = int(np.argmax(np.abs(pull.along)))
        place = _name_middle(case, side, float(pull.middle[worst]))
        yield Check(f"{side} channel", "cord stitching tears", abs(float(pull.along[worst])), line, asked, place)
    length = channel.lock_length if channel.attachment is Attachment.LOCKED else lock.corner_length
    if length is None:
        yield Unchecked("corners", "anchored length at each corner is missing. Add corner_length to [channel.lock].")
        return
    holds = find_lock_force(lock.stitching, length, work.reductions)
    for jump in list_jumps(case.model, case.state):
        yield Check(f"{jump.side} {jump.end} corner", "cord stitching tears", jump.force, holds, asked)


def _find_angles(case: Case, side: str, pull: Pull) -> FloatArray:
    """Return the angle from the warp to the pull of the cord (w,) in the flat cloth, rad."""
    edge = case.model.mesh.outline.pick_edge(side)
    along = np.arctan(edge.side * edge.curve.slope(trace_edge(case.model, side, pull.middle)))
    turned = edge.side * (np.pi / 2 + np.arctan2(pull.along, pull.across))
    return np.asarray(along + turned - case.hammock.body.grain)


def _name_middle(case: Case, side: str, distance: float) -> Sentence:
    """Return in words where on the cloth a place of a channel lies, ``distance`` metres from its head corner."""
    x = trace_edge(case.model, side, np.array(distance))
    return describe_place(case.model, np.array([x, case.model.mesh.outline.pick_edge(side).place(x)]))
