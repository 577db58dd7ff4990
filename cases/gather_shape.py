"""From an equilibrium to the shape that is written and drawn."""

import numpy as np

from ..meshing import HammockModel
from ..solver import MembraneResult, State
from .findings import find_cord_tension
from .shape import BARS, SIDE_CORDS, Floats, Ints, Part, Shape


def gather_shape(model: HammockModel, state: State) -> Shape:
    """Return the deformed shape with what every triangle, cord, line and bar carries."""
    cloth: MembraneResult = state[model.elements["body"]]
    segments, part, force = [], [], []
    for piece in Part:
        if piece is not Part.CLOTH:
            nodes, carried = _gather_line(model, state, piece)
            segments.append(nodes)
            part.append(np.full(len(nodes), int(piece)))
            force.append(carried)
    return Shape(
        points=state.positions,
        triangles=model.mesh.triangles,
        larger_stress=cloth.nominal[:, 0],
        smaller_stress=cloth.nominal[:, 1],
        direction=cloth.direction,
        state=cloth.kind,
        segments=np.concatenate(segments),
        part=np.concatenate(part),
        force=np.concatenate(force),
    )


def _gather_line(model: HammockModel, state: State, part: Part) -> tuple[Ints, Floats]:
    """Return the pieces (k, 2) of a cord, line or bar and what each carries (k,), N, a thrust negative."""
    if part in SIDE_CORDS:
        side = part.title.split()[0]
        path = model.nodes[f"{side} edge"]
        return np.stack([path[:-1], path[1:]], axis=1), find_cord_tension(model, state, side)
    element = model.elements[part.title]
    found = state[element]
    return element.connectivity, -found.thrust if part in BARS else found.tension
