"""Equilibria under parts of the load, from the empty hammock upwards, between the trees of the full load."""

from collections.abc import Callable
from typing import NamedTuple

from ...meshing import build_model, check_containment
from ...meshing.clothing import clothe, grip_cloth, let_slide
from ...solver import Progress, relax
from ..design import Design, find_load_factor
from ..load_step import LoadStep, LoadSteps
from ..solving.lying_down import needs_care
from ..solving.mesh_sequence import CaseProgress, Found, MeshCallback, MeshLevel

MOST_STEPS = 20
_TOLERANCE = 1e-6


def check_count(count: int) -> None:
    """Refuse a number of load steps that cannot be solved.

    Raises
    ------
    ValueError
        For less than 0 or more than ``MOST_STEPS``.

    Examples
    --------
    >>> check_count(4)
    """
    if not 0 <= count <= MOST_STEPS:
        raise ValueError(f"load_steps = {count} must be between 0 and {MOST_STEPS}.")


def find_load_steps(
    design: Design, level: MeshLevel, full: Found, count: int, progress: MeshCallback | None = None
) -> LoadSteps:
    """Return the equilibria under 0, 1/n ... (n - 1)/n of the person's weight, on the mesh of the full load.

    Each begins from the shape under the next larger weight. The trees stay where they are; without any weight the
    hammock is empty.

    Parameters
    ----------
    design : Design
        What was solved.
    level : MeshLevel
        Mesh and load case of the full load.
    full : (HammockModel, State)
        Equilibrium under the whole load.
    count : int
        n; 0 finds nothing.
    progress : callable or None
        Receives a :class:`CaseProgress` after each step.

    Returns
    -------
    LoadSteps
        A share without an equilibrium is skipped and listed.
    """
    found: list[LoadStep] = []
    missing: list[float] = []
    before = full
    for stage, share in enumerate(place / count for place in reversed(range(count))):
        step = _solve(design, level, before, share, _LoadStepProgress(stage + 1, count, progress))
        if step is None:
            missing.insert(0, share)
        else:
            found.insert(0, step)
            before = step.model, step.state
    return LoadSteps(tuple(found), tuple(missing))


class _LoadStepProgress(NamedTuple):
    """Which of how many load steps, and the listener."""

    number: int
    stages: int
    listener: MeshCallback | None

    def listen(self, triangles: int) -> Callable[[Progress], None] | None:
        """Return a listener of the solver that calls the caller's."""
        listener = self.listener
        return listener and (lambda step: listener(CaseProgress(self.number, self.stages, triangles, step)))


def _solve(design: Design, level: MeshLevel, before: Found, share: float, stage: _LoadStepProgress) -> LoadStep | None:
    """Return the equilibrium under a share of the weight; None if there is none to be found."""
    last, state = before
    model = build_model(
        design.hammock,
        design.person if share else None,
        level.mesh,
        tree_distance=last.tree_distance,
        load=level.load,
        factor=share * find_load_factor(design, level.load) if share else 1.0,
    )
    if share and needs_care(model):  # clothing keeps its grip on the way
        model = clothe(let_slide(model), grip_cloth(last, state.positions), design.person.friction)
    listener = stage.listen(len(model.triangles))
    start = model.carry_over(last, state.positions)
    state = relax(model.structure, tolerance=_TOLERANCE, start=start, progress=listener)
    lost = not state.converged or check_containment(model, state.positions) is not None
    return None if lost else LoadStep(share, model, state)
