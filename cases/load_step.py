"""Equilibria under parts of the load, as they are stored."""

from typing import Any, NamedTuple

from ..materials import Sentence, make_sentence
from ..meshing import HammockModel
from ..solver import State


class LoadStep(NamedTuple):
    """Equilibrium under a ``share`` of the person's weight."""

    share: float
    model: HammockModel
    state: State


class LoadSteps(NamedTuple):
    """Equilibria that were found, the emptiest first, and the shares of the weight for which there is none."""

    found: tuple[LoadStep, ...] = ()
    missing: tuple[float, ...] = ()


NO_STEPS = LoadSteps()


def name_step(number: int) -> str:
    """Return the file of a load step; readers of VTU take files so numbered as a series."""
    return f"load_step_{number}.vtu"


def describe_load_steps(steps: LoadSteps) -> list[dict[str, Any]]:
    """Return share of the weight and file of each, the emptiest first."""
    return [{"share_of_weight": step.share, "file": name_step(number)} for number, step in enumerate(steps.found)]


def note_load_steps(steps: LoadSteps) -> list[Sentence]:
    """Return a note on what is missing."""
    shares = ", ".join(f"{share:.0%}" for share in steps.missing)
    return [make_sentence("No equilibrium was found under {shares} of the weight.", shares=shares)] if shares else []
