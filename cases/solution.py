"""Solve a design: coarse meshes first, then the one that was asked for."""

import math
import time
from collections.abc import Callable
from typing import NamedTuple

from ..materials import say
from ..meshing import Flaw, HammockError, HammockModel, build_model
from ..solver import Progress, State, relax
from .design import Design
from .findings import find_hang_angle
from .mesh_size import count_triangles
from .reading import write_sentence
from .result import Result

_COARSEST = 0.15  # m; coarser meshes no longer save time
_COARSE_TOLERANCE = 1e-4  # residual at which a coarse shape is good enough to go on from
_ANGLE_CLOSE = math.radians(0.05)  # of the hang angle asked for
_ANGLE_TRIES = 16
_HALVINGS = 6  # of a move of the trees that goes out of reach


class CaseProgress(NamedTuple):
    """What a listener is told: which mesh of how many, and the step on it."""

    stage: int
    stages: int
    triangles: int
    step: Progress


Listener = Callable[[CaseProgress], None]


class NoEquilibriumError(Exception):
    """No equilibrium was found; the message says why and what to do."""


def solve_case(
    design: Design,
    *,
    load: str | None = None,
    mesh_size: float | None = None,
    tolerance: float = 1e-6,
    progress: Listener | None = None,
) -> Result:
    """Find the loaded shape of a design and what every part carries.

    Parameters
    ----------
    design : Design
        From :func:`read_design`.
    load : str or None
        Name of the load case; None is the one the design names.
    mesh_size : float or None
        Edge length in the field, m; None is the one the design names.
    tolerance : float
        Residual over applied load at which the shape counts as found.
    progress : callable or None
        Told a :class:`CaseProgress` after each step.

    Returns
    -------
    Result
        With ``summary`` and ``save(folder)``.

    Raises
    ------
    ValueError
        For a load case that does not exist; a :class:`MeshSizeError` for a mesh size that does not fit.
    NoEquilibriumError
        If the solver ends without an equilibrium.
    """
    wanted = load or design.load
    if wanted not in LOAD_CASES:
        raise ValueError(f"there is no load case {wanted!r}; there is {', '.join(LOAD_CASES)}.")
    begun = time.perf_counter()
    size = design.mesh_size if mesh_size is None else mesh_size
    count_triangles(design, size)  # refuses a size that does not fit
    ladder = _Ladder(design, _list_sizes(size), progress)
    model, state = ladder.climb(tolerance)
    seconds = time.perf_counter() - begun
    return Result(design, wanted, size, model, state, ladder.iterations, ladder.factorisations, seconds)


LOAD_CASES = ("distributed",)


def _list_sizes(size: float) -> list[float]:
    """Return mesh sizes, each half of the one before, down to ``size``."""
    sizes = [size]
    while sizes[0] * 2 <= _COARSEST:
        sizes.insert(0, sizes[0] * 2)
    return sizes


Found = tuple[HammockModel, State]


class _Ladder:
    """Climbs from the coarsest mesh to the finest and keeps the hang angle on the way."""

    def __init__(self, design: Design, sizes: list[float], listener: Listener | None) -> None:
        self.design, self.sizes, self.listener = design, sizes, listener
        self.slope: float | None = None  # rad of hang angle per metre between the trees
        self.iterations = self.factorisations = 0

    def climb(self, tolerance: float) -> Found:
        """Return the finest model and its equilibrium."""
        suspension = self.design.hammock.suspension
        found, distance = None, suspension.tree_distance
        for stage in range(len(self.sizes)):
            loose = tolerance if stage == len(self.sizes) - 1 else max(tolerance, _COARSE_TOLERANCE)
            found = self._solve(stage, loose, found, distance)
            if suspension.hang_angle is not None:
                found = self._meet_angle(stage, tolerance, found, suspension.hang_angle)
            distance = found[0].tree_distance
        assert found is not None  # there is always a mesh
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
        sentence = say(
            "No tree distance gives a mean hang angle of {wanted:.1f} degrees under load: "
            "{nearest:.1f} degrees at {distance:length} is the nearest found. "
            "Give tree_distance instead of hang_angle, or change the length of the lines.",
            wanted=math.degrees(wanted),
            nearest=math.degrees(find_hang_angle(*found)),
            distance=found[0].tree_distance,
        )
        raise NoEquilibriumError(write_sentence(sentence, self.design.units))

    def _move_trees(self, stage: int, tolerance: float, found: Found, move: float, wanted: float) -> Found:
        """Return the equilibrium with the trees ``move`` m farther apart, or less far if that is out of reach."""
        distance = found[0].tree_distance
        flaws: list[Flaw] = []
        for halving in range(_HALVINGS):
            try:
                return self._solve(stage, tolerance, found, distance + move / 2**halving)
            except HammockError as error:
                flaws = error.faults
        sentence = say(
            "The search for a mean hang angle of {wanted:.1f} degrees under load stopped at trees "
            "{distance:length} apart, where it is {nearest:.1f} degrees. {fault} "
            "Choose another hang_angle, or give tree_distance instead.",
            wanted=math.degrees(wanted),
            distance=distance,
            nearest=math.degrees(find_hang_angle(*found)),
            fault=" ".join(write_sentence(flaw.sentence, self.design.units) for flaw in flaws),
        )
        raise NoEquilibriumError(write_sentence(sentence, self.design.units))

    def _guess_slope(self, angle: float) -> float:
        """Return the change of hang angle per metre between the trees, rad/m, of straight ropes from bar to tree."""
        ropes = self.design.hammock.suspension
        reach = ropes.line_length + (ropes.head_leg_length + ropes.foot_leg_length) / 2
        return -1 / (2 * reach * math.sin(angle))

    def _solve(self, stage: int, tolerance: float, before: Found | None, distance: float | None) -> Found:
        """Return model and equilibrium on one mesh, starting from an earlier shape if there is one."""
        design = self.design
        model = build_model(design.hammock, design.person, self.sizes[stage], tree_distance=distance)
        start = model.start if before is None else model.carry_over(before[0], before[1].positions)
        state = relax(model.structure, tolerance=tolerance, start=start, progress=self._listen(stage, model))
        self.iterations += state.iterations
        self.factorisations += state.factorisations
        if not state.converged:
            raise NoEquilibriumError(
                f"No equilibrium found on {len(model.mesh.triangles)} triangles ({state.reason}, residual "
                f"{state.residual:.1e} after {state.iterations} steps). {state.message}"
            )
        return model, state

    def _listen(self, stage: int, model: HammockModel) -> Callable[[Progress], None] | None:
        """Return a listener of the solver that tells the caller's."""
        listener = self.listener
        if listener is None:
            return None
        triangles, stages = len(model.mesh.triangles), len(self.sizes)
        return lambda step: listener(CaseProgress(stage + 1, stages, triangles, step))
