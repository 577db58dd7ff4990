"""Sideways stability: the push that moves a person who lies in the middle."""

from ....hammock import LoadCase
from ....hammock.person import SLIPPERY
from ....meshing import PushWay
from ....solver import count_negative_pivots
from ...judging.checks.uneven_pull import may_fall_short, measure_uneven_pull
from ...judging.comfort.side_stability import SidePush, SideStability
from ...judging.comfort.swing import Swing, measure_turn, swing_by_hand
from ...judging.forces import find_forces
from ...result import Result
from ...solving.solution import solve_equilibrium
from .shifted_equilibrium import solve_shifted

_SHIFT = 0.04  # m: over 1 or 2 cm facets of the mesh that turn over the round body make the push uneven
_SWING_STEP = 0.02  # m: half the time of steps of 1 cm; push and tilt change by less than a hundredth
_CLOTHED_MESH = 0.08  # m: clothing drags the cloth along, so that facets count little: within a twentieth of 3 cm
_MESH = 0.05  # m: on finer ones push and work come out the same, within a tenth


def assess_side_stability(resting: Result, *, quick: bool = False) -> SideStability | None:
    """Push a person who lies on the back in the middle 4 cm to the side; return push, work and how far all swings over.

    Once with the friction of the person's clothing and once on perfectly smooth cloth, where what holds is the shape
    alone; who is not held there is pushed a third time, in slippery clothing. On meshes of 3 to 5 cm a secant over 4 cm
    agrees within a tenth, so that 5 cm suffice; on smooth cloth the slope at the equilibrium does not settle, since
    facets of the mesh make ripples of millimetres in the energy. For the same reason a falling direction or two mean no
    more than that the body would settle some millimetres off the middle.

    That push is level and takes a moment from outside. What somebody feels who shifts the weight alone is found beside
    it, with the clothing's friction: along the line from cord to cord, so that hammock and person swing over freely.
    Legs and side cords of that side then pull harder, which is checked.

    Parameters
    ----------
    resting : Result
        Of the load case lying.
    quick : bool
        Whether to tell no more than whether the person is held in slippery clothing. The person's own, which holds
        more, then counts as no better than that, and smooth cloth is not looked at.

    Returns
    -------
    SideStability or None
        Towards the weaker side; None without a person in contact, and for one who is held off the middle or on the
        side.

    Notes
    -----
    A limp body; an outstretched arm pushes on its own. Not validated with people.
    """
    if not resting.can_be_pushed:
        return None
    falling = count_negative_pivots(resting.model.structure, resting.state.positions)
    friction, weight = resting.design.person.friction, resting.carried_weight
    if quick:
        even = _hang_evenly(resting, max(resting.mesh_size, _CLOTHED_MESH) if friction > 0.0 else _MESH)
        slippery = _push_weaker(even, min(friction, SLIPPERY))
        swing = _swing_over(even, friction) if may_fall_short(resting.findings.checks) else None
        return SideStability(falling, _SHIFT, weight, friction, slippery, None, slippery, swing)
    even = _hang_evenly(resting, _MESH)
    smooth = clothed = slippery = _push_weaker(even, 0.0)
    if friction > 0.0:
        even = _hang_evenly(resting, max(resting.mesh_size, _CLOTHED_MESH))
        slippery = smooth if smooth.holds else _push_weaker(even, min(friction, SLIPPERY))
        clothed = _push_weaker(even, friction)
    return SideStability(falling, _SHIFT, weight, friction, clothed, smooth, slippery, _swing_over(even, friction))


def _push_weaker(coarse: Result, friction: float) -> SidePush:
    """Return the push 4 cm to the weaker side; even bodies have none, and are pushed to the left."""
    pushes = []
    for side in _list_sides(coarse):
        held = solve_shifted(coarse, side * _SHIFT, friction=friction)
        pushes.append(SidePush(side * held.push, held.work, held.end))
    return min(pushes, key=lambda each: (each.holds, each.force))


def _swing_over(even: Result, friction: float) -> Swing:
    """Return how all swings over with a shift of 4 cm, on the side to which there is no rest or more tilt."""
    rest, by_hand = measure_turn(even.model, even.state.positions), swing_by_hand(even.model, even.state, _SHIFT)
    found = []
    for side in _list_sides(even):
        held = solve_shifted(even, side * _SHIFT, friction=friction, way=PushWay.CORDS, longest=_SWING_STEP)
        turn = measure_turn(held.model, held.state.positions)
        tilt, aside, roll = (side * (after - before) for after, before in zip(turn, rest, strict=True))
        pull = measure_uneven_pull(even.forces, find_forces(held.model, held.state))
        found.append(Swing(side * held.push, tilt, -aside, roll, *by_hand, pull, held.end))
    return max(found, key=lambda swing: (swing.end is not None, swing.tilt))


def _hang_evenly(resting: Result, size: float) -> Result:
    """Return the same on an even mesh, between the same trees."""
    design = resting.design.hang_between(resting.model.tree_distance)
    return solve_equilibrium(design, load=LoadCase.LYING, mesh_size=size, hot_spots=False, start=resting)


def _list_sides(resting: Result) -> tuple[float, ...]:
    """Return to which sides to push: to the left alone where both are alike."""
    return (1.0,) if resting.design.hammock.body.is_even else (1.0, -1.0)
