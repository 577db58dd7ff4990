"""A person who sits up along the hammock: seat held where it is, trunk raised by hands on the side cords."""

import numpy as np

from ..hammock.arrays import FloatArray
from .body_joints import HingeLaw, make_hinges
from .hammock_model import HammockModel
from .lengthwise_restraint import LengthwiseRestraint
from .person_load import GRAVITY
from .pitch_hold import PitchHold

_GIVES = 1e-3  # m under the person's whole weight: barely at all
_SEAT = 0.15  # m of cloth to either side of the hips that holds the seat; judgement
_NECK = 50.0  # N m/rad on either side: muscles that keep the head where it is against the trunk; judgement
_RAISING = 2000.0  # N m/rad: the trunk is within some degrees of where it is wanted


def hold_seat(model: HammockModel, positions: FloatArray) -> HammockModel:
    """Return a model whose person's hips stay where they lie on the cloth, and who is held in the middle.

    Replaced are "hold", which would keep the whole body over the cloth it lies on, and "side hold".

    Parameters
    ----------
    model : HammockModel
        With a person in contact who lies on the back.
    positions : (n, 3)
        Equilibrium, m.

    Raises
    ------
    ValueError
        For a model without a person in contact.
    """
    if model.frame is None or model.loading.spread is None:
        raise ValueError("Nobody is in contact with the cloth: choose the load case lying.")
    body, hips = model.body, model.find_pair("hip")
    carried = -model.loading.spread.forces[:, 2]
    cloth = np.flatnonzero(carried > 0.0)
    near = cloth[np.abs(positions[cloth, 0] - positions[hips, 0].mean()) < _SEAT]
    shares, under = (carried[nodes] / carried[nodes].sum() for nodes in (cloth, near))
    offset = float(positions[hips, 0].mean() - under @ positions[near, 0])
    mass = float(model.frame.masses.sum())
    stiffness = mass * GRAVITY / _GIVES
    half = np.full(len(hips), 1 / len(hips))
    holds = {
        "hold": LengthwiseRestraint(hips, near, half, under, 0, stiffness, offset=offset),
        "side hold": LengthwiseRestraint(body, cloth, model.frame.masses / mass, shares, 1, stiffness),
    }
    return model.drop_elements(*holds).add_elements(holds)


def make_trunk_hold(model: HammockModel, positions: FloatArray, rise: float) -> PitchHold:
    """Return what holds a trunk steeper, against the side cords, than it lies: hips to shoulders.

    Parameters
    ----------
    model : HammockModel
        With a person in contact.
    positions : (n, 3)
        Of somebody who lies, m.
    rise : float
        By how much steeper, rad.
    """
    hips, shoulders = model.find_pair("hip"), model.find_pair("shoulder")
    trunk = np.concatenate([hips, shoulders])
    ends = np.repeat([-0.5, 0.5], 2)
    cords = np.concatenate([model.nodes["left edge"], model.nodes["right edge"]])
    slope = positions[cords, 0].mean() - positions[cords, 0]  # of a straight line through them, least squares
    lying = PitchHold(trunk, cords, ends, slope, _RAISING)
    return PitchHold(trunk, cords, ends, slope, _RAISING, offset=lying.result(positions).slip + rise)


def raise_trunk(model: HammockModel, hold: PitchHold) -> HammockModel:
    """Return a model with a "trunk hold"."""
    return model.add_elements({"trunk hold": hold})


def straighten_neck(model: HammockModel) -> HammockModel:
    """Return a model whose person holds the head in line with the trunk, as one does who lies flat: "neck hold"."""
    assert model.frame is not None
    frame = model.frame
    hinges = frame.hinges[frame.hinges[:, 1] == frame.index("neck")]
    free = HingeLaw((), slope=_NECK)
    flat = make_hinges(hinges, (free,) * len(hinges)).result(frame.places).angle
    first = len(model.start) - len(frame.names)
    hold = make_hinges(first + hinges, tuple(free.shift(angle) for angle in flat.tolist()))
    return model.add_elements({"neck hold": hold})


def measure_trunk(model: HammockModel, positions: FloatArray) -> float:
    """Return by how much a trunk, from hips to shoulders, rises to the head against level, rad."""
    way = positions[model.find_pair("shoulder")].mean(axis=0) - positions[model.find_pair("hip")].mean(axis=0)
    return float(np.arctan2(way[2], -way[0]))
