r"""The weight of a person spread over the cloth as a dead load, in every pattern there is.

Of somebody lying on the back each segment's weight has a line density along the body that varies linearly,
:math:`w(t) = (m g/l)\,(1 + k(2t-1))` with :math:`k = 6(c - 1/2)` and t from 0 to 1, so that its centre
lies at the published fraction c; across, it is even over the breadth. The density is never negative for
c from 1/3 to 2/3, which all segments keep.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from ..hammock.arrays import FloatArray
from ..hammock.body_segments import Segment, list_segments
from ..hammock.body_size import measure_body
from ..hammock.load_case import WeightPattern
from ..hammock.narrowing import find_squeeze
from ..hammock.person import Person
from ..materials.short_repr import write_repr, write_value
from .extension_mesh import ExtensionMesh
from .grid import Mesh
from .transfer import locate

GRAVITY = 9.80665  # m/s2, NIST SP 811; that of the solver, which need not be loaded to weigh somebody
_STEP = 0.008  # between sample points, m, at most
_GAUSS = 0.5 / np.sqrt(3.0)  # two points a panel: exact for the moment of a linear density
_SEAT_DEPTH = 0.25  # m from the back of the seat to the front of the bearing surface; judgement
_ROW = 24  # points along a row under who sits


@dataclass(frozen=True)
class PersonLoad:
    """Weight of a person on the nodes of a mesh.

    Parameters
    ----------
    forces : (n, 3)
        Dead load on the nodes of the mesh, N; with somebody beyond a bar those of suspension and that cloth follow.
    segments : tuple of Segment
        What it is made of.
    """

    forces: FloatArray
    segments: tuple[Segment, ...]

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{write_value(-float(self.forces[:, 2].sum()), 'force')} on {len(self.forces)} nodes",
            f"{len(self.segments)} segments",
        )


def spread_person(person: Person, mesh: Mesh, beyond: tuple[ExtensionMesh, ...] = ()) -> PersonLoad:
    """Return the weight of ``person`` on the nodes of ``mesh``, and of the cloth beyond the bars.

    Total and first moments about both flat axes are exact on any mesh: sample points carry them, and
    barycentric weights hand them to the nodes. Where the cloth is narrower than the body, breadths are
    drawn in to the cloth, lengthwise places kept; ``find_narrowing`` says where and how much.

    Parameters
    ----------
    person : Person
        Crown ``head_from_bar`` from the head bar, along y = 0.
    mesh : Mesh
        Whole body, or its left half, which gets half the weight.
    beyond : tuple of ExtensionMesh
        The cloth beyond the bars, on which head and feet may lie; places there are kept along the lines of its mesh.

    Raises
    ------
    ValueError
        For a person who reaches beyond a bar where there is no cloth.

    Examples
    --------
    >>> from tautlay.hammock import draw_outline, example_hammock, example_person
    >>> from tautlay.meshing import make_mesh
    >>> mesh = make_mesh(draw_outline(example_hammock().body), 0.1)
    >>> spread_person(example_person(), mesh).forces.sum(axis=0).round(6).tolist()
    [0.0, 0.0, -784.532]
    """
    crown, sole = person.head_from_bar, person.head_from_bar + person.stature
    length, ends = mesh.outline.length, {part.end: part for part in beyond}
    if (crown < 0 and "head" not in ends) or (sole > length and "foot" not in ends):
        raise ValueError(f"The person reaches from {crown:.3f} m to {sole:.3f} m, beyond the body of {length:.3f} m.")
    segments = list_segments(person)
    x, y, weight = (np.concatenate(part) for part in zip(*map(_sample, segments), strict=True))
    x = x + crown
    squeeze = find_squeeze(mesh.outline, segments, x, crown)
    points = np.stack([x, y * squeeze], axis=1)
    if mesh.is_half:
        weight = weight / 2
    else:
        points = np.concatenate([points, points * [1.0, -1.0]])
        weight = np.concatenate([weight, weight]) / 2
    past = {"head": points[:, 0] < 0.0, "foot": points[:, 0] > length}
    on_body = ~(past["head"] | past["foot"])
    forces = carry_weight(mesh, points[on_body], weight[on_body])
    for end, there in past.items():
        if there.any():
            depth = np.abs(points[there, 0] - (0.0 if end == "head" else length))
            forces = _add_beyond(forces, ends[end], np.stack([depth, points[there, 1]], axis=1), weight[there])
    return PersonLoad(forces, segments)


def _add_beyond(forces: FloatArray, part: ExtensionMesh, points: FloatArray, weight: FloatArray) -> FloatArray:
    """Return the dead load (n, 3), N, with weights (p,), N, at flat points (p, 2) beyond a bar.

    A point is given by how far beyond the bar it lies, and how far to the left, m.
    """
    depth = points[:, 0]
    drawn_in = 1 - (1 - part.scale) * depth / part.find_side(len(part.levels) // 2)
    nodes, shares = part.share_out(depth, points[:, 1] / (part.width / 2 * drawn_in))
    count = max(len(forces), int(nodes.max()) + 1)
    found = np.zeros((count, 3))
    found[: len(forces)] = forces
    found[:, 2] -= np.bincount(nodes.ravel(), (shares * weight[:, None]).ravel(), count)
    return found


def carry_weight(mesh: Mesh, points: FloatArray, weight: FloatArray) -> FloatArray:
    """Return the dead load (n, 3), N, on the nodes of weights (p,), N, at flat points (p, 2).

    Barycentric shares keep the total and the first moments.
    """
    triangle, shares = locate(mesh, points)
    nodes = mesh.triangles[triangle]
    forces = np.zeros((len(mesh.points), 3))
    forces[:, 2] = -np.bincount(nodes.ravel(), (shares * weight[:, None]).ravel(), len(mesh.points))
    return forces


def _sample(segment: Segment) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Return sample points on the left side (x from the crown, y) and the weight of both sides, N."""
    length = segment.end - segment.start
    panels = int(np.ceil(length / (2 * _STEP)))
    middles = (np.arange(panels)[:, None] + 0.5 + [-_GAUSS, _GAUSS]).ravel() / panels
    density = 1 + 6 * (segment.centre - 0.5) * (2 * middles - 1)
    inner, outer = (low + (high - low) * middles for low, high in (segment.inner, segment.outer))
    across = int(np.ceil(float((outer - inner).max()) / _STEP))
    places = (np.arange(across) + 0.5) / across
    y = inner[:, None] + (outer - inner)[:, None] * places
    weight = segment.mass * GRAVITY * density / density.size / across
    x = segment.start + length * middles
    return np.repeat(x, across), y.ravel(), np.repeat(weight, across)


def spread_sitter(person: Person, mesh: Mesh, _: tuple[ExtensionMesh, ...] = ()) -> PersonLoad:
    """Return the weight of ``person`` sitting across, facing the left side, where the hips lie when lying down.

    Head, trunk and arms bear on a seat about the middle of the cloth, as wide as hips are sitting; the thighs reach
    from there to the left edge; what lies beyond the edge, with shanks and feet, bears on the edge. An even
    spread: how the body tips is not part of it.

    Parameters
    ----------
    person : Person
        Who sits.
    mesh : Mesh
        Whole body.
    _ : tuple of ExtensionMesh
        The cloth beyond the bars, where nobody sits.
    """
    segments = list_segments(person)
    weight = {segment.name: segment.mass * GRAVITY for segment in segments}
    thighs = next(segment for segment in segments if segment.name == "thighs")
    along = person.head_from_bar + thighs.start
    breadth = measure_body(person.sex, person.stature, person.mass)["sitting hip breadth"]
    edge = float(mesh.outline.left.place(np.array([along]))[0]) * (1 - 1e-6)
    legs = weight["thighs"] + weight["shanks"] + weight["feet"]
    length = thighs.end - thighs.start
    x = along + breadth * ((np.arange(_ROW) + 0.5) / _ROW - 0.5)
    seat = _SEAT_DEPTH * ((np.arange(_ROW) + 0.5) / _ROW - 0.5)
    thigh = np.minimum(length * (np.arange(_ROW) + 0.5) / _ROW, edge)
    rows = (
        (seat, np.full(_ROW, (sum(weight.values()) - legs) / _ROW)),
        (thigh, np.full(_ROW, weight["thighs"] / _ROW)),
        (np.array([edge]), np.array([weight["shanks"] + weight["feet"]])),
    )
    y, carried = (np.concatenate(part) for part in zip(*rows, strict=True))
    points = np.column_stack([np.repeat(x, len(y)), np.tile(np.minimum(y, edge), len(x))])
    limit = mesh.outline.left.place(points[:, 0]) * (1 - 1e-6)
    points[:, 1] = np.minimum(points[:, 1], limit)
    return PersonLoad(carry_weight(mesh, points, np.tile(carried, len(x)) / len(x)), segments)


SPREADERS: Mapping[WeightPattern, Callable[[Person, Mesh, tuple[ExtensionMesh, ...]], PersonLoad]] = {
    WeightPattern.FOOTPRINT: spread_person,
    WeightPattern.SEAT: spread_sitter,
}
