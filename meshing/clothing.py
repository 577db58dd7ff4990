"""Friction between a person's clothing and the cloth."""

import numpy as np

from ..hammock.arrays import FloatArray
from ..solver import Contact, Grips, find_grips, make_friction
from .hammock_model import HammockModel
from .lengthwise_restraint import LengthwiseRestraint

STICK = 0.003  # m of slip at which all friction is called up; a third of it changes a push by a fiftieth


def grip_cloth(model: HammockModel, positions: FloatArray, before: Grips | None = None) -> Grips:
    """Return where the clothing of a person grips the cloth.

    Parameters
    ----------
    model : HammockModel
        With a person in contact.
    positions : (n, 3)
        Equilibrium, m.
    before : Grips or None
        Those of the state before; None: everything sticks where it is now, without a pull.

    Raises
    ------
    ValueError
        For a model without a person in contact.
    """
    contact = model.structure.find_term(model.elements["contact"]) if model.frame is not None else None
    if not isinstance(contact, Contact) or model.frame is None:
        raise ValueError("Nobody is in contact with the cloth: choose the load case lying.")
    first = len(positions) - len(model.frame.names)
    return find_grips(contact, positions, dict(enumerate(first + model.frame.carriers)), STICK, before)


def clothe(model: HammockModel, grips: Grips, friction: float) -> HammockModel:
    """Return a model whose cloth does not let clothing slide freely; its new element is called "friction".

    Parameters
    ----------
    model : HammockModel
        With a person in contact, without friction.
    grips : Grips
        From :func:`grip_cloth`. Without any, as where the person has left the cloth, the model stays as it is.
    friction : float
        Coefficient, above 0.
    """
    if not len(grips.triangle):
        return model
    contact = model.elements["contact"]
    assert isinstance(contact, Contact)
    element = make_friction(contact, grips, friction, STICK)
    return model.add_elements({"friction": element})


TURNS = ("hip", "shoulder")  # whose left and right end are held one above the other


def hold_turned(model: HammockModel, aside: FloatArray, stiffness: float) -> HammockModel:
    """Return a model whose person is held against rolling: "hip hold" and "shoulder hold".

    Each is a pair of opposite sideways forces on the left and right end, so that nothing is pushed along.

    Parameters
    ----------
    model : HammockModel
        With a person in contact.
    aside : (2,)
        How far left hip and left shoulder are held to the left of the right ones, m: 0 is exactly on the side.
    stiffness : float
        N/m.
    """
    holds, one = {}, np.ones(1)
    for level, offset in zip(TURNS, aside.tolist(), strict=True):
        left, right = np.split(model.find_pair(level), 2)
        holds[f"{level} hold"] = LengthwiseRestraint(left, right, one, one, 1, stiffness, offset=offset)
    return model.add_elements(holds)


def let_slide(model: HammockModel) -> HammockModel:
    """Return a model whose person is not held across the hammock."""
    return model.drop_elements("side hold")


def measure_aside(model: HammockModel, positions: FloatArray) -> FloatArray:
    """Return how far left hip and left shoulder are to the left of the right ones (2,), m."""
    ends = [positions[model.find_pair(level), 1] for level in TURNS]
    return np.array([left - right for left, right in ends])
