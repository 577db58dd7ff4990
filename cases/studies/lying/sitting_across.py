"""Sitting across a hammock to get in: what the rim presses, what the near cord bears, and where all turns over."""

from dataclasses import dataclass, replace
from math import atan2

import numpy as np

from ....hammock import LoadCase
from ....materials import make_sentence
from ....materials.short_repr import write_repr
from ....meshing.sitting_across import seat_person
from ...design import Design
from ...judging.comfort.swing import measure_roll_axis
from ...judging.forces import find_cord_tension
from ...result import Result
from ...solving.no_equilibrium import NoEquilibriumError
from ...solving.solution import solve_equilibrium
from ...storage.gather_shape import gather_shape
from ...storage.shape import Shape
from ..line_callback import LineCallback
from ..solve_clock import SolveClock
from .seat_stage import SeatStage, find_height
from .seated_equilibrium import SeatedEquilibrium, balance_sitter, let_go

_MESH = 0.05  # m: on 8 cm the rim presses half as much again, cords pull the same
_STEP = 0.05  # m of the seat across
_HALVINGS = 3  # of the step, where all turns over
_FARTHEST = 0.6  # m
_USUAL = 16  # places, as far as can be told beforehand


@dataclass(frozen=True)
class SittingAcross:
    r"""How a person sits across.

    Parameters
    ----------
    stages : tuple of SeatStage
        From right to left, each an equilibrium.
    front, back : str or None
        What ends the way to the left and to the right, as the end of a sentence on the person; None where clothing
        no longer holds the seat there.
    friction : float
        Coefficient of the person's clothing.
    spread_cord : float
        Largest tension of the left side cord under the spread weight of who sits, N.
    knees : float
        Height of the knees of the person who stands, m.
    last_tilt : float
        Of the side cords, by hand, rad: :math:`\arctan(c/\rho)`. They roll about an axis by :math:`\rho` above the
        middle between them, each c to one side; there the left one comes below that axis, and below the centre of mass.
    moved : float or None
        By how much the hips move where the seat, held there where one sits, is left to the friction of clothing, m;
        None where they slide off.
    resolution : float
        Within which the last place is found, m.
    shape : Shape or None
        The shape there where one sits, to be drawn; None where there is nothing but numbers.
    """

    stages: tuple[SeatStage, ...]
    front: str | None
    back: str | None
    friction: float
    spread_cord: float
    knees: float
    last_tilt: float
    moved: float | None
    resolution: float = _STEP / 2**_HALVINGS
    shape: Shape | None = None

    def __repr__(self) -> str:
        return write_repr(self, f"{len(self.stages)} places", repr(self.seat), self.front or "")

    @property
    def steadiest(self) -> SeatStage:
        """Where the seat needs least friction."""
        return min(self.stages, key=lambda stage: stage.friction)

    @property
    def seat(self) -> SeatStage:
        """Where one sits: midmost among the places where clothing holds; the steadiest where it holds nowhere."""
        held = self.find_range(self.friction)
        return self.steadiest if held is None else min(self.stages, key=lambda stage: abs(stage.place - sum(held) / 2))

    def find_range(self, friction: float) -> tuple[float, float] | None:
        """Return between which places, m, a coefficient of friction keeps the seat from sliding; None: nowhere.

        Between neighbouring stages what is needed is taken to change evenly; an end of the way ends the range.
        """
        middle = self.stages.index(self.steadiest)
        if self.steadiest.friction > friction:
            return None
        ends = []
        for way in (self.stages[middle::-1], self.stages[middle:]):
            needed = np.maximum.accumulate([stage.friction for stage in way])
            ends.append(float(np.interp(friction, needed, [stage.place for stage in way])))
        return ends[0], ends[1]


def sit_across(design: Design, *, mesh_size: float = _MESH, report: LineCallback | None = None) -> SittingAcross:
    """Seat a person across the hammock, facing left, feet off the ground, place by place until all turns over.

    Each place is an equilibrium of hammock and jointed person in contact that nothing outside helps against turning
    over: the trunk is straight and leans where it falls neither way, within some degrees of upright, as muscles keep
    somebody who sits; legs are limp, hands rest. So the centre of mass of all hangs below the line through the apexes.
    Feet off the ground put all the weight on the hammock, which is the worst for its parts.

    Parameters
    ----------
    design : Design
        What is solved, with its person; how the person lies makes no difference.
    mesh_size : float
        Edge length in the field, m.
    report : callable or None
        Receives a line on what is being solved, and how long the rest takes.

    Returns
    -------
    SittingAcross
        With every place.

    Raises
    ------
    NoEquilibriumError
        If the person does not come to rest where the rim lies under two thirds of the thighs.

    Notes
    -----
    Cloth is smooth; the seat is held across by what friction would have to give, told as a coefficient over all that
    presses. Balance is assumed, not found: let go, the trunk falls, and a quick movement tips sooner. What the feet
    would carry on the ground is not computed. Not validated with people.
    """
    clock = SolveClock(report, 1 + _USUAL)
    with clock.solve("spread weight"):
        hung = solve_equilibrium(design, load=LoadCase.SITTING, mesh_size=mesh_size, hot_spots=False)
    walk = _SeatSearch(hung, clock)
    if (end := walk.sit(walk.first)) is not None:
        raise NoEquilibriumError(f"Sitting across, the person {end}.")
    back = walk.go(-_STEP)
    front = walk.go(_STEP)
    if front is not None:
        walk.halve()
    stages = tuple(sorted((each.stage for each in walk.found), key=lambda stage: stage.place))
    cord, person = float(find_cord_tension(hung.model, hung.state, "left").max()), design.person
    knees = find_height(person, "thighs")
    found = SittingAcross(stages, front, back, person.friction, cord, knees, walk.find_last_tilt(), None)
    seated = next(each for each in walk.found if each.stage is found.seat)
    moved = let_go(seated, person.friction) if person.friction > 0.0 else None
    return replace(found, moved=moved, shape=gather_shape(seated.model, seated.state, design.workmanship.reductions))


class _SeatSearch:
    """Every place at which the person sat."""

    def __init__(self, hung: Result, clock: SolveClock) -> None:
        self.model, self.start, self.first = seat_person(hung.model, hung.state.positions)
        self.friction, self.clock = hung.design.person.friction, clock
        self.axis = measure_roll_axis(hung.model, hung.state)
        self.found: list[SeatedEquilibrium] = []

    def sit(self, place: float) -> str | None:
        """Sit there, starting from the nearest place; return why there is no equilibrium."""
        near = min(self.found, key=lambda each: abs(each.stage.place - place), default=None)
        with self.clock.solve(make_sentence("seat {place:length} left of the middle", place=place)):
            found, end = balance_sitter(self.model, self.start, place, self.axis, near)
        if found is not None:
            self.found.append(found)
        return end

    def go(self, step: float) -> str | None:
        """Go on from the first place until there is no equilibrium; to the back only as far as clothing holds."""
        for count in range(1, round(_FARTHEST / abs(step))):
            if (end := self.sit(self.first + count * step)) is not None:
                return end
            stage = self.found[-1].stage
            if step < 0.0 and stage.friction > self.friction:
                break
            if step < 0.0 and stage.tilt <= 0.0:
                return "lies across rather than sits: the near rim is no lower than the far one"
        return None

    def find_last_tilt(self) -> float:
        """Return the tilt by hand at which all has turned over."""
        sides = [self.start[self.model.nodes[f"{side} edge"]].mean(axis=0) for side in ("left", "right")]
        return atan2(float(np.linalg.norm(sides[0] - sides[1])) / 2, self.axis)

    def halve(self) -> None:
        """Come nearer to where there is no equilibrium any more, by halves of a step."""
        last, step = max(each.stage.place for each in self.found), _STEP
        for _ in range(_HALVINGS):
            step /= 2
            if self.sit(last + step) is None:
                last += step
