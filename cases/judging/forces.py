"""Forces of cords, lines, bars and trees."""

import numpy as np

from ...hammock.arrays import Floats
from ...meshing import HammockModel
from ...solver import State


def describe_forces(model: HammockModel, state: State) -> dict[str, float]:
    """Return the largest tension in each cord, leg and line and the thrust of each bar, N."""
    found = {
        f"side_cord_{side}_max_N": float(find_cord_tension(model, state, side).max()) for side in ("left", "right")
    }
    for end in ("head", "foot"):
        for side in ("left", "right"):
            found[f"{end}_leg_{side}_N"] = float(state[model.elements[f"{end} {side} leg"]].tension[0])
        found[f"{end}_line_N"] = float(state[model.elements[f"{end} line"]].tension[0])
        found[f"{end}_bar_thrust_N"] = float(state[model.elements[f"{end} bar"]].thrust[0])
    return found


def find_cord_tension(model: HammockModel, state: State, side: str) -> Floats:
    """Return the tension (k,), N, of each piece of a side cord from head to foot, one a mesh edge."""
    pieces = []
    for name in (f"head {side} lock", f"{side} side cord", f"foot {side} lock"):
        element = model.elements.get(name)
        if element is not None:
            count = len(element.connectivity)
            pieces.append(np.broadcast_to(np.asarray(state[element].tension, dtype=np.float64), (count,)))
    return np.concatenate(pieces)


def describe_anchors(model: HammockModel, state: State) -> dict[str, list[float]]:
    """Return the pull on each tree, N: x towards the foot, y to the occupant's left, z up."""
    trees = {end: int(model.nodes[f"{end} tree"][0]) for end in ("head", "foot")}
    return {f"{end}_tree_N": (-state.reactions[node] + 0.0).tolist() for end, node in trees.items()}
