"""From an equilibrium to the shape that is written and drawn."""

import numpy as np

from ...hammock import reach_of_legs
from ...making import Reductions
from ...meshing import HammockModel
from ...solver import ContactResult, MembraneResult, State
from ..judging.cloth.hot_spot import THREADS, find_nominal, find_strength
from ..judging.forces import find_cord_tension
from .shape import BARS, EXTENSIONS, FLESH, SIDE_CORDS, CellTag, FloatArray, IntegerArray, Occupant, Shape


def gather_shape(model: HammockModel, state: State, reductions: Reductions) -> Shape:
    """Return the deformed shape with the load of every triangle, cord, line and bar.

    The shares of the strength are those of single triangles, after losses by wet and age: unlike those of hot spots
    they grow at corners with a finer mesh.
    """
    cloth: MembraneResult = state[model.elements["body"]]
    segments, part, force = [], [], []
    for piece in CellTag:
        if piece not in (CellTag.CLOTH, *EXTENSIONS, *FLESH):
            nodes, carried = _gather_line(model, state, piece)
            segments.append(nodes)
            part.append(np.full(len(nodes), int(piece)))
            force.append(carried)
    points = state.positions[: len(state.positions) - len(model.loading.places)]
    for piece in EXTENSIONS:
        edge = _find_free_edge(model, state, piece)
        segments.append(len(points) + np.arange(len(edge)).reshape(-1, 2))
        part.append(np.full(len(edge) // 2, int(piece)))
        force.append(np.zeros(len(edge) // 2))
        points = np.concatenate([points, edge])
    flat = np.zeros((len(points), 2))
    flat[: len(model.mesh.points)] = model.mesh.points
    pull = np.linalg.norm(find_nominal(model, state), axis=1)
    warp, weft = (pull[:, row] / find_strength(model, name, reductions).value for row, name in enumerate(THREADS))
    return Shape(
        points=points,
        flat=flat,
        triangles=model.mesh.triangles,
        larger_stress=cloth.nominal[:, 0],
        smaller_stress=cloth.nominal[:, 1],
        direction=cloth.direction,
        state=cloth.kind,
        warp_share=warp,
        weft_share=weft,
        segments=np.concatenate(segments),
        part=np.concatenate(part),
        force=np.concatenate(force),
        occupant=_gather_occupant(model, state),
        trunk=_gather_trunks(model, len(points)),
    )


def _gather_trunks(model: HammockModel, count: int) -> FloatArray:
    """Return how thick the trunk is at each of ``count`` points, m: zero but at a tree of known girth."""
    thickness = np.zeros(count)
    for end in model.hammock.ends:
        if end.suspension.tree is not None:
            thickness[model.nodes[f"{end.name} tree"][0]] = end.suspension.tree.diameter
    return thickness


def _gather_occupant(model: HammockModel, state: State) -> Occupant | None:
    """Return where the flesh of a person in contact lies and its pressure; None without one."""
    if model.frame is None:
        return None
    contact: ContactResult = state[model.elements["contact"]]
    body = state.positions[len(state.positions) - len(model.loading.places) :]
    parts = [int(CellTag[name.upper().replace(" ", "_")]) for name in model.frame.flesh]
    return Occupant(body[model.frame.capsules], model.frame.radii, np.array(parts), contact.pressure, contact.push)


def _gather_line(model: HammockModel, state: State, part: CellTag) -> tuple[IntegerArray, FloatArray]:
    """Return the pieces (k, 2) of a cord, line or bar and the force in each (k,), N, a thrust negative."""
    if part in SIDE_CORDS:
        side = part.element.split()[0]
        path = model.nodes[f"{side} edge"]
        return np.stack([path[:-1], path[1:]], axis=1), find_cord_tension(model, state, side)
    element = model.elements[part.element]
    found = state[element]
    return element.connectivity, -found.thrust if part in BARS else found.tension


def _find_free_edge(model: HammockModel, state: State, part: CellTag) -> FloatArray:
    """Return the ends (2, 3), m, of the free edge of an extension on its legs; (0, 3) where there is none.

    The model hangs an extension on the legs, so that it has no shape of its own.
    """
    end = part.element.split()[0]
    _, bar, _, hung = next(row for row in model.hammock.ends if row.name == end)
    if bar.set_in == 0.0:
        return np.empty((0, 3))
    corners = np.array([state.positions[model.nodes[f"{end} {side} corner"][0]] for side in ("left", "right")])
    apex = state.positions[model.nodes[f"{end} apex"][0]]
    share = bar.set_in / reach_of_legs(hung.leg_length, bar.length)
    return np.asarray(corners + share * (apex - corners))
