"""Masses in the structure, and masses in the weight list."""

from ....hammock import Person
from ....meshing import HammockModel
from .weight_list import WeightList
from .weight_record import Weights, record_scales


def record_weights(model: HammockModel, person: Person, scales: WeightList) -> Weights:
    """Return what in the structure, part by part, and the weight list.

    Parameters
    ----------
    model : HammockModel
        Structure and named parts.
    person : Person
        Who lies in it.
    scales : WeightList
        Of the same design.
    """
    parts = {part.name: part.mass for part in model.parts}
    return Weights(person=person.mass, hammock=model.mass, parts=parts, **vars(record_scales(scales)))
