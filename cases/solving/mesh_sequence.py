"""Mesh sequence from coarse to fine that keeps the hang angle."""

import math
from collections.abc import Callable
from typing import NamedTuple

from ...hammock import GeometryIssue, HammockError
from ...hammock.load_case import HANGING, LoadCase
from ...materials import make_sentence
from ...materials.short_repr import write_repr, write_value
from ...meshing import Fineness, HammockModel, build_model, check_containment
from ...meshing.clothing import measure_aside
from ...solver import Progress, State, relax
from ..design import Design, find_load_factor
from ..judging.loaded_shape import find_hang_angle
from ..storage.shape import FloatArray
from ..unit_display import write_sentence
from .escape_advice import advise_escape
from .lying_down import lie_on_side, needs_care
from .no_equilibrium import NoEquilibriumError

_COARSEST = 0.15  # m; coarser meshes no longer save time
_COARSE_TOLERANCE = 1e-4  # residual at which a coarse shape is good enough to go on from
_ANGLE_CLOSE = math.radians(0.05)  # of the hang angle asked for
_ANGLE_TRIES = 16
_HALVINGS = 6  # of a move of the trees that goes out of reach


class CaseProgress(NamedTuple):
    """News for a listener: which mesh of how many, and the iterate on it."""

    stage: int
    stages: int
    triangles: int
    step: Progress


MeshCallback = Callable[[CaseProgress], None]


class MeshLevel(NamedTuple):
    """One level of the sequence: mesh and load case."""

    mesh: Fineness
    load: LoadCase


class Start(NamedTuple):
    """A shape to begin from.

    Parameters
    ----------
    model : HammockModel
        Of a design with the same body.
    positions : (n, 3)
        Of its nodes, m.
    keeps_trees : bool
        Whether the trees of ``model`` are kept; else those are looked for at which the hang angle comes out.
    """

    model: HammockModel
    positions: FloatArray
    keeps_trees: bool = True

    def __repr__(self) -> str:
        return write_repr(
            self, f"{len(self.positions)} nodes", f"trees {write_value(self.model.tree_distance, 'length')} apart"
        )


Found = tuple[HammockModel, State]


def list_mesh_levels(size: float, load: LoadCase, rim: float | None = None) -> list[MeshLevel]:
    """Return the stages to a mesh of ``size`` with cells of ``rim``: one that is coarse, and that.

    Every other load begins from the shape that the coarsest mesh takes under the spread weight, and keeps the trees
    at which the hang angle comes out there: a hammock is hung once.
    """
    coarsest = size
    while coarsest * 2 <= _COARSEST:
        coarsest *= 2
    finest = Fineness(size, rim)
    meshes = [Fineness(coarsest)]
    if finest.find_rim() != meshes[0].find_rim():
        meshes.append(finest)
    first = [MeshLevel(meshes[0], HANGING)] if load is not HANGING else []
    return [*first, *(MeshLevel(mesh, load) for mesh in meshes)]


def _start_from(found: Found | None) -> Start | None:
    """Return an equilibrium as a shape to begin from."""
    return None if found is None else Start(found[0], found[1].positions)


class MeshSequence:
    """Solves from the coarsest mesh to the finest and keeps the hang angle.

    Parameters
    ----------
    design : Design
        What is solved.
    levels : list of MeshLevel
        Stages.
    listener : callable or None
        Receives a :class:`CaseProgress` after each step.
    """

    def __init__(self, design: Design, levels: list[MeshLevel], listener: MeshCallback | None) -> None:
        self.design, self.levels, self.listener = design, levels, listener
        self.slope: float | None = None  # rad of hang angle per metre between the trees
        self.aside: FloatArray | None = None  # how somebody on the side lies on the mesh before
        self.iterations = self.factorisations = 0

    def refine(self, tolerance: float, start: Start | None = None) -> Found:
        """Return the finest model and its equilibrium; the finest begins from ``start`` if there is one.

        Where that is the only stage, the trees of ``start`` are kept too.
        """
        suspension, last = self.design.hammock.suspension, len(self.levels) - 1
        found: Found | None = None
        distance = suspension.tree_distance
        if start is not None and last == 0 and distance is None:
            distance = start.model.tree_distance
        for stage, level in enumerate(self.levels):
            loose = tolerance if stage == last else max(tolerance, _COARSE_TOLERANCE)
            before = start if stage == last and start is not None else _start_from(found)
            found = self._solve(stage, loose, before, distance)
            if suspension.hang_angle is not None and level.load is HANGING:
                found = self._meet_angle(stage, tolerance, found, suspension.hang_angle)
            distance = found[0].tree_distance
        assert found is not None  # there is always a level
        return found

    def _meet_angle(self, stage: int, tolerance: float, found: Found, wanted: float) -> Found:
        """Move the trees until the loaded lines stand at the hang angle ``wanted``."""
        for _ in range(_ANGLE_TRIES):
            miss = find_hang_angle(*found) - wanted
            if abs(miss) < _ANGLE_CLOSE:
                return found
            slope = self.slope or self._guess_slope(wanted)
            before = found[0].tree_distance
            found = self._move_trees(stage, tolerance, found, -min(max(miss / slope, -0.3), 0.3), wanted)
            moved, change = found[0].tree_distance - before, find_hang_angle(*found) - wanted - miss
            if change * moved < 0:
                self.slope = change / moved
        sentence = make_sentence(
            "No tree spacing gives a hang angle of {wanted:.1f} degrees under load. "
            "Nearest found: {nearest:.1f} degrees at {distance:length}. "
            "Give tree_distance instead of hang_angle, or change the line length.",
            wanted=math.degrees(wanted),
            nearest=math.degrees(find_hang_angle(*found)),
            distance=found[0].tree_distance,
        )
        raise NoEquilibriumError(write_sentence(sentence, self.design.units))

    def _move_trees(self, stage: int, tolerance: float, found: Found, move: float, wanted: float) -> Found:
        """Return the equilibrium with the trees ``move`` m farther apart, or less far if that is out of reach."""
        distance = found[0].tree_distance
        flaws: list[GeometryIssue] = []
        for halving in range(_HALVINGS):
            try:
                return self._solve(stage, tolerance, _start_from(found), distance + move / 2**halving)
            except HammockError as error:
                flaws = error.faults
        sentence = make_sentence(
            "The search for a hang angle of {wanted:.1f} degrees under load stopped at a tree spacing of "
            "{distance:length}, where it is {nearest:.1f} degrees. {fault} "
            "Choose another hang_angle, or give tree_distance instead.",
            wanted=math.degrees(wanted),
            distance=distance,
            nearest=math.degrees(find_hang_angle(*found)),
            fault=" ".join(write_sentence(flaw.sentence, self.design.units) for flaw in flaws),
        )
        raise NoEquilibriumError(write_sentence(sentence, self.design.units))

    def _guess_slope(self, angle: float) -> float:
        """Return the change of hang angle per metre between the trees, rad/m, of straight ropes from bar to tree."""
        head, foot = self.design.hammock.suspension.head, self.design.hammock.suspension.foot
        reach = (head.line_length + foot.line_length) / 2 + (head.leg_length + foot.leg_length) / 2
        return -1 / (2 * reach * math.sin(angle))

    def _solve(self, stage: int, tolerance: float, before: Start | None, distance: float | None) -> Found:
        """Return model and equilibrium on one mesh, starting from an earlier shape if there is one."""
        design, level = self.design, self.levels[stage]
        factor = find_load_factor(design, level.load)
        model = build_model(
            design.hammock, design.person, level.mesh, tree_distance=distance, load=level.load, factor=factor
        )
        start = model.start if before is None else model.carry_over(before.model, before.positions)
        if needs_care(model):
            laid = lie_on_side(model, start, self.aside, tolerance, self._listen(stage, model))
            model, state, iterations, factorisations = laid
            self.aside = measure_aside(model, state.positions)
        else:
            state = relax(model.structure, tolerance=tolerance, start=start, progress=self._listen(stage, model))
            iterations, factorisations = state.iterations, state.factorisations
        self.iterations += iterations
        self.factorisations += factorisations
        escape = check_containment(model, state.positions)
        if escape is not None:
            advice = advise_escape(escape, design.person.posture)
            raise NoEquilibriumError(f"The person {escape} ({len(model.triangles)} triangles). {advice}")
        if not state.converged:
            raise NoEquilibriumError(
                f"No equilibrium found on {len(model.triangles)} triangles ({state.reason}, residual "
                f"{state.residual:.1e} after {state.iterations} steps). {state.message}"
            )
        return model, state

    def _listen(self, stage: int, model: HammockModel) -> Callable[[Progress], None] | None:
        """Return a listener of the solver that calls the caller's."""
        listener = self.listener
        if listener is None:
            return None
        triangles, stages = len(model.triangles), len(self.levels)
        return lambda step: listener(CaseProgress(stage + 1, stages, triangles, step))
