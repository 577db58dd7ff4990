"""How each bar is assembled, in numbers and words."""

from typing import Any

from ...hammock import Hammock
from ...making import describe_path


def describe_bars(hammock: Hammock) -> dict[str, dict[str, Any]]:
    """Return how each bar is assembled: thrust path in words, length, masses and axial stiffness."""
    found = {}
    for end in hammock.ends:
        build = end.bar.build
        found[f"{end.name}_bar"] = {
            "parts": len(build.parts),
            "path": describe_path(build),
            "length_m": build.length,
            "mass_kg": build.mass,
            "carried_anyway_kg": build.carried_mass,
            "axial_stiffness_N": end.bar.ea,
        }
    return found
