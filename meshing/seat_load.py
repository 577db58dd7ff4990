"""The weight of a person sitting across the hammock, spread over the cloth as a dead load."""

import numpy as np

from ..hammock.body_segments import list_segments
from ..hammock.body_size import measure_body
from ..hammock.person import Person
from .grid import Mesh
from .person_load import GRAVITY, PersonLoad, carry_weight

_SEAT_DEPTH = 0.25  # m from the back of the seat to the front of the bearing surface; judgement
_POINTS = 24  # along a row


def spread_sitter(person: Person, mesh: Mesh) -> PersonLoad:
    """Return the weight of ``person`` sitting across, facing the left side, where the hips lie when lying down.

    Head, trunk and arms bear on a seat as wide as the hips about the middle of the cloth; the thighs reach from
    there to the left edge; what lies beyond the edge, with shanks and feet, bears on the edge. An even
    spread: how the body tips is not part of it.

    Parameters
    ----------
    person : Person
        Who sits.
    mesh : Mesh
        Whole body.
    """
    segments = list_segments(person)
    weight = {segment.name: segment.mass * GRAVITY for segment in segments}
    thighs = next(segment for segment in segments if segment.name == "thighs")
    along = person.head_from_bar + thighs.start
    breadth = measure_body(person.sex, person.stature, person.mass)["hip breadth"]
    edge = float(mesh.outline.left.place(np.array([along]))[0]) * (1 - 1e-6)
    legs = weight["thighs"] + weight["shanks"] + weight["feet"]
    length = thighs.end - thighs.start
    x = along + breadth * ((np.arange(_POINTS) + 0.5) / _POINTS - 0.5)
    seat = _SEAT_DEPTH * ((np.arange(_POINTS) + 0.5) / _POINTS - 0.5)
    thigh = np.minimum(length * (np.arange(_POINTS) + 0.5) / _POINTS, edge)
    rows = (
        (seat, np.full(_POINTS, (sum(weight.values()) - legs) / _POINTS)),
        (thigh, np.full(_POINTS, weight["thighs"] / _POINTS)),
        (np.array([edge]), np.array([weight["shanks"] + weight["feet"]])),
    )
    y, carried = (np.concatenate(part) for part in zip(*rows, strict=True))
    points = np.column_stack([np.repeat(x, len(y)), np.tile(np.minimum(y, edge), len(x))])
    limit = mesh.outline.left.place(points[:, 0]) * (1 - 1e-6)
    points[:, 1] = np.minimum(points[:, 1], limit)
    return PersonLoad(carry_weight(mesh, points, np.tile(carried, len(x)) / len(x)), segments)
