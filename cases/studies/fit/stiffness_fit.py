"""Stiffnesses of cloth, cords and straps that fit best what was measured, and how well each is told."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from ....hammock.arrays import FloatArray
from ....materials import Sentence
from ....materials.short_repr import write_repr
from ...design import Design
from ...judging.sensitivity.range_input import Input, MaterialInput
from ..line_callback import LineCallback
from ..scatter.distribution import Distribution
from ..solve_clock import SolveClock
from ..trial.slopes import vary_scores
from ..trial.trial_inputs import list_unknown, take_values
from ..trial.trial_solver import COARSE, FINE
from .candidates import list_candidates
from .loaded_model import LoadedModel, make_loaded_model, make_strip_model
from .measured_form import MeasuredForm
from .observation import Observation, list_observations
from .posterior import Posterior, fit_scores

WELL, PARTLY = 0.35, 0.7  # of the standard deviation before: judgement
_ROUNDS = 4  # slopes and answers of a search that usually are needed


class NextMeasurement(NamedTuple):
    """A measurement that was not made: what it is, and what would be left unsure of each input with it, scores."""

    title: Sentence
    narrowed: FloatArray


class Misfit(NamedTuple):
    """One measurement: what it is, as read and as computed with what was found, SI; by how many spreads they differ."""

    title: Sentence
    measured: float
    computed: float
    spreads: float
    dimension: str


@dataclass(frozen=True)
class FoundInput:
    """What was found of one input.

    Parameters
    ----------
    source : Input
        Which.
    law : Distribution
        How it scattered before.
    value, low, high : float
        Most likely now, and between what 90 of 100 lie, SI.
    narrowed : float
        Standard deviation of its score, 1 before.
    helps : NextMeasurement or None
        The measurement that would narrow it most; None if none narrows it by a tenth.
    helped : float
        Standard deviation of its score with that; as before without.
    """

    source: Input
    law: Distribution
    value: float
    low: float
    high: float
    narrowed: float
    helps: NextMeasurement | None
    helped: float

    @property
    def told(self) -> str:
        """In words how well the measurements tell it."""
        if self.narrowed < WELL:
            return "well"
        return "in part" if self.narrowed < PARTLY else "not"


@dataclass(frozen=True)
class StiffnessFit:
    """What measurements tell of a design.

    Parameters
    ----------
    design : Design
        What was measured, between its trees.
    stiffnesses, others : tuple of FoundInput
        Of cloth, cords and straps; of lengths, widths, heights and bags.
    unknown : tuple of Input
        Stiffnesses without a range, which count as exact.
    misfits : tuple of Misfit
        Each measurement.
    chance : float
        Of misfits as large as these if model, ranges and accuracies are right.
    """

    design: Design
    stiffnesses: tuple[FoundInput, ...]
    others: tuple[FoundInput, ...]
    unknown: tuple[Input, ...]
    misfits: tuple[Misfit, ...]
    chance: float

    def __repr__(self) -> str:
        told = [str(each.source.title) for each in self.stiffnesses if each.told != "not"]
        return write_repr(self, self.design.name, f"{len(self.misfits)} measurements", f"tells {', '.join(told)}")


def fit_stiffness(
    design: Design,
    form: MeasuredForm,
    *,
    mesh_size: float = COARSE,
    fine: float = FINE,
    report: LineCallback | None = None,
) -> StiffnessFit:
    """Return the stiffnesses that fit best what was measured.

    Ranges of the library and what cutting, sewing and hanging leave unsure are the prior. Readings are those of a
    coarse mesh, shifted by what the fine one adds with the library's values.

    Parameters
    ----------
    design : Design
        What was measured.
    form : MeasuredForm
        From :func:`~.measured_file.read_measured`.
    mesh_size, fine : float
        Edge lengths of both meshes, m.
    report : callable or None
        Receives a line on what is being solved.

    Raises
    ------
    NoEquilibriumError
        If a hammock of the search has no equilibrium.
    HammockError
        If it cannot hang as measured.
    """
    clock = SolveClock(report, 1)
    model = make_loaded_model(design, form, (mesh_size, fine), clock) if form.load else make_strip_model(design)
    clock.expect(_ROUNDS * (len(model.laws) + 1))
    observations = list_observations(form, model.design.hammock)
    return find_stiffness(model, observations, list_candidates(form, model.design))


def find_stiffness(
    model: LoadedModel, observations: Sequence[Observation], candidates: Sequence[Observation]
) -> StiffnessFit:
    """Return what observations tell, and what each candidate would.

    Parameters
    ----------
    model : LoadedModel
        What computes readings.
    observations, candidates : sequence of Observation
        What was measured, and what could be; values of the latter do not count.
    """
    measured, spreads = (np.array([getattr(each, name) for each in observations]) for name in ("value", "spread"))

    def answer(scores: FloatArray) -> FloatArray:
        return _compute(model, observations, scores, model.read(scores))

    def slope(scores: FloatArray) -> FloatArray:
        return _lean(model, observations, scores)

    ends = np.array([law.reach for law in model.laws.values()])
    found = fit_scores(answer, slope, measured, spreads, ends)
    leaning = _lean(model, candidates, found.scores) / np.array([each.spread for each in candidates])[:, None]
    known = [
        NextMeasurement(each.title, found.measure_also(row)) for each, row in zip(candidates, leaning, strict=True)
    ]
    return _tell(model, observations, answer(found.scores), found, known)


def _compute(
    model: LoadedModel, observations: Sequence[Observation], scores: FloatArray, readings: FloatArray
) -> FloatArray:
    """Return what the model finds instead of each measurement (n,)."""
    values = take_values(model.laws, scores)
    return np.array([each.find(readings, values) for each in observations])


def _lean(model: LoadedModel, observations: Sequence[Observation], scores: FloatArray) -> FloatArray:
    """Return the slopes (n, inputs) of what the model finds."""
    base = _compute(model, observations, scores, model.read(scores))
    columns = []
    for moved, step, readings in vary_scores(model.read, scores):
        columns.append((_compute(model, observations, moved, readings) - base) / step)
    return np.stack(columns, axis=-1)


def _tell(
    model: LoadedModel,
    observations: Sequence[Observation],
    computed: FloatArray,
    found: Posterior,
    candidates: Sequence[NextMeasurement],
) -> StiffnessFit:
    """Return everything that was found."""
    inputs = [_tell_input(place, model.laws, found, candidates) for place in range(len(model.laws))]
    misfits = tuple(
        Misfit(each.title, each.value, float(value), float(spreads), each.dimension)
        for each, value, spreads in zip(observations, computed, found.misfits, strict=True)
    )
    return StiffnessFit(
        model.design,
        tuple(each for each in inputs if isinstance(each.source, MaterialInput)),
        tuple(each for each in inputs if not isinstance(each.source, MaterialInput)),
        list_unknown(model.design),
        misfits,
        found.chance,
    )


def _tell_input(
    place: int, laws: Mapping[Input, Distribution], found: Posterior, candidates: Sequence[NextMeasurement]
) -> FoundInput:
    """Return what was found of one input."""
    source, law = list(laws.items())[place]
    scores = np.array([found.scores[place], *found.bands[:, place]])
    value, low, high = map(float, law.take(np.clip(scores, -law.reach, law.reach)))
    narrowed = float(found.narrowed[place])
    best = min(candidates, key=lambda each: float(each.narrowed[place]), default=None)
    if best is None or best.narrowed[place] > 0.9 * narrowed:
        return FoundInput(source, law, value, low, high, narrowed, None, narrowed)
    return FoundInput(source, law, value, low, high, narrowed, best, float(best.narrowed[place]))
