"""Where on the flat cloth a place lies, in the words of a maker."""

import numpy as np

from ..materials import Sentence, say
from ..meshing import HammockModel
from ..meshing.hammock import Attachment
from .shape import Floats

_NEAR_CORNER = 0.15  # m: nearer than this to a corner, the corner names the place
_NEAR_SIDE = 0.04  # m: nearer than this to a side, its channel names the place
_NEAR_LOCK = 0.04  # m along the channel from the end of a lock


def describe_place(model: HammockModel, flat: Floats, *, both: bool = False) -> Sentence:
    """Return where a point of the flat cloth lies.

    Parameters
    ----------
    model : HammockModel
        Whose cloth.
    flat : (2,)
        m from the head bar, and from the middle to the left.
    both : bool
        Whether the place that mirrors it is meant too.

    Returns
    -------
    Sentence
        Such as ``head left corner, 40 mm inboard``.

    Examples
    --------
    >>> from tautlay.meshing import build_model, example_hammock
    >>> model = build_model(example_hammock(), None, 0.2)
    >>> describe_place(model, np.array([1.0, 0.0])), describe_place(model, np.array([0.02, 0.55]), both=True)
    ('100 cm from the head bar, in the middle', 'head corners, left and right, 29.9 mm inboard')
    """
    outline, along = model.mesh.outline, float(flat[0])
    middle, half = (float(value[0]) for value in (outline.middle(flat[:1]), outline.width(flat[:1]) / 2))
    off = float(flat[1]) - middle
    side = "left" if off > 0 else "right"
    end = "head" if along < outline.length / 2 else "foot"
    corner = model.mesh.points[model.nodes[f"{end} left corner"][0]]
    far = float(np.hypot(flat[0] - corner[0], half - abs(off)))
    if far < _NEAR_CORNER:
        name = f"{end} corners, left and right" if both else f"{end} {side} corner"
        return say("{name}, {far:length} inboard", name=name, far=far)
    if half - abs(off) < _NEAR_SIDE:
        name = "both channels" if both else f"{side} channel"
        lock = _name_lock(model, along, side)
        return say("{name}, {along:length} from the head bar{lock}", name=name, along=along, lock=lock)
    if abs(off) < _NEAR_SIDE:
        return say("{along:length} from the head bar, in the middle", along=along)
    where = "left and right" if both else side
    return say(
        "{along:length} from the head bar, {off:length} {where} of the middle", along=along, off=abs(off), where=where
    )


def _name_lock(model: HammockModel, along: float, side: str) -> str:
    """Return a remark if a lock ends near that place of a channel."""
    channel, outline = model.hammock.channel, model.mesh.outline
    if channel.attachment is not Attachment.LOCKED:
        return ""
    edge = outline.left if side == "left" else outline.right
    ends = [edge.find_station(far) for far in (channel.lock_length, edge.length - channel.lock_length)]
    return ", where the lock ends" if min(abs(along - end) for end in ends) < _NEAR_LOCK else ""
