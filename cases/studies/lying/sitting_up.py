"""Whether the head clears the head bar on the way from lying to sitting up along the hammock."""

from dataclasses import dataclass, replace
from math import degrees, radians
from typing import NamedTuple

from ....hammock import LoadCase
from ....materials import Sentence, make_sentence
from ....materials.short_repr import write_repr, write_value
from ....meshing import HammockModel, check_containment, find_nearest_part
from ....meshing.sitting_up import hold_seat, make_trunk_hold, measure_trunk, raise_trunk, straighten_neck
from ....solver import State, relax
from ...design import Design
from ...result import Result
from ...solving.no_equilibrium import NoEquilibriumError
from ...solving.solution import solve_equilibrium
from ...storage.gather_shape import gather_shape
from ...storage.shape import Shape
from ..line_callback import LineCallback
from ..solve_clock import SolveClock

_MESH = 0.08  # m: on 5 and 12 cm the least clearance comes out within a centimetre
_STEP = radians(8.0)  # of the trunk against the side cords; halved about the least clearance
_UPRIGHT = radians(80.0)  # the trunk against level at which one sits
_MOST = 24  # steps of so many that lead there
_USUAL = 26  # solves, as far as can be told beforehand
_NEAR = 0.05  # m: half the bar, a cap, some sliding of the seat; judgement
_TOLERANCE = 1e-5
_STEPS = 300  # of the solver


class SitStage(NamedTuple):
    """A trunk on its way up.

    Parameters
    ----------
    rise : float
        By which it is held steeper against the side cords than when it lies, rad.
    tilt : float
        From hips to shoulders against level, rad.
    clearance : float
        Shortest way from the line of the head bar to the person's skin, m; negative inside.
    part : str
        Of the person, that is nearest.
    moment : float
        That hands on the side cords give to raise the trunk, N m.
    hold : float
        Along the hammock between seat and cloth, N; positive where it keeps the seat from sliding to the head.
    """

    rise: float
    tilt: float
    clearance: float
    part: str
    moment: float
    hold: float

    def __repr__(self) -> str:
        clearance = f"{self.part} {write_value(self.clearance, 'length')} from the bar"
        return write_repr(self, f"tilt {write_value(self.tilt, 'angle')}", clearance)


@dataclass(frozen=True)
class WayUp:
    """A way from lying to sitting up.

    Parameters
    ----------
    neck : str
        "limp", so that the head falls back, or "straight", the head held in line with the trunk.
    stages : tuple of SitStage
        From lying upwards, each an equilibrium; where the person meets the bar, the last one is the first that does.
    end : str or None
        Why the way ends before the trunk is upright, as the end of a sentence on the person; None where it does not.
    nearest : Shape or None
        The shape there, to be drawn; None where there is nothing but numbers.
    """

    neck: str
    stages: tuple[SitStage, ...]
    end: str | None = None
    nearest: Shape | None = None

    def __repr__(self) -> str:
        return write_repr(self, f"neck {self.neck}", f"{len(self.stages)} stages", repr(self.least), self.end or "")

    @property
    def least(self) -> SitStage:
        """Where the bar is nearest."""
        return min(self.stages, key=lambda stage: stage.clearance)


@dataclass(frozen=True)
class SittingUp:
    """How a person sits up.

    Parameters
    ----------
    ways : tuple of WayUp
        With a limp neck and with a straight one.
    weight : float
        Of the person, N.
    """

    ways: tuple[WayUp, ...]
    weight: float

    def __repr__(self) -> str:
        return write_repr(self, *(repr(way) for way in self.ways))

    @property
    def worst(self) -> WayUp:
        """The way on which the bar comes nearest, or which does not lead up."""
        return min(self.ways, key=lambda way: (way.least.clearance > 0.0, way.end is None, way.least.clearance))

    @property
    def clears(self) -> bool:
        """Whether the person sits up without meeting the bar, either way."""
        return self.worst.end is None and self.worst.least.clearance > 0.0


def sit_up(design: Design, *, mesh_size: float = _MESH, report: LineCallback | None = None) -> SittingUp:
    """Raise the trunk of a lying person step by step, until it is upright, and measure how near the head bar comes.

    Each step is an equilibrium found from the one before. Hips stay where they lie on the cloth, hands on the side
    cords give the moment that raises the trunk, nothing outside helps: hip muscles alone would lift the legs. Hips and
    waist bend as in somebody who lies. Once with a limp neck, so that the head falls back, and once with a straight
    one, which reaches farthest. The pillow stays behind, so that the person lies without one.

    Parameters
    ----------
    design : Design
        What is solved, with its person.
    mesh_size : float
        Edge length in the field, m.
    report : callable or None
        Receives a line on what is being solved, and how long the rest takes.

    Raises
    ------
    NoEquilibriumError
        For a person who does not lie on the back in the middle, or finds no equilibrium there.

    Notes
    -----
    Slowly, in smooth cloth, held in the middle; the arms stay beside the body. Of six necks held from 13 degrees back
    to 67 forward the straight one came nearest to a bar set in, within a millimetre. Where the hands reach is left out:
    their forces are spread along the whole cords. Not validated with people.
    """
    posture = design.person.posture
    if posture.on_side or posture.offset > 0.0:
        raise NoEquilibriumError('Sitting up begins on the back in the middle. Write lie = "back" and offset = "0 cm".')
    clock = SolveClock(report, _USUAL)
    bare = replace(design, person=replace(design.person, posture=replace(posture, pillow=0.0)))
    with clock.solve("lying"):
        resting = solve_equilibrium(bare, load=LoadCase.LYING, mesh_size=mesh_size, hot_spots=False)
    seated = hold_seat(resting.model, resting.state.positions)
    models = {"limp": seated, "straight": straighten_neck(seated)}
    ways = tuple(_Climb(neck, model, resting, clock).walk() for neck, model in models.items())
    return SittingUp(ways, resting.carried_weight)


def make_sit_sentence(found: SittingUp) -> Sentence:
    """Return in words whether the bar is cleared.

    Parameters
    ----------
    found : SittingUp
        From :func:`sit_up`.

    Examples
    --------
    >>> stages = SitStage(0.0, 0.15, 0.3, "head", 0.0, 2.0), SitStage(1.3, 1.45, 0.14, "head", 50.0, 9.0)
    >>> print(str(make_sit_sentence(SittingUp((WayUp("straight", stages),), 700.0))).split(";")[0])
    sitting up, the head clears the head bar by 14.0 cm, closest at a torso tilt of 83 deg, neck straight
    """
    way, stages = found.worst, [stage for way in found.ways for stage in way.stages]
    least, last = way.least, way.stages[-1]
    if least.clearance <= 0.0:
        return make_sentence(
            "sitting up, the {part} meets the head bar at a torso tilt of {tilt:.0f} deg, neck {neck}: slide towards "
            "the feet first.",
            part=least.part,
            tilt=degrees(least.tilt),
            neck=way.neck,
        )
    told = make_sentence(
        "the {part} clears the head bar by {gap:length}, closest at a torso tilt of {tilt:.0f} deg, neck {neck}",
        part=least.part,
        gap=least.clearance,
        tilt=degrees(least.tilt),
        neck=way.neck,
    )
    if way.end is not None:
        return make_sentence(
            "sitting up, {told}, but beyond {last:.0f} deg the person {end}.",
            told=told,
            last=degrees(last.tilt),
            end=way.end,
        )
    return make_sentence(
        "sitting up, {told}{near}; hands on the side cords give {moment:.0f} N m, the seat needs friction of "
        "{share:.0%} of the weight, else it slides.",
        told=told,
        near=" (too near to count on)" if least.clearance < _NEAR else "",
        moment=max(stage.moment for stage in stages),
        share=max(abs(stage.hold) for stage in stages) / found.weight,
    )


class _Raised(NamedTuple):
    """A stage, and its shape."""

    stage: SitStage
    model: HammockModel
    state: State


class _Climb:
    """Every stage that was solved, and its shape."""

    def __init__(self, neck: str, model: HammockModel, resting: Result, clock: SolveClock) -> None:
        self.neck, self.model, self.lying, self.clock = neck, model, resting.state.positions, clock
        self.reductions = resting.design.workmanship.reductions
        self.found: list[_Raised] = []

    def walk(self) -> WayUp:
        """Go up, then look about where the bar was nearest."""
        end = self.climb()
        if not self.found:
            raise NoEquilibriumError(f"With the seat held the lying person {end}.")
        if end is None and self.find_nearest().stage.clearance > 0.0:
            last, middle = self.found[-1].stage.rise, self.find_nearest().stage.rise
            for rise in (middle - _STEP / 2, middle + _STEP / 2):
                if 0.0 < rise < last:
                    end = end or self.step(rise)
        stages = sorted((each.stage for each in self.found), key=lambda stage: stage.rise)
        nearest = self.find_nearest()
        return WayUp(self.neck, tuple(stages), end, gather_shape(nearest.model, nearest.state, self.reductions))

    def find_nearest(self) -> "_Raised":
        """Return where the bar is nearest so far."""
        return min(self.found, key=lambda each: each.stage.clearance)

    def climb(self) -> str | None:
        """Go up until the trunk is upright or the bar is met; return what ended the way before that."""
        for count in range(_MOST):
            if (end := self.step(count * _STEP)) is not None:
                return end
            stage = self.found[-1].stage
            if stage.clearance <= 0.0 or stage.tilt >= _UPRIGHT:
                return None
        return make_sentence("does not come upright in {count} steps", count=_MOST)

    def step(self, rise: float) -> str | None:
        """Find the shape with the trunk so much steeper; return why there is none."""
        below = [each for each in self.found if each.stage.rise < rise]
        start = max(below, key=lambda each: each.stage.rise).state.positions if below else self.lying
        model = raise_trunk(self.model, make_trunk_hold(self.model, self.lying, rise))
        with self.clock.solve(f"neck {self.neck}, trunk raised {degrees(rise):.0f} deg"):
            state = relax(model.structure, start=start, tolerance=_TOLERANCE, gear="implicit", max_iterations=_STEPS)
        if not state.converged:
            return make_sentence("finds no equilibrium ({reason})", reason=state.reason)
        clearance, part = find_nearest_part(model, state.positions, "head")
        if clearance > 0.0 and (end := check_containment(model, state.positions, arms=False)) is not None:
            return end
        moment, hold = (float(state[model.elements[name]].force) for name in ("trunk hold", "hold"))
        stage = SitStage(rise, measure_trunk(model, state.positions), clearance, part, moment, hold)
        self.found.append(_Raised(stage, model, state))
        return None
