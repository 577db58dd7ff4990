"""Node numbers by the names of what lies there."""

from collections.abc import Mapping
from types import MappingProxyType

import numpy as np

from ..hammock.arrays import IntegerArray
from .extension_mesh import ExtensionMesh
from .grid import Mesh

SUSPENSION = ("head apex", "foot apex", "head tree", "foot tree")  # in this order after the cloth's nodes
_NONE = np.empty(0, dtype=np.int64)


def name_nodes(mesh: Mesh, beyond: tuple[ExtensionMesh, ...] = ()) -> Mapping[str, IntegerArray]:
    """Return sets of node numbers by name.

    Names are "head edge" and "foot edge" (right to left), "left edge" and "right edge" (head to foot),
    "head left corner" and its like (one node: corner of the cloth, end of cord, bar and leg), "middle"
    (the level nearest the middle, head to foot), "head apex", "foot apex", "head tree", "foot tree". A
    half mesh has nothing on the right. "head left leg" runs from the corner to the apex, along the side of the cloth
    beyond a bar that is set in; of that cloth there are "head seam" (where it is sewn to the body, or runs on; right to
    left), "head far edge", "head right opening" and "head left opening" (where it is not sewn to the body) and, of half
    of it, "head middle".

    Examples
    --------
    >>> from tautlay.hammock import draw_outline, example_hammock
    >>> from tautlay.meshing import make_mesh
    >>> mesh = make_mesh(draw_outline(example_hammock().body), 0.2)
    >>> nodes = name_nodes(mesh)
    >>> mesh.points[nodes["foot left corner"]].round(3).tolist()
    [[2.0, 0.56]]
    """
    names = {
        "head edge": mesh.column(0),
        "foot edge": mesh.column(-1),
        "left edge": mesh.level(-1),
        "middle": mesh.level(int(np.argmin(np.abs(mesh.levels)))),
    }
    sides = {"left": mesh.level(-1)}
    if not mesh.is_half:
        sides["right"] = names["right edge"] = mesh.level(0)
    for side, edge in sides.items():
        names[f"head {side} corner"], names[f"foot {side} corner"] = edge[:1], edge[-1:]
    for place, name in enumerate(SUSPENSION):
        names[name] = np.array([len(mesh.points) + place])
    for part in beyond:
        names |= _name_extension(part)
    for end in ("head", "foot"):
        for side in sides:
            path = (names[f"{end} {side} corner"], names.pop(f"{end} {side} side", _NONE), names[f"{end} apex"])
            names[f"{end} {side} leg"] = np.concatenate(path)
    return MappingProxyType(names)


def _name_extension(part: ExtensionMesh) -> dict[str, IntegerArray]:
    """Return the nodes of the cloth beyond one bar by name; "head left side" without what is the body's."""
    names = {f"{part.end} seam": part.numbers[0][~part.own[0]], f"{part.end} far edge": part.numbers[-1]}
    lines = {"left": -1}
    if part.levels[0] == 0.0:
        names[f"{part.end} middle"] = part.numbers[1:, 0]
    else:
        lines["right"] = 0
    for side, line in lines.items():
        names[f"{part.end} {side} side"] = part.numbers[part.own[:, line], line]
        towards = part.levels > 0 if side == "left" else part.levels < 0
        names[f"{part.end} {side} opening"] = part.numbers[0][part.own[0] & towards]
    return names
