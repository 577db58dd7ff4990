"""Equilibria under parts of the load, as a result keeps them."""

from dataclasses import dataclass
from typing import NamedTuple

from ..materials import Sentence, make_sentence
from ..meshing import HammockModel
from ..solver import State
from .record import Record


class LoadStep(NamedTuple):
    """Equilibrium under a ``share`` of the person's weight."""

    share: float
    model: HammockModel
    state: State

    def __repr__(self) -> str:
        """Return the share; the shape is long."""
        return f"LoadStep({self.share:g} of the weight, {len(self.model.mesh.triangles)} triangles)"


class LoadSteps(NamedTuple):
    """Equilibria that were found, the emptiest first, and the shares of the weight for which there is none."""

    found: tuple[LoadStep, ...] = ()
    missing: tuple[float, ...] = ()

    def __repr__(self) -> str:
        """Return the shares; the shapes are long."""
        return f"LoadSteps(found={[step.share for step in self.found]}, missing={list(self.missing)})"


@dataclass(frozen=True, repr=False)
class LoadStepRecord(Record):
    """Share of the person's weight, and the file that holds the shape under it."""

    share_of_weight: float
    file: str


NO_STEPS = LoadSteps()


def name_step(number: int) -> str:
    """Return the file of a load step; readers of VTU take files so numbered as a series."""
    return f"load_step_{number}.vtu"


def record_load_steps(steps: LoadSteps) -> tuple[LoadStepRecord, ...]:
    """Return share of the weight and file of each, the emptiest first."""
    return tuple(LoadStepRecord(step.share, name_step(number)) for number, step in enumerate(steps.found))


def note_load_steps(steps: LoadSteps) -> list[Sentence]:
    """Return a note on what is missing."""
    shares = ", ".join(f"{share:.0%}" for share in steps.missing)
    return [make_sentence("No equilibrium was found under {shares} of the weight.", shares=shares)] if shares else []
