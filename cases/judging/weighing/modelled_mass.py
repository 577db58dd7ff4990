"""What the structure carries as against what is on the scales."""

from ....hammock import Person
from ....meshing import HammockModel
from .weight_list import WeightList
from .weight_record import Weights, record_scales


def record_weights(model: HammockModel, person: Person, scales: WeightList) -> Weights:
    """Return what the structure carries, part by part, and what is on the scales.

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
