"""What a bar passes that is over somebody: with the head beyond the head bar, or the feet beyond the foot bar."""

from collections.abc import Iterator

import numpy as np

from ....hammock.arrays import FloatArray
from ....materials import Sentence, make_sentence
from ....meshing import HammockModel, find_nearest_part
from ....solver import State

_RISING = ("chest", "shoulder", "neck", "head")  # what goes up when one sits up, from the hips
_UNDER = "The toes, which are not computed, are nearer to it. To get up, draw the feet back under it first."


def note_bar(model: HammockModel, state: State) -> Iterator[Sentence]:
    """Yield how close each bar passes beyond which somebody lies, and what to heed on getting up.

    Parameters
    ----------
    model : HammockModel
        Structure and named parts.
    state : State
        Its equilibrium.
    """
    person = model.person
    if model.frame is None or person is None:
        return
    if person.head_from_bar < 0.0:
        yield _tell_gap(model, state, ("head", "head lies"), _tell_rising(model, state))
    if person.head_from_bar + person.stature > model.hammock.body.length:
        yield _tell_gap(model, state, ("foot", "feet lie"), _UNDER)


def _tell_gap(model: HammockModel, state: State, where: tuple[str, str], advice: str) -> Sentence:
    """Return how close a bar passes; ``where`` is its end, and what lies beyond it."""
    gap, part = find_nearest_part(model, state.positions, where[0])
    return make_sentence(
        "The {lying} beyond the {end} bar, which passes {gap:length} from the {part}. {advice}",
        lying=where[1],
        end=where[0],
        gap=gap,
        part=part,
        advice=advice,
    )


def _tell_rising(model: HammockModel, state: State) -> str:
    """Return what meets the bar when one sits up about the hips: what is as far from them as the bar."""

    def stand(name: str) -> FloatArray:
        sides = [
            f"person {each}" for each in (name, f"left {name}", f"right {name}") if f"person {each}" in model.nodes
        ]
        return np.asarray(np.mean([state.positions[model.nodes[node][0]] for node in sides], axis=0))

    hip = stand("hip")
    bar = np.mean([state.positions[model.nodes[f"head {side} corner"][0]] for side in ("left", "right")], axis=0)
    reach = float(np.linalg.norm(bar - hip))
    parts = {part: float(np.linalg.norm(stand(part) - hip)) for part in _RISING}
    parts["head"] = parts["neck"] + float(np.linalg.norm(stand("head") - stand("neck")))  # the neck straightens
    assert model.frame is not None
    if reach > parts["head"] + float(model.frame.radii[model.frame.flesh.index("head")].max()):
        return "Sitting up, the head stays clear of it."
    part = min(parts, key=lambda each: abs(parts[each] - reach))
    met = "face" if part == "head" else part
    return f"Sitting up, the {met} meets it: slide towards the feet first, or see `tautlay sit`."
