"""What a trial at home should show: amounts of water, what is measured under each, and between what it should lie."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil

import numpy as np

from ....hammock.arrays import FloatArray
from ....hammock.suspension_line import compose_line
from ....materials.short_repr import write_repr, write_value
from ...design import Design
from ...record import Kilograms, Metres, Newtons, Record, SIValue, measure
from ..line_callback import LineCallback
from ..scatter.distribution import NINETY
from ..solve_clock import SolveClock
from .bag_places import BAG_MASS, PLACES, WATERS, BagLayout
from .reading import READINGS, find_pull, read_all
from .slopes import TrialReader, TrialResponse
from .trial_inputs import Laws, list_laws
from .trial_solver import COARSE, FINE, TrialSolver

PULL = 50.0  # N across a line, 5 kg on a luggage scale: judgement, moves it aside by centimetres


@dataclass(frozen=True, repr=False)
class ExpectedReading(Record):
    """What a reading should be.

    Parameters
    ----------
    key : str
        As in a file of measurements.
    words : str
        What is measured.
    expected : SIValue
        With the values of design and library.
    low, high : SIValue
        Between them lie 90 of 100 hammocks, as far as the inputs scatter.
    aside : float or None
        How far the pull moves the middle of a line aside, m; None for what is no line.
    decided_by : tuple of str
        The inputs that move it most, the first one most.
    """

    key: str
    words: str
    expected: SIValue
    low: SIValue
    high: SIValue
    aside: Metres | None
    decided_by: tuple[str, ...]


@dataclass(frozen=True, repr=False)
class TrialStep(Record):
    """What is put in, and what it should show.

    Parameters
    ----------
    water : float
        In all, kg.
    bags : int
        Bags at each place, one on the other.
    ground_clearance : float
        Expected height of the lowest point, m.
    readings : tuple of ExpectedReading
        In the order in which they are measured.
    """

    water: Kilograms
    bags: int
    ground_clearance: Metres
    readings: tuple[ExpectedReading, ...]


@dataclass(frozen=True, repr=False)
class TrialPlan:
    """A trial at home.

    Parameters
    ----------
    design : Design
        Between the trees of the trial.
    tree_distance : float
        Horizontal distance of the straps, m.
    layout : BagLayout
        How the bags lie.
    steps : tuple of TrialStep
        By rising water; the last is the proof load.
    """

    design: Design
    tree_distance: Metres
    layout: BagLayout
    steps: tuple[TrialStep, ...]

    def __repr__(self) -> str:
        waters = ", ".join(f"{step.water:g}" for step in self.steps)
        return write_repr(
            self, self.design.name, f"trees {write_value(self.tree_distance, 'length')} apart", f"{waters} kg of water"
        )

    @property
    def proof(self) -> TrialStep:
        """The proof load."""
        return self.steps[-1]


def find_proof_water(design: Design) -> float:
    """Return the proof load, kg of water: the person's mass times the factor of a sudden load, in full rounds.

    Engineering judgement, no source: what somebody pulls who lets go while just touching the cloth; bags lie still.

    Examples
    --------
    >>> from types import SimpleNamespace as Record
    >>> find_proof_water(Record(sudden_factor=2.0, person=Record(mass=64.0)))
    140.0
    """
    round_mass = BAG_MASS * PLACES
    return round_mass * ceil(design.sudden_factor * design.person.mass / round_mass - 1e-9)


def make_trial_plan(
    design: Design,
    *,
    distance: float | None = None,
    mesh_size: float = COARSE,
    fine: float = FINE,
    report: LineCallback | None = None,
) -> TrialPlan:
    """Return what a trial of a design should show.

    Heights, spans and tensions come from a fine mesh, their ranges from slopes on a coarse one, input by input.

    Parameters
    ----------
    design : Design
        What is tried.
    distance : float or None
        Of the trees of the trial, m; None takes the design's, or the one at which its hang angle comes out lying.
    mesh_size, fine : float
        Edge lengths of both meshes, m.
    report : callable or None
        Receives a line on what is being solved.

    Raises
    ------
    NoEquilibriumError
        If it cannot be hung, or a step is not found.
    """
    hung = design if distance is None else design.hang_between(distance)
    proof = find_proof_water(design)
    waters = tuple(sorted({*(water for water in WATERS if water < proof), proof}))
    clock = SolveClock(report, 2)
    with clock.solve("how it hangs"):
        solver = TrialSolver(hung, mesh_size)
        for water in reversed(waters):
            solver.solve_base(water)
    laws = list_laws(solver.design, solver.layout)
    clock.expect(len(laws) + 2)
    response = TrialReader(solver, laws, waters, clock).find_slopes(np.zeros(len(laws)))
    with clock.solve("the same on a fine mesh"):
        exact = TrialSolver(solver.design, fine)
        loaded = [exact.solve_base(water) for water in reversed(waters)][::-1]
    readings = np.array([read_all(*found) for found in loaded])
    lowest = [float(found[1].positions[: len(found[0].mesh.points), 2].min()) for found in loaded]
    steps = _list_steps(solver.design, waters, lowest, replace(response, readings=readings), laws)
    return TrialPlan(solver.design, solver.tree_distance, solver.layout, steps)


def _list_steps(
    design: Design, waters: Sequence[float], lowest: Sequence[float], response: TrialResponse, laws: Laws
) -> tuple[TrialStep, ...]:
    """Return the steps from what was found."""
    titles = [str(source.title) for source in laws]
    return tuple(
        TrialStep(
            water,
            round(water / PLACES / BAG_MASS),
            low,
            tuple(
                _expect(design, key, float(value), slope, titles)
                for key, value, slope in zip(READINGS, response.readings[place], response.slopes[place], strict=True)
            ),
        )
        for place, (water, low) in enumerate(zip(waters, lowest, strict=True))
    )


def _expect(design: Design, key: str, value: float, slopes: FloatArray, titles: Sequence[str]) -> ExpectedReading:
    """Return one reading with its range."""
    reading, reach = READINGS[key], NINETY * float(np.linalg.norm(slopes))
    order = np.argsort(-np.abs(slopes))[:2]
    found, low, high = (measure(each, reading.dimension) for each in (value, value - reach, value + reach))
    aside = find_aside(design, key, value, PULL) if reading.dimension == "force" else None
    return ExpectedReading(key, reading.words, found, low, high, aside, tuple(titles[place] for place in order))


def find_aside(design: Design, key: str, tension: Newtons, pull: Newtons) -> float:
    """Return how far a pull moves the middle of a line aside, m; from :func:`~.reading.find_pull`."""
    end = design.hammock.suspension.pick(key.removesuffix("_line"))
    length = end.line_length * (1 + tension / compose_line(end).ea)
    return find_pull(tension, pull, length)  # T = P L / (4 d) and d = P L / (4 T) are one formula
