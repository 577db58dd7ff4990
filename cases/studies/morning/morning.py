"""How a hammock hangs in the morning: solved again from the evening's shape, with its materials as they then are."""

from dataclasses import dataclass

from ....hammock.load_case import find_load_case
from ....making.creep import HIGHEST_SHARE, Weather
from ....making.weathering import Unknown
from ....materials import Cord, Sentence, Webbing, make_sentence
from ....materials.short_repr import write_repr, write_value
from ...design import Design
from ...judging.checks import Check
from ...judging.clearance import MARGIN, Clearance
from ...result import Result
from ...solving.solution import solve_equilibrium
from ..line_callback import LineCallback, tell_residual
from ..solve_clock import SolveClock
from .weathered_design import weather_design

_LEAST_DROP = 0.001  # m: less cannot be set with a strap


@dataclass(frozen=True)
class Morning:
    """A hammock in the evening and in the morning.

    Parameters
    ----------
    weather : Weather
        What lies between.
    evening, morning, worst : Result
        In the morning with the library's numbers, and with all of them at the worst ends of their ranges; the same
        object where nothing changes.
    unknown : tuple of Unknown
        What was left as it is since no source tells.
    """

    weather: Weather
    evening: Result
    morning: Result
    worst: Result
    unknown: tuple[Unknown, ...]

    def __repr__(self) -> str:
        return write_repr(self, f"{write_value(self.drop, 'length')} lower", f"{len(self.unknown)} not known")

    @property
    def drop(self) -> float:
        """By how much the lowest point has come down, m; both straps raised by it put it back."""
        return self._measure_drop(self.morning)

    @property
    def most(self) -> float:
        """By how much it comes down at worst, m."""
        return self._measure_drop(self.worst)

    def _measure_drop(self, later: Result) -> float:
        return self.evening.shape.ground_clearance - later.shape.ground_clearance

    @property
    def lost(self) -> tuple[Check, ...]:
        """Checks that pass in the evening and at worst no longer in the morning."""
        before = {check.title for check in self.evening.findings.checks if check.passed}
        return tuple(each for each in self.worst.findings.checks if not each.passed and each.title in before)

    @property
    def sinks(self) -> bool:
        """Whether it clears the ground by enough in the evening and not in the morning."""
        return self._clears(self.evening) and not self._clears(self.morning)

    @property
    def may_sink(self) -> bool:
        """Whether it clears the ground by enough in the evening and at worst not in the morning."""
        return self._clears(self.evening) and not self._clears(self.worst)

    @staticmethod
    def _clears(result: Result) -> bool:
        return Clearance(result.shape.ground_clearance).passed


def find_morning(
    design: Design, weather: Weather, *, load: str | None = None, report: LineCallback | None = None
) -> Morning:
    """Return how a design hangs after a time under load, soaked, or at another temperature.

    Parameters
    ----------
    design : Design
        Its trees and straps stay where the evening put them.
    weather : Weather
        Where nothing changes nothing is solved again.
    load : str or None
        Load case; None is the design's own.
    report : callable or None
        Receives a line of text after each step.

    Raises
    ------
    NoEquilibriumError
        If the solver ends without an equilibrium.
    HammockError
        For a hammock that cannot hang.

    Notes
    -----
    The load acts without a break; unloaded during the day, part of the creep comes back. Bars, knots and splices are as
    in the evening, and cloth creeps along warp and weft alone, not in shear.
    """
    case = str(design.load if load is None else find_load_case(load))
    clock = SolveClock(report, 3)
    evening = _solve(design, case, None, clock, "evening")
    hung = design.hang_between(evening.model.tree_distance)
    weathered = weather_design(hung, weather)
    if weathered.design is hung:
        return Morning(weather, evening, evening, evening, weathered.unknown)
    morning = _solve(weathered.design, case, evening, clock, "morning")
    worst = _solve(weather_design(hung, weather, worst=True).design, case, morning, clock, "morning at worst")
    return Morning(weather, evening, morning, worst, (*weathered.unknown, *_list_overloaded(morning)))


def _solve(design: Design, case: str, start: Result | None, clock: SolveClock, title: str) -> Result:
    """Solve it once."""
    with clock.solve(title) as line:
        return solve_equilibrium(design, load=case, start=start, progress=tell_residual(clock.report, line))


def _list_overloaded(result: Result) -> tuple[Unknown, ...]:
    """Return the cords and lines whose tension lies beyond what their creep is known for."""
    forces, hung, cord = result.forces, result.model.hammock.suspension, result.model.hammock.channel.cord
    pulls: list[tuple[float, Cord | Webbing]] = [(max(forces.side_cord_left_max, forces.side_cord_right_max), cord)]
    for name, end in (("head", hung.head), ("foot", hung.foot)):
        pulls.append((max(forces.pick_leg(name, side) for side in ("left", "right")), end.leg))
        pulls.append((forces.pick_line(name), end.line))
    beyond = [line.name for pull, line in pulls if pull > HIGHEST_SHARE * line.breaking_load]
    return tuple(
        Unknown("creep above 30 % of its breaking load, taken as proportional", name) for name in dict.fromkeys(beyond)
    )


def write_advice(found: Morning) -> Sentence:
    """Return how it hangs in the morning and what to do about it."""
    if found.may_sink:
        return make_sentence(
            "In the evening it clears the ground, in the morning it {does} not: {height:length} where "
            "{least:length} are asked. Hang both straps {most:length.2} higher.",
            does="does" if found.sinks else "may",
            height=found.worst.shape.ground_clearance,
            least=MARGIN,
            most=found.most,
        )
    if found.most < _LEAST_DROP:
        return make_sentence("It hangs as high as in the evening.")
    return make_sentence(
        "It hangs {drop:length.2} lower, at worst {most:length.2}. Hang both straps that much higher to lie as high.",
        drop=found.drop,
        most=found.most,
    )
