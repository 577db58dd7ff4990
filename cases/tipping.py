"""How far a lying person can be pushed sideways before he or she rolls out."""

from collections.abc import Callable
from dataclasses import dataclass

from ..meshing import HammockModel, HoldResult, LoadCase, build_model, find_escape
from ..solver import State, relax
from .design import Design
from .solution import solve_case

_MESH = 0.08  # m: coarse meshes serve, and many shapes have to be found
_STEP = 0.02  # m
_FARTHEST = 0.60  # m
_TOLERANCE = 1e-5
_SLACK = 0.02  # of the weight that the push may fall before it counts: facets of a coarse mesh make it uneven


@dataclass(frozen=True)
class TipMargin:
    """How far, and how hard, a person can be pushed sideways.

    Parameters
    ----------
    shift : float
        Of the centre of mass from the middle between both side cords, m: beyond it the body rolls out by itself.
    push : float
        Largest sideways force between person and hammock on the way there, N.
    share : float
        That force over the weight.
    end : str
        What happens beyond.
    """

    shift: float
    push: float
    share: float
    end: str


def find_tip_margin(
    design: Design, *, mesh_size: float = _MESH, progress: Callable[[float, float], None] | None = None
) -> TipMargin:
    """Push a lying person to the left, 2 cm at a time, and tell where he or she begins to roll out.

    The push acts between the person and the side cords, as when one pushes oneself off; nothing outside holds
    anything, so that the hammock swings and turns as it likes. As long as the push has to grow with the
    shift the person would roll back; where it has to grow no more, he or she rolls out. Cloth is taken as
    smooth. A person in motion tips sooner.

    Parameters
    ----------
    design : Design
        What is solved, with its person.
    mesh_size : float
        Edge length in the field, m.
    progress : callable or None
        Told each shift, m, and the push it takes, N.

    Returns
    -------
    TipMargin
        The shift to 2 cm.
    """
    resting = solve_case(design, load="lying", mesh_size=mesh_size, hot_spots=False)
    weight = -float(resting.state[resting.model.elements["contact"]].force[2])
    model, state = resting.model, resting.state
    best, reached = 0.0, 0.0
    end = f"stays in up to {_FARTHEST * 100:.0f} cm, the farthest that was tried"
    for step in range(1, round(_FARTHEST / _STEP) + 1):
        model, state = _shift(design, resting.model.tree_distance, step * _STEP, mesh_size, (model, state))
        reason = find_escape(model, state.positions, arms=False)
        hold: HoldResult = state[model.elements["side push"]]
        if reason is not None or not state.converged or hold.force < best - _SLACK * weight:
            end = reason or ("rolls on by itself" if state.converged else f"finds no rest ({state.reason})")
            break
        best, reached = max(best, float(hold.force)), step * _STEP
        if progress is not None:
            progress(reached, best)
    return TipMargin(reached, best, best / weight, end)


def _shift(
    design: Design, distance: float, shift: float, size: float, before: tuple[HammockModel, State]
) -> tuple[HammockModel, State]:
    """Return the equilibrium with the person held off the middle, from the one before."""
    model = build_model(design.hammock, design.person, size, tree_distance=distance, load=LoadCase.LYING, shift=shift)
    start = model.carry_over(before[0], before[1].positions)
    return model, relax(model.structure, start=start, tolerance=_TOLERANCE, gear="implicit")
