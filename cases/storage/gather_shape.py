"""From an equilibrium to the shape that is written and drawn."""

import numpy as np

from ...making import Reductions
from ...meshing import HammockModel
from ...solver import ContactResult, MembraneResult, State
from ..judging.cloth.hot_spot import THREADS, find_strength
from ..judging.cloth.nominal_stress import find_nominal
from ..judging.forces import find_cord_tension
from .shape import BARS, EXTENSIONS, FLESH, SIDE_CORDS, CellTag, FloatArray, IntegerArray, Occupant, Shape


def gather_shape(model: HammockModel, state: State, reductions: Reductions) -> Shape:
    """Return the deformed shape with the load of every triangle, cord, line and bar.

    The shares of the strength are those of single triangles, after losses by wet and age: unlike those of hot spots
    they grow at corners with a finer mesh.
    """
    cloth: list[MembraneResult] = [state[element] for element in model.cloth]
    segments, part, force = [], [], []
    for piece in CellTag:
        if piece not in (CellTag.CLOTH, *EXTENSIONS, *FLESH):
            nodes, carried = _gather_line(model, state, piece)
            segments.append(nodes)
            part.append(np.full(len(nodes), int(piece)))
            force.append(carried)
    points = state.positions[: len(state.positions) - len(model.loading.places)]
    flat = np.zeros((len(points), 2))
    for beyond in model.beyond:
        flat[beyond.numbers[beyond.own]] = beyond.flat[beyond.own]
    flat[: len(model.mesh.points)] = model.mesh.points
    nominal = [find_nominal(model, state, part) for part in (None, *model.beyond)]
    pull = np.linalg.norm(np.concatenate(nominal), axis=1)
    warp, weft = (pull[:, row] / find_strength(model, name, reductions).value for row, name in enumerate(THREADS))
    return Shape(
        points=points,
        flat=flat,
        triangles=model.triangles,
        larger_stress=np.concatenate([each.nominal[:, 0] for each in cloth]),
        smaller_stress=np.concatenate([each.nominal[:, 1] for each in cloth]),
        direction=np.concatenate([each.direction for each in cloth]),
        state=np.concatenate([each.kind for each in cloth]),
        warp_share=warp,
        weft_share=weft,
        segments=np.concatenate(segments),
        part=np.concatenate(part),
        force=np.concatenate(force),
        occupant=_gather_occupant(model, state),
        trunk=_gather_trunks(model, len(points)),
        sheet=_tag_triangles(model),
    )


def _tag_triangles(model: HammockModel) -> IntegerArray | None:
    """Return to what each triangle belongs (m,); None where all are the body's."""
    if not model.beyond:
        return None
    tags = {"body": CellTag.CLOTH, **{part.end: CellTag[f"{part.end.upper()}_EXTENSION"] for part in model.beyond}}
    counts = (len(model.mesh.triangles), *(len(part.triangles) for part in model.beyond))
    return np.repeat(np.array(list(tags.values()), dtype=np.int64), counts)


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
    upper = model.elements.get(part.element.replace(" leg", " upper leg"))
    elements = [model.elements[part.element], *([upper] if "leg" in part.element and upper is not None else [])]
    if part in BARS:
        return elements[0].connectivity, -state[elements[0]].thrust
    pulls = [np.broadcast_to(state[each].tension, (len(each.connectivity),)) for each in elements]
    return np.concatenate([each.connectivity for each in elements]), np.concatenate(pulls)
