"""Masses in the structure, and masses in the weight list."""

from typing import Any

from ....hammock import Person
from ....meshing import HammockModel
from .weight_list import WeightList


def describe_weights(model: HammockModel, person: Person, scales: WeightList) -> dict[str, Any]:
    """Return the masses in the structure, kg, part by part, and the weight list."""
    return {
        "person_kg": person.mass,
        "hammock_kg": model.mass,
        "parts_kg": {part.name: part.mass for part in model.parts},
        **scales.describe(),
    }
