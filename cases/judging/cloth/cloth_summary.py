"""Tension and stretch of the cloth as a whole."""

from typing import Any

import numpy as np

from ....hammock.arrays import Floats
from ....materials import Sentence, make_sentence
from ....meshing import HammockModel
from ....solver import MembraneResult, State
from .place import find_peak


def describe_fabric(model: HammockModel, state: State) -> dict[str, Any]:
    """Return the highest tension per width of a triangle, the stretch of its threads, the area in each state.

    Tension is per metre of cloth as cut, as a strip test gives it; stretch is that of warp and weft
    threads, sqrt(1 + 2 E) - 1 with the Green strain E along them.
    """
    cloth: MembraneResult = state[model.elements["body"]]
    areas = model.mesh.find_areas()
    share = np.bincount(cloth.kind, weights=areas, minlength=3) / areas.sum()
    stress, stretch = cloth.nominal[:, 0], _stretch_threads(cloth)
    place = find_peak(model, stress)
    return {
        "highest_line_stress_N_per_m": float(stress.max()),
        "highest_line_stress_place": place.words,
        "highest_line_stress_at": {
            "x_m": place.x,
            "y_m": place.y,
            "corner": place.corner,
            "both_sides": place.both_sides,
        },
        "warp_stretch_most_m_per_m": float(stretch[:, 0].max()),
        "weft_stretch_most_m_per_m": float(stretch[:, 1].max()),
        "taut_fraction": float(share[2]),
        "wrinkled_fraction": float(share[1]),
        "slack_fraction": float(share[0]),
    }


def _stretch_threads(cloth: MembraneResult) -> Floats:
    """Return the stretch (m, 2) of warp and weft threads in every triangle."""
    return np.asarray(np.sqrt(1 + 2 * cloth.strain[:, :2]) - 1)


def note_stretch(model: HammockModel, state: State) -> list[Sentence]:
    """Return a note for each thread direction in which the cloth is stretched beyond its elongation at break.

    Without a stated elongation the strain at which the linear law reaches the strip strength counts.
    """
    fabric = model.hammock.body.fabric
    stretch = _stretch_threads(state[model.elements["body"]])
    notes: list[Sentence] = []
    for column, thread in enumerate(("warp", "weft")):
        limit = fabric.elongation or getattr(fabric, f"strength_{thread}") / getattr(fabric, thread)
        most = float(stretch[:, column].max())
        if most > limit:
            notes.append(
                make_sentence(
                    "The {thread} of the cloth stretches by {most:.0%} at {place}; it breaks at {limit:.0%}. "
                    "Reinforce this place, or sew the channel along its whole edge. Stretch at a point grows "
                    "without limit with a finer mesh.",
                    thread=thread,
                    most=most,
                    place=find_peak(model, stretch[:, column]).words,
                    limit=limit,
                )
            )
    return notes
