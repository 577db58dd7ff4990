"""How far a lying person can be pushed sideways before rolling out."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import ceil, degrees, log2
from typing import NamedTuple

from ....hammock import LoadCase
from ....materials import Sentence, make_sentence
from ....materials.short_repr import write_repr, write_value
from ...design import Design
from ...judging.comfort.lay_notes import stays_on_side
from ...result import Result
from ...solving.no_equilibrium import NoEquilibriumError
from ...solving.solution import solve_equilibrium
from ...unit_display import write_sentence
from ..line_callback import LineCallback
from ..solve_clock import SolveClock
from .shifted_equilibrium import ShiftedEquilibrium, solve_shifted

RESOLUTION = 0.005  # m
_MESH = 0.05  # m: facets of coarser meshes make the push uneven by more than a hundredth of the weight
_STEP = 0.02  # m
_FARTHEST = 0.60  # m
_USUAL = 0.16  # m that are walked, as far as can be told beforehand
_FALL = 0.05  # of the weight that the push falls behind its highest before the search ends: more than facets do
_UNEVEN = 0.005  # of the weight: a smaller push means nothing, since facets make it uneven by as much

TipCallback = Callable[[float, float], None]


class TipTrial(NamedTuple):
    """One sideways shift that was tried, m, the push it needs, N, and what happens where there is no equilibrium."""

    shift: float
    push: float
    end: str | None


@dataclass(frozen=True)
class TipMargin:
    """Largest sideways shift and push of a person who stays in.

    Parameters
    ----------
    shift : float
        Of the centre of mass from the middle between both side cords where the push is largest, m, within
        ``RESOLUTION``: beyond it the body rolls out. 0 for a person who rolls out from the middle.
    push : float
        That largest sideways force between person and hammock, N.
    share : float
        That force over the weight.
    end : str
        What happens beyond.
    trials : tuple of TipTrial
        Every shift that was tried, smallest first.
    """

    shift: float
    push: float
    share: float
    end: str
    trials: tuple[TipTrial, ...] = ()

    def __repr__(self) -> str:
        return write_repr(
            self, f"{write_value(self.shift, 'length')} aside", f"push {write_value(self.push, 'force')}", self.end
        )


def find_tip_margin(
    design: Design,
    *,
    mesh_size: float = _MESH,
    step: float = _STEP,
    progress: TipCallback | None = None,
    report: LineCallback | None = None,
) -> TipMargin:
    """Push a lying person to the left, step by step, and find where rolling out begins.

    The push acts between the person and the side cords, as when the person pushes against them. Where it is largest,
    the person rolls out. Steps are taken until there is no equilibrium any more or the push has fallen well behind its
    largest, and halved about that until they are shorter than the resolution. Where a step begins makes no difference:
    the shapes found are the same from the one before and from the unpushed one. Facets of the mesh do: on 8 cm they
    make the push uneven by a fiftieth of the weight, on 5 cm by a two-hundredth. Cloth is assumed smooth. A person in
    motion tips sooner.

    Parameters
    ----------
    design : Design
        What is solved, with its person.
    mesh_size : float
        Edge length in the field, m.
    step : float
        First step, m.
    progress : callable or None
        Receives each shift with an equilibrium, m, and its push, N.
    report : callable or None
        Receives a line on what is being solved, and how long the rest takes.

    Returns
    -------
    TipMargin
        Margin to the left; where the sides differ, the other way may be shorter.

    Raises
    ------
    NoEquilibriumError
        For a person on the side who does not stay there: there is no margin.
    """
    halvings = max(0, ceil(log2(step / RESOLUTION)))
    clock = SolveClock(report, 1 + round(_USUAL / step) + 2 * halvings)
    with clock.solve("at rest"):
        smooth = replace(design, person=replace(design.person, friction=0.0))
        resting = solve_equilibrium(smooth, load=LoadCase.LYING, mesh_size=mesh_size, hot_spots=False)
    assert resting.comfort is not None  # whoever lies is in contact
    roll = resting.comfort.roll
    if design.person.posture.on_side and not stays_on_side(roll):
        raise NoEquilibriumError(
            f"The person does not stay on the side in smooth cloth but rolls to a hip roll of {degrees(roll):.0f} deg "
            '(0 on the back, 90 on the side, 180 on the belly). There is no margin. Write lie = "back".'
        )
    weight = resting.carried_weight
    search = _TipSearch(resting, weight, progress, clock)
    search.walk(step)
    clock.expect(2 * halvings)
    while step > RESOLUTION:
        step /= 2
        search.look_about(step)
    best = search.find_best()
    end = search.describe_end(best)
    shift, push = (best.shift, best.push) if best else (0.0, 0.0)
    return TipMargin(shift, push, push / weight, end, search.list_trials())


def make_tip_sentence(margin: TipMargin) -> Sentence:
    """Return a margin in words.

    Parameters
    ----------
    margin : TipMargin
        From :func:`find_tip_margin`.

    Examples
    --------
    >>> str(make_tip_sentence(TipMargin(0.095, 88.0, 0.14, "keeps rolling"))).split(", which")[0]
    'the body can be pushed 9.50 cm sideways (within 5 mm)'
    """
    if margin.shift == 0.0:
        return make_sentence(
            "on perfectly smooth cloth, at the slightest push from the centre, the person {end}: there is no margin. "
            "Clothing holds better, until you move; `tautlay solve --load lying` says how hard. Hung steeper, it would "
            "hold without.",
            end=margin.end,
        )
    return make_sentence(
        "the body can be pushed {shift:length} sideways (within {within:length.1}), which takes {push:force}, "
        "{share:.0%} of the weight. Beyond that the person {end}. Slow push on smooth cloth: a person who moves or "
        "swings tips sooner.",
        shift=margin.shift,
        within=RESOLUTION,
        push=margin.push,
        share=margin.share,
        end=margin.end,
    )


class _TipSearch:
    """Every shift that was tried."""

    def __init__(self, resting: Result, weight: float, progress: TipCallback | None, clock: SolveClock) -> None:
        self.resting, self.weight, self.progress, self.clock = resting, weight, progress, clock
        self.tried: list[ShiftedEquilibrium] = []

    def walk(self, step: float) -> None:
        """Go on until there is no equilibrium, or the push has fallen for good."""
        for count in range(1, round(_FARTHEST / step) + 1):
            held = self.hold(count * step)
            best = self.find_best()
            most = best.push if best else 0.0
            if held.end is not None or held.push < max(0.0, most - _FALL * self.weight):
                break

    def look_about(self, step: float) -> None:
        """Try ``step`` to either side of the largest push."""
        best = self.find_best()
        middle = best.shift if best else 0.0
        for shift in (middle - step, middle + step):
            if 0.0 < shift <= _FARTHEST + 1e-9:
                self.hold(shift)

    def hold(self, shift: float) -> ShiftedEquilibrium:
        """Hold the person there, starting from the nearest equilibrium that is less far out."""
        nearer = [held for held in self.tried if held.end is None and held.shift < shift]
        words = make_sentence("{shift:length} aside", shift=shift)
        with self.clock.solve(write_sentence(words, self.resting.design.units)):
            held = solve_shifted(self.resting, shift, max(nearer, key=lambda each: each.shift, default=None))
        self.tried.append(held)
        if held.end is None and self.progress is not None:
            self.progress(shift, held.push)
        return held

    def list_trials(self) -> tuple[TipTrial, ...]:
        """Return every shift that was tried, smallest first."""
        trials = [TipTrial(held.shift, held.push, held.end) for held in self.tried]
        return tuple(sorted(trials, key=lambda trial: trial.shift))

    def find_best(self) -> ShiftedEquilibrium | None:
        """Return where the push is largest, or None if it is never above the noise of the mesh."""
        found = [held for held in self.tried if held.end is None and held.push > _UNEVEN * self.weight]
        return max(found, key=lambda held: held.push, default=None)

    def describe_end(self, best: ShiftedEquilibrium | None) -> str:
        """Return what happens beyond, as the end of a sentence.

        A shape that is held farther out with less push shows that the person keeps rolling. Just beyond the largest
        push one way to it may end in such a shape and another roll past it.
        """
        beyond = sorted(
            (held for held in self.tried if best is None or held.shift > best.shift), key=lambda held: held.shift
        )
        if not beyond:
            return make_sentence("stays in up to {far:length}, the largest shift tried", far=_FARTHEST)
        ends = [held.end for held in beyond if held.end is not None]
        return ends[0] if len(ends) == len(beyond) else "keeps rolling"
