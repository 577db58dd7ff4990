"""Cloth beyond the bars that are set in, as a whole."""

from dataclasses import dataclass

import numpy as np

from ....meshing import ExtensionMesh, HammockModel
from ....solver import MembraneResult, State
from ...record import Kilograms, Newtons, NewtonsPerMetre, Record
from .extension_load import find_hold, find_seam_load


@dataclass(frozen=True, repr=False)
class ExtensionRecord(Record):
    r"""How the cloth beyond one bar is pulled and held.

    Parameters
    ----------
    end : str
        ``"head"`` or ``"foot"``.
    mass : float
        Of all its layers as the structure carries them, finished, without caps and closing triangles, kg.
    highest_line_stress : float
        Larger principal stress of a triangle, N per metre of cloth as cut; at a corner it grows with a finer mesh.
    taut_fraction, wrinkled_fraction, slack_fraction : float
        Shares of the area that are pulled in both directions, in one, and in none.
    seam_load : float or None
        Largest force on the seam to the body over 25 mm, N per metre of seam; None where it runs on without a seam.
    hold : float
        With which a far corner is held on its leg, N: the larger of both.
    """

    end: str
    mass: Kilograms
    highest_line_stress: NewtonsPerMetre
    taut_fraction: float
    wrinkled_fraction: float
    slack_fraction: float
    seam_load: NewtonsPerMetre | None
    hold: Newtons


def measure_beyond(model: HammockModel, state: State) -> tuple[ExtensionRecord, ...] | None:
    """Return what the cloth beyond each bar carries; None where no bar is set in.

    Parameters
    ----------
    model : HammockModel
        Structure and named parts.
    state : State
        Its equilibrium.
    """
    return tuple(_measure(model, state, part) for part in model.beyond) or None


def _measure(model: HammockModel, state: State, part: ExtensionMesh) -> ExtensionRecord:
    """Return what the cloth beyond one bar carries."""
    cloth: MembraneResult = state[model.elements[f"{part.end} extension"]]
    areas = part.find_areas()
    share = np.bincount(cloth.kind, weights=areas, minlength=3) / areas.sum()
    seam, body = find_seam_load(model, state, part), model.hammock.body
    return ExtensionRecord(
        end=part.end,
        mass=part.area * body.fabric.areal_mass * body.layers,
        highest_line_stress=float(cloth.nominal.max()),
        taut_fraction=float(share[2]),
        wrinkled_fraction=float(share[1]),
        slack_fraction=float(share[0]),
        seam_load=None if seam is None else float(seam.pull.max()),
        hold=max(find_hold(model, state, part.end, side) for side in ("left", "right")),
    )
