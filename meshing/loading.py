"""What a person adds to the structure of a hammock in each load case."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from ..hammock.arrays import FloatArray, IntegerArray
from ..hammock.load_case import LoadCase, WeightPattern
from ..hammock.person import Person
from ..materials.short_repr import write_repr, write_value
from ..solver import Element
from .body_frame import BodyFrame, make_frame
from .extension_mesh import ExtensionMesh, join_triangles
from .first_posture import lay_frame
from .grid import Mesh
from .occupant import make_occupant
from .person_load import GRAVITY, SPREADERS, PersonLoad, spread_person


@dataclass(frozen=True)
class Loading:
    """A person as forces on the cloth, or as a body with nodes and elements of its own.

    Parameters
    ----------
    spread : PersonLoad or None
        Weight spread over the cloth: the load itself, or what is held against sliding.
    frame : BodyFrame or None
        The person in contact.
    places : (h, 3)
        Where the nodes of the body first stand, m.
    forces : (n + h, 3)
        On cloth, suspension and body, N.
    nodes : mapping of str to (1,) int
        Nodes of the body, "person left knee" and so on.
    elements : mapping of str to Element
        Of the body.
    """

    spread: PersonLoad | None
    frame: BodyFrame | None
    places: FloatArray
    forces: FloatArray
    nodes: Mapping[str, IntegerArray]
    elements: Mapping[str, Element]

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{write_value(-float(self.forces[:, 2].sum()), 'force')} on {len(self.forces)} nodes",
            "a person in contact" if self.frame is not None else "",
        )


def load_person(
    case: LoadCase,
    person: Person | None,
    mesh: Mesh,
    beyond: tuple[ExtensionMesh, ...],
    positions: FloatArray,
    factor: float,
) -> Loading:
    """Return ``person`` in a hammock whose cloth and suspension first stand at ``positions`` (n, 3).

    Parameters
    ----------
    case : LoadCase
        What the person does.
    person : Person or None
        None loads nothing.
    mesh : Mesh
        Of the body.
    beyond : tuple of ExtensionMesh
        The cloth beyond the bars.
    positions : (n, 3)
        m.
    factor : float
        On the person's weight.

    Raises
    ------
    ValueError
        For anything but an even spread on half a hammock.
    """
    if person is None:
        return Loading(None, None, np.empty((0, 3)), np.zeros_like(positions), {}, {})
    if mesh.is_half and case.pattern is not WeightPattern.FOOTPRINT:
        raise ValueError(f"the load case {case} needs the whole hammock.")
    if case.in_contact:
        return _lay_body(person, mesh, beyond, positions, factor)
    spread = SPREADERS[case.pattern](person, mesh, beyond)
    forces = np.zeros_like(positions)
    forces[: len(spread.forces)] = factor * spread.forces
    return Loading(spread, None, np.empty((0, 3)), forces, {}, {})


def _lay_body(
    person: Person, mesh: Mesh, beyond: tuple[ExtensionMesh, ...], positions: FloatArray, factor: float
) -> Loading:
    """Return the person in contact."""
    frame, first = make_frame(person), len(positions)
    spread = spread_person(person, mesh, beyond)
    places = lay_frame(frame, person, mesh, positions, beyond)
    forces = np.zeros((first + len(places), 3))
    forces[first:, 2] = -factor * GRAVITY * frame.masses
    nodes = {f"person {name}": np.array([first + place]) for place, name in enumerate(frame.names)}
    elements = make_occupant(frame, person, join_triangles(mesh, beyond), spread, first)
    return Loading(spread, frame, places, forces, nodes, elements)
