"""Measurements that were not made, and could be: what the trial also reads, strips of the cloth, pieces of cord.

Loads and lengths as ``tautlay solve --how-sure`` proposes them.
"""

from collections.abc import Iterator

from ....materials import Fabric
from ....meshing.person_load import GRAVITY
from ...design import Design
from ...judging.sensitivity.range_input import list_mechanical
from ..trial.reading import READINGS
from .measured_form import AccuracyTable, CordTable, LoadedTable, MeasuredForm, StripTable, StripThread
from .observation import Observation, watch_cord, watch_reading, watch_strip

_STRAIN = 0.04  # of the strip cut on the bias: 2 to 5 %
_THREADS: tuple[StripThread, ...] = ("warp", "weft", "bias")


def list_candidates(form: MeasuredForm, design: Design) -> tuple[Observation, ...]:
    """Return what could also be measured.

    Parameters
    ----------
    form : MeasuredForm
        What was measured.
    design : Design
        Of what.
    """
    accuracy, fabric = form.accuracy, design.hammock.body.fabric
    found = [each for place, load in enumerate(form.load) for each in _list_readings(load, place, accuracy)]
    done = {strip.thread for strip in form.strip}
    found += [
        watch_strip(_cut_strip(thread, fabric), fabric, accuracy.longer) for thread in _THREADS if thread not in done
    ]
    pulled = {cord.material for cord in form.cord}
    for rope in [each.material for each in list_mechanical(design.hammock) if each.field == "ea"]:
        if rope.name not in pulled:
            cord = CordTable.model_validate({"material": rope.name, "marks": "5 m", "pull": "392 N", "longer": "1 cm"})
            found.append(watch_cord(cord, rope, accuracy.longer))
    return tuple(found)


def _list_readings(load: LoadedTable, place: int, accuracy: AccuracyTable) -> Iterator[Observation]:
    """Yield the readings of the trial that were not made under an amount of water."""
    tension = GRAVITY * load.water  # N: of a line at 30 degrees, for its accuracy alone
    for key, reading in READINGS.items():
        if getattr(load, key) is None and getattr(load, f"{key}_aside", None) is None:
            spread = accuracy.length if reading.dimension == "length" else accuracy.tension * tension
            yield watch_reading(key, place, load.water, (0.0, spread))


def _cut_strip(thread: StripThread, fabric: Fabric) -> StripTable:
    """Return a strip that is pulled as hard as its direction bears."""
    pull = 58.8 if thread != "bias" else 4 * fabric.shear * _STRAIN * 0.05
    return StripTable.model_validate(
        {"thread": thread, "width": "5 cm", "marks": "50 cm", "pull": f"{pull:.4g} N", "longer": "1 cm"}
    )
