"""What somebody meets whose head lies beyond the head bar, which then passes over the neck or the face."""

from collections.abc import Iterator

import numpy as np

from ....hammock.arrays import FloatArray
from ....materials import Sentence, make_sentence
from ....meshing import HammockModel, find_nearest_part
from ....solver import State

_RISING = ("chest", "shoulder", "neck", "head")  # what goes up when one sits up, from the hips


def note_bar(model: HammockModel, state: State) -> Iterator[Sentence]:
    """Yield how close the head bar passes, and what meets it on sitting up; nothing for a head before the bar.

    Parameters
    ----------
    model : HammockModel
        Structure and named parts.
    state : State
        Its equilibrium.
    """
    if model.frame is None or model.person is None or model.person.head_from_bar >= 0.0:
        return
    gap, part = find_nearest_part(model, state.positions)
    yield make_sentence(
        "The head lies beyond the head bar, which passes {gap:length} from the {part}. {met}",
        gap=gap,
        part=part,
        met=_tell_rising(model, state),
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
