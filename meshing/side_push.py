"""A person who is pushed off the middle between both side cords."""

from enum import Enum

import numpy as np

from .hammock_model import HammockModel
from .lengthwise_restraint import LengthwiseRestraint
from .person_load import GRAVITY
from .restraint import Restraint
from .sideways_hold import SidewaysHold

_GIVES = 1e-3  # m under the person's whole weight: barely at all


class PushWay(Enum):
    """Along which line a person is pushed.

    ``ROOM`` is level and square to the hammock wherever it swings: on the person, and backwards on the side cords some
    30 cm higher, so that it takes a moment from outside, as of somebody who stands beside and shoves. ``CORDS`` is the
    line from one side cord to the other: what the person can do alone, without force or moment from outside.
    """

    ROOM = "room"
    CORDS = "cords"


def push_aside(model: HammockModel, shift: float, way: PushWay = PushWay.ROOM) -> HammockModel:
    """Return a model whose person is held ``shift`` m to the left of the middle between both side cords: "side push".

    Parameters
    ----------
    model : HammockModel
        With a person in contact.
    shift : float
        Of the centre of mass, m; negative to the right.
    way : PushWay
        Along which line.

    Raises
    ------
    ValueError
        For a model without a person in contact.
    """
    if model.frame is None:
        raise ValueError("Nobody is in contact with the cloth: choose the load case lying.")
    return model.drop_elements("side hold").add_elements({"side push": _make_push(model, shift, way)})


def _make_push(model: HammockModel, shift: float, way: PushWay) -> Restraint:
    """Return the spring that pushes."""
    assert model.frame is not None
    body = model.body
    left, right = (model.nodes[f"{side} edge"] for side in ("left", "right"))
    mass = float(model.frame.masses.sum())
    shares, stiffness = model.frame.masses / mass, mass * GRAVITY / _GIVES
    if way is PushWay.CORDS:
        return SidewaysHold(body, shares, left, right, stiffness, offset=shift)
    edges = np.concatenate([left, right])
    even = np.full(len(edges), 1 / len(edges))
    return LengthwiseRestraint(body, edges, shares, even, 1, stiffness, offset=shift)
