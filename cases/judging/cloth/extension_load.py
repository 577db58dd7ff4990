"""What the cloth beyond a bar that is set in carries, and what holds it."""

from typing import NamedTuple

import numpy as np

from ....hammock.arrays import FloatArray
from ....hammock.extension import ExtensionMake
from ....meshing import ExtensionMesh, HammockModel
from ....solver import State
from .gauge_length import list_starts, share_out
from .gauge_square import GAUGE


class SeamLoad(NamedTuple):
    """Force of an extension on the body where it is sewn to it, averaged over gauge lengths.

    Parameters
    ----------
    middle : (w,)
        Middle of each gauge length along the bar, m from the right corner.
    pull : (w,)
        N per metre of bar line.
    whole : (3,)
        Of the whole seam, N.
    """

    middle: FloatArray
    pull: FloatArray
    whole: FloatArray


def find_seam_load(model: HammockModel, state: State, beyond: ExtensionMesh) -> SeamLoad | None:
    """Return the force between body and extension along their seam; None for one that runs on and has no seam.

    Parameters
    ----------
    model : HammockModel
        What was solved.
    state : State
        Its equilibrium.
    beyond : ExtensionMesh
        Of ``model.beyond``.
    """
    end = next(end for end in model.hammock.ends if end.name == beyond.end)
    if end.bar.extension.made is ExtensionMake.RUNS_ON:
        return None
    joined = ~beyond.own[0]
    along = (1 + beyond.levels[joined]) / 2 * end.width
    force = find_cloth_pull(model, state, beyond)[beyond.numbers[0][joined]]
    bounds = np.concatenate([along[:1], (along[1:] + along[:-1]) / 2, along[-1:]])
    gauge = min(GAUGE, float(along[-1] - along[0]))
    sums = share_out(bounds, list(force.T), gauge)
    return SeamLoad(list_starts(bounds, gauge) + gauge / 2, np.linalg.norm(sums, axis=0) / gauge, force.sum(axis=0))


def find_cloth_pull(model: HammockModel, state: State, beyond: ExtensionMesh) -> FloatArray:
    """Return the force of the cloth of an extension on every node (n, 3), N."""
    force = np.zeros_like(state.positions)
    state.terms[id(model.elements[f"{beyond.end} extension"])].add_force(state.positions, force)
    return force


def find_hold(model: HammockModel, state: State, end: str, side: str) -> float:
    """Return with which force, N, a far corner of an extension is held on its leg: the change of its tension there."""
    below, above = (state[model.elements[f"{end} {side} {name}"]].tension for name in ("leg", "upper leg"))
    return abs(float(np.max(above)) - float(np.max(below)))
