"""Two cloths sewn edge to edge, layer by layer: a seam between panels, to an extension, along a dart."""

from collections.abc import Iterator

from ....cutting import Join
from ....making import Capacity, CapacityStep, find_seam_strength
from ....making.channel_strength import EFFICIENCIES
from ....materials import Sentence
from .case import Case
from .check import Check

LAMINATE = "a sewn seam in laminate pulls out. Test one."


def check_flat_seam(
    case: Case, seam: Join, names: tuple[str, str], pull: float, cloth: Capacity, place: Sentence
) -> Iterator[Check]:
    """Yield the checks of the stitches and of the cloth at them.

    Parameters
    ----------
    case : Case
        What was solved.
    seam : Join
        With its stitching.
    names : (str, str)
        Of the part, and of the seam in a sentence: "seam" or "dart".
    pull : float
        Across it, N per metre.
    cloth : Capacity
        Strip strength of the cloth away from it.
    place : Sentence
        Where.
    """
    assert seam.stitching is not None
    (part, name), work, layers = names, case.workmanship, case.hammock.body.layers
    one = find_seam_strength(seam.stitching, work.reductions)
    step = CapacityStep(f"{layers} layers, each with a seam of its own", "the design", "stated")
    stitches = Capacity(one.value * layers, "line_load", (*one.steps, step))
    share, source, basis, _ = EFFICIENCIES[2]
    weakened = cloth.keep(share, f"the seam keeps {share:.0%}", source, basis)
    yield Check(part, f"{name} opens", pull, stitches, work.factors["seam"], place)
    yield Check(part, f"cloth tears at {name}", pull, weakened, work.factors["cloth"], place)
