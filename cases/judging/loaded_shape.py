"""The hang of the loaded hammock: sag, clearance, line angles."""

from math import atan2, hypot

import numpy as np

from ...meshing import HammockModel
from ...solver import State


def find_line_angle(model: HammockModel, state: State, end: str) -> float:
    """Return the angle of a line above the horizontal, from apex to tree, rad."""
    apex, tree = (state.positions[model.nodes[f"{end} {place}"][0]] for place in ("apex", "tree"))
    return atan2(tree[2] - apex[2], hypot(tree[0] - apex[0], tree[1] - apex[1]))


def find_hang_angle(model: HammockModel, state: State) -> float:
    """Return the mean angle of the two lines above the horizontal, rad."""
    return (find_line_angle(model, state, "head") + find_line_angle(model, state, "foot")) / 2


def describe_shape(model: HammockModel, state: State) -> dict[str, float]:
    """Return sag, clearance and how it hangs.

    Sag is the largest drop of the middle line of the cloth below the straight line between the middles
    of the two bars.
    """
    x = state.positions
    head, foot = (
        np.mean([x[model.nodes[f"{end} {side} corner"][0]] for side in ("left", "right")], axis=0)
        for end in ("head", "foot")
    )
    middle = x[model.nodes["middle"]]
    along = (middle[:, 0] - head[0]) / (foot[0] - head[0])
    drop = head[2] + along * (foot[2] - head[2]) - middle[:, 2]
    return {
        "sag_m": float(drop.max()),
        "ground_clearance_m": float(x[: int(model.nodes["foot tree"][0]) + 1, 2].min()),
        "head_line_angle_rad": find_line_angle(model, state, "head"),
        "foot_line_angle_rad": find_line_angle(model, state, "foot"),
        "hang_angle_rad": find_hang_angle(model, state),
        "tree_distance_m": model.tree_distance,
    }
