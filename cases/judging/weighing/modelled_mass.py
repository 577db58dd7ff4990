"""What the structure carries as against what is on the scales."""

from typing import Any

from ....hammock import Person
from ....meshing import HammockModel
from .weight_list import WeightList


def describe_weights(model: HammockModel, person: Person, scales: WeightList) -> dict[str, Any]:
    """Return the masses the structure carries, kg, part by part, and what is on the scales."""
    return {
        "person_kg": person.mass,
        "hammock_kg": model.mass,
        "parts_kg": {part.name: part.mass for part in model.parts},
        **scales.describe(),
    }
