"""What a hammock reads with other stiffnesses and lengths: coarse, shifted to what a fine mesh finds."""

from dataclasses import dataclass, field, replace

import numpy as np

from ....hammock.arrays import FloatArray
from ...design import Design
from ..scatter.distribution import choose_distribution
from ..solve_clock import SolveClock
from ..trial.reading import READINGS
from ..trial.slopes import ReadScores, TrialReader
from ..trial.trial_inputs import Laws, list_laws, list_stiff
from ..trial.trial_solver import TrialSolver
from .measured_form import HungTable, MeasuredForm


@dataclass(frozen=True)
class LoadedModel:
    """Readings by the scores of the inputs.

    Parameters
    ----------
    design : Design
        Between its trees.
    laws : dict of Input to Distribution
        What is unsure, in the order of the scores.
    read_scores : callable
        From scores (inputs,) to readings (waters, readings); takes long.
    """

    design: Design
    laws: Laws
    read_scores: ReadScores
    _known: dict[bytes, FloatArray] = field(default_factory=dict)

    def read(self, scores: FloatArray) -> FloatArray:
        """Return the readings (waters, readings) at scores (inputs,); those read before are kept."""
        key = scores.tobytes()
        if key not in self._known:
            self._known[key] = self.read_scores(scores)
        return self._known[key]


def make_strip_model(design: Design) -> LoadedModel:
    """Return the model of somebody who measured no hammock, but strips and cords alone."""
    laws: Laws = {each: choose_distribution(each) for each in list_stiff(design)}
    return LoadedModel(design, laws, lambda _: np.empty((0, len(READINGS))))


def make_loaded_model(design: Design, form: MeasuredForm, sizes: tuple[float, float], clock: SolveClock) -> LoadedModel:
    """Return the model of a hammock as it hung.

    Parameters
    ----------
    design : Design
        What was measured.
    form : MeasuredForm
        With its trees and its loads.
    sizes : (float, float)
        Edge lengths of the coarse and of the fine mesh, m.
    clock : SolveClock
        Tells what is solved.
    """
    assert form.hung is not None  # asked for with loads
    hung = hang_as_measured(design, form.hung)
    waters = [each.water for each in form.load]
    with clock.solve("how it hung"):
        coarse, fine = (TrialSolver(hung, size) for size in sizes)
        if form.hung.bag_breadth is not None:
            for solver in (coarse, fine):
                solver.layout = solver.layout._replace(breadth=form.hung.bag_breadth)
        for solver in (coarse, fine):
            for water in sorted(waters, reverse=True):
                solver.solve_base(water)
    straps = tuple(end for end in ("head", "foot") if getattr(form.hung, f"{end}_strap_height") is not None)
    laws = list_laws(coarse.design, coarse.layout, straps)
    reader = TrialReader(coarse, laws, waters, clock)
    plain = np.zeros(len(laws))
    shift = TrialReader(fine, laws, waters, clock).read(plain, "on a fine mesh") - reader.read(
        plain, "on a coarse mesh"
    )
    return LoadedModel(coarse.design, laws, lambda scores: reader.read(scores, "looking for the best fit") + shift)


def hang_as_measured(design: Design, hung: HungTable) -> Design:
    """Return a design between the trees, and with the straps, that were measured."""
    changes = [
        {} if height is None else {"strap_height": height}
        for height in (hung.head_strap_height, hung.foot_strap_height)
    ]
    return replace(
        design, hammock=replace(design.hammock, suspension=design.hammock.suspension.change(*changes))
    ).hang_between(hung.tree_distance)
