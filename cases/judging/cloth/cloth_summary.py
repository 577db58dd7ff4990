"""Tension and stretch of the cloth as a whole."""

from dataclasses import dataclass

import numpy as np

from ....hammock.arrays import FloatArray
from ....materials import Sentence, make_sentence
from ....meshing import HammockModel
from ....solver import MembraneResult, State
from ...record import MetresPerMetre, NewtonsPerMetre, Record
from .place import FlatPlace, find_peak


@dataclass(frozen=True, repr=False)
class FabricRecord(Record):
    r"""How hard the cloth is pulled and stretched as a whole.

    Parameters
    ----------
    highest_line_stress : float
        Larger principal stress of a triangle, N per metre of cloth as cut, as a strip test gives it; at a corner it
        grows without limit with a finer mesh.
    highest_line_stress_place : str
        Where, in words; a ``Sentence``.
    highest_line_stress_at : FlatPlace
        Where, in numbers.
    warp_stretch_most, weft_stretch_most : float
        Largest stretch of the threads, :math:`\sqrt{1 + 2 E} - 1` with the Green strain E along them, m/m.
    taut_fraction, wrinkled_fraction, slack_fraction : float
        Shares of the area that are pulled in both directions, in one, and in none.
    """

    highest_line_stress: NewtonsPerMetre
    highest_line_stress_place: str
    highest_line_stress_at: FlatPlace
    warp_stretch_most: MetresPerMetre
    weft_stretch_most: MetresPerMetre
    taut_fraction: float
    wrinkled_fraction: float
    slack_fraction: float


def measure_fabric(model: HammockModel, state: State) -> FabricRecord:
    """Return the highest tension per width of a triangle, the stretch of its threads, the area in each state.

    Parameters
    ----------
    model : HammockModel
        Structure and named parts.
    state : State
        Its equilibrium.

    Returns
    -------
    FabricRecord
        SI.
    """
    cloth: MembraneResult = state[model.elements["body"]]
    areas = model.mesh.find_areas()
    share = np.bincount(cloth.kind, weights=areas, minlength=3) / areas.sum()
    stress, stretch = cloth.nominal[:, 0], _stretch_threads(cloth)
    peak = find_peak(model, stress)
    return FabricRecord(
        highest_line_stress=float(stress.max()),
        highest_line_stress_place=peak.words,
        highest_line_stress_at=peak.at,
        warp_stretch_most=float(stretch[:, 0].max()),
        weft_stretch_most=float(stretch[:, 1].max()),
        taut_fraction=float(share[2]),
        wrinkled_fraction=float(share[1]),
        slack_fraction=float(share[0]),
    )


def _stretch_threads(cloth: MembraneResult) -> FloatArray:
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
