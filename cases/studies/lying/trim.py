"""Hang for a target: the strap height or line length at which a measure of comfort has a value."""

import itertools
from dataclasses import dataclass
from math import degrees

from ....hammock import HammockError, LoadCase
from ....materials import Sentence, make_sentence
from ....materials.short_repr import write_repr, write_value
from ...design import Design
from ...design_issue import write_choices
from ...judging.comfort.measure_list import find_measure
from ...result import Result
from ...solving.no_equilibrium import NoEquilibriumError
from ...solving.solution import solve_equilibrium
from ...unit_display import write_sentence
from ..line_callback import LineCallback
from ..solve_clock import SolveClock
from .target import Target, TargetError, read_target
from .varied_length import VARIED

_FIRST = 0.05  # m: the first change
_LONGEST = 0.2  # m: the longest
_FARTHEST = 0.6  # m from where the design has it
_GRID = 0.1  # m
_TRIES = 12
_USUAL = 4  # solves that a search usually takes
_MESH = 0.08  # m


@dataclass(frozen=True)
class Trim:
    """A change that meets a target.

    Parameters
    ----------
    key : str
        What was changed, a key of ``VARIED``.
    value : float
        Its new length, m.
    measure : str
        ``slide``, or the key of a measure of comfort.
    before : Result
        Of the hammock as the design has it.
    result : Result
        Of the hammock so hung, between the same trees.
    """

    key: str
    value: float
    measure: str
    before: Result
    result: Result

    def __repr__(self) -> str:
        return write_repr(self, f"{self.key} {write_value(self.value, 'length')}", f"for {self.measure}")


def find_trim(
    design: Design,
    target: str,
    *,
    vary: str = "foot_strap_height",
    mesh_size: float = _MESH,
    report: LineCallback | None = None,
) -> Trim:
    """Find the strap height or line length that meets a target of the lying person.

    The trees stay where the design has them under the spread weight. Secant steps, each from the last shape; where
    they fail, every 10 cm of the attainable range is tried and the interval around the target is halved.

    Parameters
    ----------
    design : Design
        What is hung, with its person.
    target : str
        See :func:`~tautlay.cases.studies.lying.target.read_target`.
    vary : str
        What may change, by 60 cm at the most: a key of :data:`~tautlay.cases.studies.lying.varied_length.VARIED`.
    mesh_size : float
        Edge length in the field, m.
    report : callable or None
        Receives a line on what is being solved, and how long the rest takes.

    Raises
    ------
    TargetError
        For an unknown target or key.
    NoEquilibriumError
        If the target cannot be reached; the message gives the attainable range.
    """
    wanted = read_target(target)
    if vary not in VARIED:
        raise TargetError(f"{vary!r} cannot be varied. Choose {write_choices(list(VARIED))}.")
    clock = SolveClock(report, 1 + _USUAL)
    with clock.solve("as designed"):
        before = solve_equilibrium(design, load=LoadCase.LYING, mesh_size=mesh_size, hot_spots=False)
    search = _TrimSearch(design, vary, wanted, _Try(VARIED[vary].read(design.hammock.suspension), before), clock)
    found = search.step() or search.halve()
    if found is None:
        raise NoEquilibriumError(write_sentence(search.describe_range(), design.units))
    return Trim(vary, found.value, wanted.measure, before, found.result)


@dataclass(frozen=True)
class _Try:
    """A length and the result with it."""

    value: float
    result: Result


class _TrimSearch:
    """Hangs the design again and again with another length."""

    def __init__(self, design: Design, vary: str, target: Target, first: _Try, clock: SolveClock) -> None:
        self.design, self.vary, self.target, self.first, self.clock = design, vary, target, first, clock
        self.grid: list[_Try] = []

    def read(self, tried: _Try) -> float:
        """Return the measure that the target is about."""
        assert tried.result.comfort is not None  # whoever lies is in contact
        return self.target.read(tried.result.comfort)

    def miss(self, tried: _Try) -> float:
        """Return by how much the target is missed."""
        return self.read(tried) - self.target.value

    def hang(self, value: float, start: _Try) -> _Try | None:
        """Return the result with another length between the same trees; None if that cannot be hung or lain in."""
        ropes = self.design.hammock.suspension.between(start.result.model.tree_distance)
        changed = self.design.hang(VARIED[self.vary].set(ropes, value))
        mesh_size = start.result.mesh_size
        words = make_sentence("{key} {value:length}", key=self.vary.replace("_", " "), value=value)
        try:
            with self.clock.solve(write_sentence(words, self.design.units)):
                found = solve_equilibrium(
                    changed, load=LoadCase.LYING, mesh_size=mesh_size, hot_spots=False, start=start.result
                )
        except (HammockError, NoEquilibriumError):
            return None
        return _Try(value, found)

    def step(self) -> _Try | None:
        """Return what meets the target by secant steps, or None."""
        tried, step = self.first, _FIRST
        for _ in range(_TRIES):
            if abs(self.miss(tried)) <= self.target.within:
                return tried
            low, high = self.first.value - _FARTHEST, self.first.value + _FARTHEST
            value = min(max(tried.value + step, low), high)
            after = self.hang(value, tried) if value != tried.value else None
            if after is None:
                return None
            slope = (self.miss(after) - self.miss(tried)) / (value - tried.value)
            if slope == 0.0:
                return None
            tried, step = after, min(max(-self.miss(after) / slope, -_LONGEST), _LONGEST)
        return None

    def halve(self) -> _Try | None:
        """Return what meets the target between two lengths on a grid, or None if no two enclose it."""
        self._fill_grid()
        self.clock.expect(_USUAL)
        for low, high in itertools.pairwise(self.grid):
            if self.miss(low) * self.miss(high) <= 0.0:
                return self._halve_between(low, high)
        return None

    def _fill_grid(self) -> None:
        """Try every 10 cm to both sides, as far as it can be hung."""
        count = round(_FARTHEST / _GRID)
        self.clock.expect(2 * count + _USUAL)
        self.grid = [self.first]
        for side in (-1, 1):
            last = self.first
            for place in range(1, count + 1):
                after = self.hang(self.first.value + side * place * _GRID, last)
                if after is None:
                    break
                self.grid.append(after)
                last = after
        self.grid.sort(key=lambda tried: tried.value)

    def _halve_between(self, low: _Try, high: _Try) -> _Try | None:
        """Return what meets the target between two lengths that miss it to either side."""
        for _ in range(_TRIES):
            middle = self.hang((low.value + high.value) / 2, low)
            if middle is None or abs(self.miss(middle)) <= self.target.within:
                return middle
            low, high = (middle, high) if self.miss(middle) * self.miss(low) > 0.0 else (low, middle)
        return None

    def describe_range(self) -> Sentence:
        """Return that the target cannot be reached, and the attainable range."""
        found = sorted(self.grid, key=self.read)
        whole = len(self.grid) == 2 * round(_FARTHEST / _GRID) + 1
        return make_sentence(
            "The {key} alone cannot reach {target}: between {low:length} and {high:length} the {noun} goes from "
            "{least} (at {least_at:length}) to {most} (at {most_at:length}).{beyond} Vary another length.",
            key=VARIED[self.vary].title,
            target=repr(self.target.text),
            low=self.grid[0].value,
            high=self.grid[-1].value,
            noun="friction needed (towards the feet)"
            if self.target.measure == "slide"
            else find_measure(self.target.measure).title.partition(",")[0],
            least=self._show(found[0]),
            least_at=found[0].value,
            most=self._show(found[-1]),
            most_at=found[-1].value,
            beyond="" if whole else " Outside, it cannot be hung or the person falls out.",
        )

    def _show(self, tried: _Try) -> str:
        """Return the measure in words."""
        value = self.read(tried)
        return f"{value:.1%} of the weight" if self.target.measure == "slide" else f"{degrees(value):.1f} deg"
