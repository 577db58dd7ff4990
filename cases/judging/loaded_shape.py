"""The hang of the loaded hammock: sag, clearance, line angles."""

from dataclasses import dataclass
from math import atan2, hypot

import numpy as np

from ...meshing import HammockModel
from ...solver import State
from ..record import Metres, Radians, Record


@dataclass(frozen=True, repr=False)
class LoadedShape(Record):
    r"""How the loaded hammock hangs.

    Parameters
    ----------
    sag : float
        Largest drop of the middle line of the cloth below the straight line between the middles of the two bars, m.
    ground_clearance : float
        Lowest point of cloth, cords and bars above the ground, :math:`\min_i z_i`, m; negative below it.
    head_line_angle, foot_line_angle : float
        Of a line above the horizontal, from apex to tree,
        :math:`\arctan(\Delta z / \sqrt{\Delta x^2 + \Delta y^2})`, rad.
    hang_angle : float
        Mean of both, rad.
    tree_distance : float
        Between the two trees, m.
    """

    sag: Metres
    ground_clearance: Metres
    head_line_angle: Radians
    foot_line_angle: Radians
    hang_angle: Radians
    tree_distance: Metres


def find_line_angle(model: HammockModel, state: State, end: str) -> float:
    """Return the angle of a line above the horizontal, from apex to tree, rad."""
    apex, tree = (state.positions[model.nodes[f"{end} {place}"][0]] for place in ("apex", "tree"))
    return atan2(tree[2] - apex[2], hypot(tree[0] - apex[0], tree[1] - apex[1]))


def find_hang_angle(model: HammockModel, state: State) -> float:
    """Return the mean angle of the two lines above the horizontal, rad."""
    return (find_line_angle(model, state, "head") + find_line_angle(model, state, "foot")) / 2


def measure_shape(model: HammockModel, state: State) -> LoadedShape:
    """Return sag, clearance and how it hangs.

    Parameters
    ----------
    model : HammockModel
        Structure and named parts.
    state : State
        Its equilibrium.

    Returns
    -------
    LoadedShape
        SI.
    """
    x = state.positions
    head, foot = (
        np.mean([x[model.nodes[f"{end} {side} corner"][0]] for side in ("left", "right")], axis=0)
        for end in ("head", "foot")
    )
    middle = x[model.nodes["middle"]]
    along = (middle[:, 0] - head[0]) / (foot[0] - head[0])
    drop = head[2] + along * (foot[2] - head[2]) - middle[:, 2]
    return LoadedShape(
        sag=float(drop.max()),
        ground_clearance=float(x[: int(model.nodes["foot tree"][0]) + 1, 2].min()),
        head_line_angle=find_line_angle(model, state, "head"),
        foot_line_angle=find_line_angle(model, state, "foot"),
        hang_angle=find_hang_angle(model, state),
        tree_distance=model.tree_distance,
    )
