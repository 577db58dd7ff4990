"""A person who sits across a hammock, facing its left side: laid on the cloth, and what holds seat and trunk there."""

from dataclasses import replace
from types import MappingProxyType

import numpy as np

from ..hammock.arrays import FloatArray, IntegerArray
from ..solver import Contact, Structure
from .body_frame import BodyFrame
from .hammock_model import HammockModel
from .lengthwise_restraint import LengthwiseRestraint
from .loading import Loading
from .occupant import find_stiffness, make_skeleton
from .person_load import GRAVITY
from .sideways_hold import SidewaysHold
from .sitter_frame import make_sitter
from .upright_hold import UprightHold

_TO_ROOM = np.array([[0.0, -1.0, 0.0], [0.0, 0.0, 1.0], [-1.0, 0.0, 0.0]])  # feet down, left to the head, front left
_GIVES = 1e-3  # m under the person's whole weight: barely at all
_BESIDE = 0.3  # m of side cord to either side of the hips between which the seat's place is told; judgement
_STRAIGHT = 2e4  # N/m: one hip is as far to the left as the other
_BALANCED = 5000.0  # N m/rad: the trunk is within a tenth of a degree of the lean that is asked for
_UNDER = 0.65  # of the thigh, from the hip, under which the rim first lies: knees and shanks are clear of it; judgement
_ROUND = 0.05  # m
_ABOVE = 0.005  # m between cloth and lowest flesh at first
_ALONG = np.linspace(0.0, 1.0, 9)  # places along a limb
_SHARES = np.array([[6, 0, 0], [0, 6, 0], [0, 0, 6], [3, 3, 0], [0, 3, 3], [3, 0, 3], [2, 2, 2]]) / 6  # of corners
_HANGING = ("calf", "shank")  # beyond the rim, not on the cloth


def seat_person(hung: HammockModel, positions: FloatArray) -> tuple[HammockModel, FloatArray, float]:
    """Return a model with the person of another in contact, where its nodes first stand (n, 3), and the place, m.

    The trunk is upright, the thighs are level, and all is lifted until it clears the cloth. The place is how far the
    hip joints are to the left of the middle between both side cords, to whole 5 cm. Of what holds the seat only "hold"
    (along the hammock, against the cloth underneath) and "turn hold" (both hips as far to the left) are there. Of
    either side cord the nodes within 30 cm of the hips are called "left edge beside" and "right edge beside".

    Parameters
    ----------
    hung : HammockModel
        Under the spread load of a person who sits.
    positions : (k, 3)
        Its equilibrium, m.

    Raises
    ------
    ValueError
        For a model without a person, or with one in contact.
    """
    if hung.person is None or hung.loading.spread is None or hung.frame is not None:
        raise ValueError("a sitter begins on a hammock under the spread load of a person who sits.")
    frame = make_sitter(hung.person)
    places, place = _lay(hung, positions, frame)
    model = _add_body(hung, frame, places)
    along = float(places[[frame.index(f"{side} hip") for side in ("left", "right")], 0].mean())
    beside = {
        f"{side} edge beside": _find_beside(hung.nodes[f"{side} edge"], positions, along) for side in ("left", "right")
    }
    model = replace(model, nodes=MappingProxyType({**model.nodes, **beside}))
    return _hold_along(model), np.concatenate([positions, places]), place


def _add_body(hung: HammockModel, frame: BodyFrame, places: FloatArray) -> HammockModel:
    """Return a model whose person, at ``places`` (h, 3), takes the place of the spread weight."""
    first, weight = len(hung.start), np.zeros_like(places)
    weight[:, 2] = -GRAVITY * frame.masses
    body = {
        **make_skeleton(frame, first),
        "contact": Contact(hung.triangles, first + frame.capsules, frame.radii, find_stiffness(frame)),
    }
    nodes = {f"person {name}": np.array([first + k]) for k, name in enumerate(frame.names)}
    structure = Structure(
        np.concatenate([hung.start, places]),
        [*hung.elements.values(), *body.values()],
        fixed=np.concatenate([~hung.structure.free, np.zeros(places.shape, dtype=bool)]),
        forces=np.concatenate([hung.structure.load - hung.loading.forces, weight]),
        gravity=(0.0, 0.0, 0.0),  # the weight of all is among the forces
    )
    forces = np.concatenate([np.zeros_like(hung.start), weight])
    return replace(
        hung,
        structure=structure,
        elements=MappingProxyType({**hung.elements, **body}),
        nodes=MappingProxyType({**hung.nodes, **nodes}),
        loading=Loading(hung.loading.spread, frame, places, forces, nodes, body),
    )


def hold_sitter(model: HammockModel, place: float, lean: float) -> HammockModel:
    """Return a model whose person is held at a place across, the trunk at a lean to the plumb line.

    "side hold" acts between hips and both side cords beside them, along the line from cord to cord, and takes no moment
    from outside. "trunk hold" keeps the lean across, "lean hold" keeps the trunk from falling along the hammock.

    Parameters
    ----------
    model : HammockModel
        From :func:`seat_person`.
    place : float
        Of the hip joints, to the left of the middle between both side cords, m.
    lean : float
        Of the trunk backwards, rad.
    """
    hips = model.find_pair("hip")
    trunk = np.concatenate([hips, model.find_pair("shoulder")])
    ends, half = np.repeat([-0.5, 0.5], 2), np.full(2, 0.5)
    left, right = (model.nodes[f"{side} edge beside"] for side in ("left", "right"))
    holds = {
        "side hold": SidewaysHold(hips, half, left, right, _weigh(model) / _GIVES, offset=place),
        "trunk hold": UprightHold(trunk, ends, 1, _BALANCED, offset=lean),
        "lean hold": UprightHold(trunk, ends, 0, _BALANCED),
    }
    return model.add_elements(holds)


def let_seat_go(model: HammockModel) -> HammockModel:
    """Return a model from :func:`hold_sitter` without what holds the seat: "side hold", "hold" and "turn hold"."""
    return model.drop_elements("side hold", "hold", "turn hold")


def _find_beside(edge: IntegerArray, positions: FloatArray, along: float) -> IntegerArray:
    """Return the nodes (k,) of a side cord beside a place along the hammock, m."""
    return np.asarray(edge[np.abs(positions[edge, 0] - along) < _BESIDE])


def _weigh(model: HammockModel) -> float:
    """Return the weight of the person, N."""
    return -float(model.loading.forces[:, 2].sum())


def _hold_along(model: HammockModel) -> HammockModel:
    """Return a model whose seat stays where it is along the hammock, and faces left."""
    cloth, shares = _find_seat(model)
    hips, one = model.find_pair("hip"), np.ones(1)
    holds = {
        "hold": LengthwiseRestraint(hips, cloth, np.full(2, 0.5), shares, 0, _weigh(model) / _GIVES),
        "turn hold": LengthwiseRestraint(hips[:1], hips[1:], one, one, 1, _STRAIGHT),
    }
    return model.add_elements(holds)


def _find_seat(model: HammockModel) -> tuple[IntegerArray, FloatArray]:
    """Return the nodes of cloth (k,) that carry the spread weight of who sits, and the share of each."""
    assert model.loading.spread is not None
    carried = -model.loading.spread.forces[:, 2]
    cloth = np.flatnonzero(carried > 0.0)
    return cloth, carried[cloth] / carried[cloth].sum()


def _lay(hung: HammockModel, positions: FloatArray, frame: BodyFrame) -> tuple[FloatArray, float]:
    """Return where the nodes of a sitter (h, 3) first stand, facing left, just clear of the cloth, and the place."""
    cloth, shares = _find_seat(hung)
    along = float(shares @ positions[cloth, 0])
    left, right = (cut_edge(positions[hung.nodes[f"{side} edge"]], along) for side in ("left", "right"))
    hips, knees = ([frame.index(f"{side} {level}") for side in ("left", "right")] for level in ("hip", "knee"))
    body = frame.places @ _TO_ROOM.T
    body -= body[hips].mean(axis=0)
    apart = float(np.linalg.norm(left - right))
    place = round((apart / 2 - _UNDER * float(body[knees, 1].mean())) / _ROUND) * _ROUND
    body += (left + right) / 2 + place * (left - right) / apart
    body[:, 2] += _find_lift(positions[hung.triangles], frame, body)
    return np.asarray(body), place


def cut_edge(edge: FloatArray, along: float) -> FloatArray:
    """Return where an edge (k, 3) passes a place along the hammock (3,), m."""
    return np.array([along, *(np.interp(along, edge[:, 0], edge[:, axis]) for axis in (1, 2))])


def _find_lift(corners: FloatArray, frame: BodyFrame, body: FloatArray) -> float:
    """Return by how much a body (h, 3) has to rise, m, until its flesh clears the cloth (m, 3, 3) from above."""
    cloth = np.einsum("qa,mak->mqk", _SHARES, corners).reshape(-1, 3)
    lifts = [-np.inf]
    for name, (a, b), (first, last) in zip(frame.flesh, body[frame.capsules], frame.radii, strict=True):
        if name.split()[-1] in _HANGING:
            continue
        for share in _ALONG:
            middle, radius = a + share * (b - a), first + share * (last - first)
            square = radius**2 - ((cloth[:, :2] - middle[:2]) ** 2).sum(axis=1)
            over = square > 0.0
            lifts += (cloth[over, 2] + np.sqrt(square[over]) - middle[2]).tolist()
    return max(lifts) + _ABOVE
