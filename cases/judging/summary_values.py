"""Plain numbers out of an equilibrium: forces, shape, cloth, weights. The end of each key names the SI unit."""

from math import atan2, hypot
from typing import Any

import numpy as np

from ...hammock import Person
from ...hammock.hammock import Hammock
from ...making import describe_path
from ...materials import Sentence, say
from ...meshing import HammockModel
from ...solver import MembraneResult, State
from ..storage.shape import Floats
from .cloth.place import find_peak
from .weighing import Scales


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


def describe_fabric(model: HammockModel, state: State) -> dict[str, Any]:
    """Return the highest line stress of a triangle, the stretch of its threads, how much is in which state.

    Line stress is per metre of cloth as cut, as a strip test gives it; stretch is that of warp and weft
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


def describe_bars(hammock: Hammock) -> dict[str, dict[str, Any]]:
    """Return how each bar is put together: the way of the thrust in words, its length, masses and axial stiffness."""
    found = {}
    for end in hammock.ends:
        build = end.bar.build
        found[f"{end.name}_bar"] = {
            "parts": len(build.parts),
            "path": describe_path(build),
            "length_m": build.length,
            "mass_kg": build.mass,
            "carried_anyway_kg": build.carried_mass,
            "axial_stiffness_N": end.bar.ea,
        }
    return found


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
                say(
                    "The {thread} of the cloth would be stretched by {most:.0%} at {place}; it breaks at about "
                    "{limit:.0%}. A pull on a point grows without limit with a finer mesh: reinforce the place, or sew "
                    "the channel along its whole edge.",
                    thread=thread,
                    most=most,
                    place=find_peak(model, stretch[:, column]).words,
                    limit=limit,
                )
            )
    return notes


def describe_weights(model: HammockModel, person: Person, scales: Scales) -> dict[str, Any]:
    """Return the masses the structure carries, kg, part by part, and what is on the scales."""
    return {
        "person_kg": person.mass,
        "hammock_kg": model.mass,
        "parts_kg": {part.name: part.mass for part in model.parts},
        **scales.describe(),
    }
