"""From a hammock and a person to a structure that can be solved, with names for everything in it."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from types import MappingProxyType

import numpy as np

from ..hammock.arrays import FloatArray, IntegerArray
from ..hammock.extension_areas import measure_extensions
from ..hammock.geometry_checks import HammockError, find_geometry_issues
from ..hammock.hammock import Hammock
from ..hammock.load_case import LoadCase
from ..hammock.part import Part, list_parts
from ..hammock.person import Person
from ..hammock.side_view import Hang, hang_hammock
from ..materials.short_repr import write_repr, write_value
from ..solver import Element, Structure
from .body_frame import BodyFrame
from .extension_mesh import ExtensionMesh, join_triangles, mesh_extensions
from .first_posture import lay_frame
from .grid import Fineness, Mesh
from .hammock_mesh import mesh_hammock
from .loading import Loading, load_person
from .members import make_members
from .numbering import SUSPENSION, name_nodes
from .person_load import GRAVITY
from .start_shape import drape_cloth, place_suspension
from .transfer import interpolate, stretch_over


@dataclass(frozen=True)
class HammockModel:
    """A hammock as a structure, and how to find one's way in it.

    Parameters
    ----------
    hammock : Hammock
        What is modelled.
    person : Person or None
        Who lies in it.
    mesh : Mesh
        Of the body; its nodes are the first nodes of the structure, then come head and foot apex, head and
        foot tree, then the own nodes of ``beyond``, then the nodes of a person in contact.
    beyond : tuple of ExtensionMesh
        The cloth beyond each bar that is set in.
    structure : Structure
        Ready for :func:`tautlay.solver.relax`; its positions are the start shape.
    elements : mapping of str to Element
        See :func:`~tautlay.meshing.members.make_members` for the names.
    nodes : mapping of str to (k,) int
        See :func:`~tautlay.meshing.numbering.name_nodes` for the names.
    hang : Hang
        Side view from which the start shape was made.
    loading : Loading
        What the person puts on it; a body in contact has its nodes and elements among the model's, named as in
        :func:`~tautlay.meshing.occupant.make_occupant`.
    parts : tuple of Part
        Everything with its material, size and mass.
    """

    hammock: Hammock
    person: Person | None
    mesh: Mesh
    beyond: tuple[ExtensionMesh, ...]
    structure: Structure
    elements: Mapping[str, Element]
    nodes: Mapping[str, IntegerArray]
    hang: Hang
    loading: Loading
    parts: tuple[Part, ...]

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{len(self.triangles)} triangles",
            f"{len(self.start)} nodes",
            f"{len(self.elements)} elements",
            f"trees {write_value(self.tree_distance, 'length')} apart",
            "a person in contact" if self.frame is not None else "",
        )

    @property
    def frame(self) -> BodyFrame | None:
        """The person in contact, if there is one."""
        return self.loading.frame

    @property
    def body(self) -> IntegerArray:
        """Nodes (h,) of the person in contact, in the order of the frame; none without one."""
        names = self.frame.names if self.frame is not None else ()
        return np.array([self.nodes[f"person {name}"][0] for name in names], dtype=np.int64)

    @property
    def start(self) -> FloatArray:
        """Positions (n, 3), m, from which to solve."""
        return self.structure.positions

    @property
    def tree_distance(self) -> float:
        """Horizontal distance between the straps, m."""
        return self.hang.tree_distance

    @cached_property
    def triangles(self) -> IntegerArray:
        """Nodes of all triangles of cloth (m, 3): the body's, then those beyond the bars."""
        return join_triangles(self.mesh, self.beyond)

    @cached_property
    def flat_corners(self) -> FloatArray:
        """Where the corners of these triangles lie as cut (m, 3, 2), m, in the axes of the flat body."""
        return np.concatenate([self.mesh.flat_corners(), *(part.corners for part in self.beyond)])

    @property
    def cloth(self) -> tuple[Element, ...]:
        """The membranes whose triangles these are, in their order."""
        return tuple(self.elements[name] for name in ("body", *(f"{part.end} extension" for part in self.beyond)))

    @property
    def mass(self) -> float:
        """Mass of the hammock with bars and suspension, without seams and knots, kg."""
        return sum(part.mass for part in self.parts)

    def find_pair(self, level: str) -> IntegerArray:
        """Return the left and the right node (2,) of a level of the person in contact, such as "hip"."""
        return np.concatenate([self.nodes[f"person {side} {level}"] for side in ("left", "right")])

    def add_elements(self, more: Mapping[str, Element]) -> "HammockModel":
        """Return this model with more elements, by their new names; they weigh nothing."""
        structure = self.structure
        for element in more.values():
            structure = structure.add_element(element)
        return replace(self, elements=MappingProxyType({**self.elements, **more}), structure=structure)

    def drop_elements(self, *names: str) -> "HammockModel":
        """Return this model without those of some elements that it has."""
        elements, structure = dict(self.elements), self.structure
        for name in names:
            if name in elements:
                structure = structure.drop_element(elements.pop(name))
        return replace(self, elements=MappingProxyType(elements), structure=structure)

    def carry_over(self, coarse: "HammockModel", positions: FloatArray) -> FloatArray:
        """Return start positions (n, 3) for this model from the solved ``positions`` of another, mostly coarser one.

        A person in contact is taken over. Another person lies as the first one does: laid upon the same cloth, with
        every limb as far off that first place as the first person's. Without a first one the person is only laid.

        Parameters
        ----------
        coarse : HammockModel
            Of the same body, or one whose sizes differ by little.
        positions : (n', 3)
            Equilibrium of ``coarse``, m.

        Raises
        ------
        ValueError
            For a whole and a half model.
        """
        count = len(coarse.mesh.points)
        carry = interpolate if coarse.mesh.outline == self.mesh.outline else stretch_over
        cloth = carry(coarse.mesh, positions[:count], self.mesh)
        beyond = [fine.carry(known, positions) for fine, known in zip(self.beyond, coarse.beyond, strict=True)]
        found = np.concatenate([cloth, positions[count : count + len(SUSPENSION)], *beyond])
        if self.frame is None or self.person is None:
            return found
        if coarse.person is None or coarse.frame is None or coarse.frame.names != self.frame.names:
            return np.concatenate([found, lay_frame(self.frame, self.person, self.mesh, found, self.beyond)])
        body = positions[len(positions) - len(coarse.loading.places) :]
        if coarse.person != self.person:
            body = body + lay_frame(self.frame, self.person, self.mesh, found, self.beyond)
            body -= lay_frame(coarse.frame, coarse.person, self.mesh, found, self.beyond)
        return np.concatenate([found, body])


def build_model(
    hammock: Hammock,
    person: Person | None,
    size: float | Fineness,
    *,
    tree_distance: float | None = None,
    half: bool = False,
    load: LoadCase = LoadCase.DISTRIBUTED,
    factor: float = 1.0,
) -> HammockModel:
    """Return ``hammock`` with ``person`` in it as a structure.

    Weights: cloth, cords, legs and lines through their elements; half of each bar on either end; caps on the edge
    they are sewn to, closing triangles on the edges of their openings: they carry nothing.
    The side cord's length is shared out along the edge in proportion to the cut edge.

    Parameters
    ----------
    hammock : Hammock
        The design.
    person : Person or None
        Who lies in it; None hangs it empty.
    size : float or Fineness
        Edge length of the mesh in the field, m.
    tree_distance : float or None
        Horizontal distance of the straps, m; None takes the design's, or the one at which its hang angle
        comes out by the side view.
    half : bool
        Only the left half, for a design symmetric about its middle; forces of lines and trees are halves.
    load : LoadCase
        What the person does.
    factor : float
        On the person's weight.

    Raises
    ------
    HammockError
        For an inconsistent design, with all its faults.
    ValueError
        For an unfit mesh size, half of a design that is not symmetric, or of one that carries an uneven load.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock, example_person
    >>> model = build_model(example_hammock(), example_person(), 0.1)
    >>> model.structure.load.sum(axis=0).round(1).tolist()
    [0.0, 0.0, -788.4]
    >>> model.nodes["head tree"].tolist(), len(model.elements)
    ([377], 11)
    """
    if tree_distance is not None:
        faults = find_geometry_issues(replace(hammock, suspension=hammock.suspension.between(tree_distance)), person)
    else:
        faults = find_geometry_issues(hammock, person)
    if faults:
        raise HammockError(faults)
    if half:
        _check_symmetry(hammock)
    mesh = mesh_hammock(hammock, size, half=half)
    hang = hang_hammock(hammock, tree_distance)
    fineness = size if isinstance(size, Fineness) else Fineness(size)
    beyond = mesh_extensions(hammock.ends, mesh, fineness, len(mesh.points) + len(SUSPENSION))
    cloth_nodes = name_nodes(mesh, beyond)
    bare = np.concatenate([drape_cloth(hammock, mesh, hang), place_suspension(hammock, hang)])
    hung = [
        part.stand(bare[cloth_nodes[f"{part.end} edge"]], bare[cloth_nodes[f"{part.end} apex"][0]]) for part in beyond
    ]
    bare = np.concatenate([bare, *hung])
    loading = load_person(load, person, mesh, beyond, bare, factor)
    nodes = {**cloth_nodes, **loading.nodes}
    elements = {**make_members(hammock, mesh, beyond, cloth_nodes), **loading.elements}
    positions = np.concatenate([bare, loading.places])
    forces = loading.forces.copy()
    _add_dead_weight(forces, hammock, nodes, mesh)
    structure = Structure(positions, list(elements.values()), fixed=_hold(mesh, nodes, len(positions)), forces=forces)
    return HammockModel(
        hammock, person, mesh, beyond, structure, MappingProxyType(elements), MappingProxyType(nodes), hang, loading,
        list_parts(hammock),
    )  # fmt: skip


def _check_symmetry(hammock: Hammock) -> None:
    """Refuse half of a design whose halves differ."""
    if not hammock.body.is_even:
        raise ValueError("half=True needs a body with equal arcs on both sides and its grain along or across.")


def _hold(mesh: Mesh, nodes: Mapping[str, IntegerArray], count: int) -> np.ndarray[tuple[int, ...], np.dtype[np.bool_]]:
    """Return which directions are held (n, 3): the trees, and the plane of symmetry of a half."""
    held = np.zeros((count, 3), dtype=bool)
    for name in ("head tree", "foot tree"):
        held[nodes[name]] = True
    if mesh.is_half:
        for name in ("middle", "head middle", "foot middle", *SUSPENSION):
            held[nodes.get(name, ()), 1] = True
    return held


def _add_dead_weight(forces: FloatArray, hammock: Hammock, nodes: Mapping[str, IntegerArray], mesh: Mesh) -> None:
    """Add the weight of bars, caps and closing triangles to ``forces`` (n, 3), N."""
    cloth = hammock.body.fabric.areal_mass * hammock.body.layers
    sides = ("left",) if mesh.is_half else ("left", "right")
    for (end, bar, _, _), beyond in zip(hammock.ends, measure_extensions(hammock), strict=True):
        for side in sides:
            forces[nodes[f"{end} {side} corner"], 2] -= bar.build.mass / 2 * GRAVITY
            if beyond.triangles:
                edge = nodes[f"{end} {side} opening"]
                forces[edge, 2] -= beyond.triangles / 2 * cloth * GRAVITY / len(edge)
        if beyond.cap:
            edge, half = nodes[f"{end} far edge"], 0.5 if mesh.is_half else 1.0
            forces[edge, 2] -= beyond.cap * cloth * GRAVITY * half * _share_edge(mesh.levels)


def _share_edge(levels: FloatArray) -> FloatArray:
    """Return the share of an edge that belongs to each of its nodes (k,)."""
    pieces = np.diff(levels) / (levels[-1] - levels[0])
    return np.asarray((np.concatenate([[0.0], pieces]) + np.concatenate([pieces, [0.0]])) / 2)
