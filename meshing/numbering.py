"""Node numbers by the names of what lies there."""

from collections.abc import Mapping
from types import MappingProxyType

import numpy as np

from ..hammock.arrays import IntegerArray
from .grid import Mesh

SUSPENSION = ("head apex", "foot apex", "head tree", "foot tree")  # in this order after the cloth's nodes


def name_nodes(mesh: Mesh) -> Mapping[str, IntegerArray]:
    """Return sets of node numbers by name.

    Names are "head edge" and "foot edge" (right to left), "left edge" and "right edge" (head to foot),
    "head left corner" and its like (one node: corner of the cloth, end of cord, bar and leg), "middle"
    (the level nearest the middle, head to foot), "head apex", "foot apex", "head tree", "foot tree". A
    half mesh has nothing on the right.

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
    if mesh.levels[0] < 0:
        sides["right"] = names["right edge"] = mesh.level(0)
    for side, edge in sides.items():
        names[f"head {side} corner"], names[f"foot {side} corner"] = edge[:1], edge[-1:]
    for place, name in enumerate(SUSPENSION):
        names[name] = np.array([len(mesh.points) + place])
    return MappingProxyType(names)


def is_half(mesh: Mesh) -> bool:
    """Return whether ``mesh`` is only the left half."""
    return bool(mesh.levels[0] == 0.0)
