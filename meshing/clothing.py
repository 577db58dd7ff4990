"""Friction between a person's clothing and the cloth."""

from dataclasses import replace
from types import MappingProxyType

from ..hammock.arrays import FloatArray
from ..solver import Contact, Grips, find_grips, make_friction
from .hammock_model import HammockModel

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
        From :func:`grip_cloth`.
    friction : float
        Coefficient, above 0.
    """
    contact = model.elements["contact"]
    assert isinstance(contact, Contact)
    element = make_friction(contact, grips, friction, STICK)
    elements = MappingProxyType({**model.elements, "friction": element})
    return replace(model, elements=elements, structure=model.structure.add_element(element))
