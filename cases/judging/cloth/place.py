"""Where on the flat cloth something lies or is highest, in words and as numbers."""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from ....hammock.arrays import FloatArray
from ....hammock.hammock import Attachment
from ....materials import Sentence, make_sentence
from ....meshing import HammockModel
from ...record import Metres, Record

EVEN = 0.01  # by which two values may differ and still count as alike on both sides
_TIED = 1e-4  # of the highest value: triangles so near to it are as high, and rounding picks among them
_MIRRORED = 1e-3  # m between a triangle and the mirror image of its twin
_NEAR_CORNER = 0.15  # m: nearer than this to a corner, the corner names the place
_NEAR_SIDE = 0.04  # m: nearer than this to a side, its channel names the place
_NEAR_LOCK = 0.04  # m along the channel from the end of an anchored length


@dataclass(frozen=True, repr=False)
class FlatPlace(Record):
    """A place on the flat cloth.

    Parameters
    ----------
    x, y : float
        From the head bar, and from the middle to the left, m; of a place found on both sides alike, on the left.
    corner : str or None
        Corner it is near to, such as ``head left``.
    both_sides : bool
        Whether the place that mirrors it is meant too.
    """

    x: Metres
    y: Metres
    corner: str | None
    both_sides: bool


class Peak(NamedTuple):
    """Where a value is highest, in numbers and words."""

    at: FlatPlace
    words: Sentence


def find_peak(model: HammockModel, values: FloatArray) -> Peak:
    """Return where the values of the triangles are highest; on both sides, if they are alike there.

    Of places that are equally high the one nearest to the head bar is taken, so that rounding does not choose.

    Parameters
    ----------
    model : HammockModel
        With its mesh.
    values : (m,)
        One for each triangle.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock
    >>> from tautlay.meshing import build_model
    >>> model = build_model(example_hammock(), None, 0.1)
    >>> place = find_peak(model, -model.mesh.flat_corners().mean(axis=1)[:, 0]).at
    >>> place.both_sides, place.y >= 0.0
    (True, True)
    """
    middles = model.mesh.flat_corners().mean(axis=1)
    tied = np.flatnonzero(values >= values.max() - _TIED * abs(values.max()))
    order = np.lexsort((-middles[tied, 1], middles[tied, 0].round(6)))
    peak = int(tied[order[0]])
    x, y = (float(value) for value in middles[peak])
    away = np.hypot(middles[:, 0] - x, middles[:, 1] + y)
    twin = int(np.argmin(away))
    even = twin != peak and away[twin] < _MIRRORED and values[twin] > values[peak] - EVEN * abs(values[peak])
    flat = np.array([x, abs(y) if even else y])
    place = FlatPlace(x, float(flat[1]), _find_corner(model, flat), bool(even))
    return Peak(place, describe_place(model, flat, both=place.both_sides))


def describe_place(model: HammockModel, flat: FloatArray, *, both: bool = False) -> Sentence:
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
        Such as ``left head corner, 40 mm inboard``.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock
    >>> from tautlay.meshing import build_model
    >>> model = build_model(example_hammock(), None, 0.2)
    >>> describe_place(model, np.array([1.0, 0.0])), describe_place(model, np.array([0.02, 0.55]), both=True)
    ('100 cm from the head bar, on the centre line', 'both head corners, 3.6 cm inboard')
    """
    outline, along = model.mesh.outline, float(flat[0])
    middle, half = (float(value[0]) for value in (outline.middle(flat[:1]), outline.width(flat[:1]) / 2))
    off = float(flat[1]) - middle
    side = "left" if off > 0 else "right"
    if (corner := _find_corner(model, flat)) is not None:
        far = _measure_corner(model, flat, corner)
        name = f"both {corner.split()[0]} corners" if both else f"{side} {corner.split()[0]} corner"
        return make_sentence("{name}, {far:length.2} inboard", name=name, far=far)
    if half - abs(off) < _NEAR_SIDE:
        name = "both channels" if both else f"{side} channel"
        lock = _name_lock(model, along, side)
        return make_sentence("{name}, {along:length} from the head bar{lock}", name=name, along=along, lock=lock)
    if abs(off) < _NEAR_SIDE:
        return make_sentence("{along:length} from the head bar, on the centre line", along=along)
    where = "either side" if both else side
    return make_sentence(
        "{along:length} from the head bar, {off:length} {where} of centre", along=along, off=abs(off), where=where
    )


def _name_lock(model: HammockModel, along: float, side: str) -> str:
    """Return a remark if an anchored length ends near that place of a channel."""
    channel, outline = model.hammock.channel, model.mesh.outline
    if channel.attachment is not Attachment.LOCKED:
        return ""
    edge = outline.pick_edge(side)
    ends = [edge.find_station(far) for far in (channel.lock_length, edge.length - channel.lock_length)]
    return ", where the anchored length ends" if min(abs(along - end) for end in ends) < _NEAR_LOCK else ""


def _find_corner(model: HammockModel, flat: FloatArray) -> str | None:
    """Return the corner a place is near to, such as ``head left``."""
    corners = (f"{end} {side}" for end in ("head", "foot") for side in ("left", "right"))
    return next((corner for corner in corners if _measure_corner(model, flat, corner) < _NEAR_CORNER), None)


def _measure_corner(model: HammockModel, flat: FloatArray, corner: str) -> float:
    """Return how far a place is from a corner, m."""
    return float(np.hypot(*(flat - model.mesh.points[model.nodes[f"{corner} corner"][0]])))
