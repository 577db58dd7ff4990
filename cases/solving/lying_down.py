"""How somebody lies down on the side: held there, then let go little by little. Friction makes the end depend on it."""

from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from ...hammock.arrays import FloatArray
from ...meshing import HammockModel
from ...meshing.clothing import clothe, grip_cloth, hold_turned, let_slide, measure_aside
from ...solver import Grips, Progress, State, relax

_HELD = 2e4  # N/m: hips and shoulders are held where they are wanted to within millimetres
_LET_GO = (4e3, 2e3, 1e3, 500.0, 250.0, 120.0, 60.0)  # N/m: weaker and weaker springs, each slack where one lies then
_ROUNDS = 12  # without any spring
_ROUGH = 1e-4  # residual of what is only passed through
_STILL = 5e-4  # m that hips or shoulders still turn in a round of one who lies still
_STEPS = 150  # of the solver in one round

Listener = Callable[[Progress], None] | None


class LyingDown(NamedTuple):
    """Somebody who lies on the side: model with friction, its equilibrium, and what finding it took."""

    model: HammockModel
    state: State
    iterations: int
    factorisations: int


def needs_care(model: HammockModel) -> bool:
    """Return whether a person in contact lies on the side in clothing that does not slide freely."""
    if model.frame is None or model.person is None:
        return False
    return model.person.posture.on_side and model.person.friction > 0.0


def lie_on_side(
    model: HammockModel, start: FloatArray, aside: FloatArray | None, tolerance: float, listener: Listener
) -> LyingDown:
    """Hold a person on the side on smooth cloth, let clothing grip, and let go.

    Hips and shoulders are held first, the right side below the left; then clothing sticks where it is, without a pull,
    and springs that hold them still become weaker from round to round, each slack where the last round has ended, so
    that nobody is carried past where friction holds. At last nothing holds but friction and the shape of the cloth.

    Parameters
    ----------
    model : HammockModel
        Without friction.
    start : (n, 3)
        Positions to begin from, m.
    aside : (2,) or None
        How hips and shoulders lie on a coarser mesh, see :func:`~tautlay.meshing.clothing.measure_aside`: they are held
        so, and let go at once. None holds them exactly on the side.
    tolerance : float
        Residual of the end.
    listener : callable or None
        Receives every step of the solver.
    """
    walk = _LyingWay(model, start, listener)
    held = hold_turned(model, np.zeros(2) if aside is None else aside, _HELD)
    walk.step(held, _ROUGH)
    free = let_slide(model)
    grips = grip_cloth(free, walk.positions)
    for stiffness in _LET_GO if aside is None else ():
        sprung = hold_turned(free, measure_aside(free, walk.positions), stiffness)
        grips = walk.step_clothed(sprung, grips, _ROUGH)
    for _ in range(_ROUNDS):
        before = measure_aside(free, walk.positions)
        grips = walk.step_clothed(free, grips, _ROUGH)
        if np.abs(measure_aside(free, walk.positions) - before).max() < _STILL:
            break
    last = clothe(free, grips, walk.friction)
    state = walk.step(last, tolerance)
    return LyingDown(last, state, walk.iterations, walk.factorisations)


class _LyingWay:
    """The way of a person who lies down, and what it has taken."""

    def __init__(self, model: HammockModel, start: FloatArray, listener: Listener) -> None:
        assert model.person is not None
        self.friction, self.positions, self.listener = model.person.friction, start, listener
        self.iterations = self.factorisations = 0

    def step(self, model: HammockModel, tolerance: float) -> State:
        """Go to the equilibrium of a model, or towards it."""
        state = relax(
            model.structure, start=self.positions, tolerance=tolerance, max_iterations=_STEPS, progress=self.listener
        )
        self.positions = state.positions
        self.iterations += state.iterations
        self.factorisations += state.factorisations
        return state

    def step_clothed(self, model: HammockModel, grips: Grips, tolerance: float) -> Grips:
        """Go there with clothing that grips, and return where it grips then."""
        self.step(clothe(model, grips, self.friction), tolerance)
        return grip_cloth(model, self.positions, grips)
