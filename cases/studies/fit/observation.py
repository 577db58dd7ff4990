"""What was measured, as numbers that can be computed: of the hammock, of strips of its cloth, of its cords."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from typing import Any, NamedTuple

from ....hammock.arrays import FloatArray
from ....hammock.hammock import Hammock
from ....hammock.suspension_line import compose_line
from ....materials import Fabric, Material, Sentence, make_sentence
from ....materials.material import list_quantities
from ...judging.sensitivity.range_input import Input, MaterialInput, list_mechanical
from ..trial.reading import READINGS, find_pull
from .measured_form import AccuracyTable, CordTable, LoadedTable, MeasuredForm, StripTable, StripThread

Values = Mapping[Input, float]
FindValue = Callable[[FloatArray, Values], float]  # readings (waters, readings), values of the inputs -> what is read
_NAMES = tuple(READINGS)


class Observation(NamedTuple):
    """One measurement.

    Parameters
    ----------
    title : Sentence
        What was measured.
    value, spread : float
        What was read and its standard deviation, SI.
    dimension : str
        Of both.
    find : callable
        What the model finds instead.
    """

    title: Sentence
    value: float
    spread: float
    dimension: str
    find: FindValue


def stretch_strip(fabric: Fabric, thread: StripThread, line_load: float) -> float:
    r"""Return the strain of a strip of cloth under a force per width.

    Along a thread :math:`n/E_1` or :math:`n/E_2`; at 45 degrees

    .. math:: \varepsilon = \frac{n}{4} \left(\frac1{E_1} + \frac1{E_2} - \frac{2\nu}{E_1} + \frac1G\right).

    Parameters
    ----------
    fabric : Fabric
        With stiffnesses :math:`E_1, E_2, G` and Poisson ratio :math:`\nu`.
    thread : {"warp", "weft", "bias"}
        Direction of the strip.
    line_load : float
        n, N/m.

    Notes
    -----
    Linear orthotropic cloth in plain tension, small strains, far from the clamps; R. M. Jones, Mechanics of Composite
    Materials, off-axis compliance (from memory).

    Examples
    --------
    >>> cloth = Fabric("demo", "ripstop nylon", 0.037, 30e3, 25e3, 0.15, 54.0, 7.4e3, 7.4e3)
    >>> round(stretch_strip(cloth, "warp", 1500.0), 3), round(stretch_strip(cloth, "bias", 8.0), 4)
    (0.05, 0.0372)
    """
    if thread != "bias":
        return line_load / (fabric.warp if thread == "warp" else fabric.weft)
    along = (1 - 2 * fabric.poisson) / fabric.warp + 1 / fabric.weft + 1 / fabric.shear
    return line_load / 4 * along


def list_observations(form: MeasuredForm, hammock: Hammock) -> tuple[Observation, ...]:
    """Return everything that was measured.

    Parameters
    ----------
    form : MeasuredForm
        The file.
    hammock : Hammock
        The design's.
    """
    found: list[Observation] = []
    for place, load in enumerate(form.load):
        found += _list_loaded(load, place, form.accuracy, hammock)
    found += [watch_strip(strip, hammock.body.fabric, form.accuracy.longer) for strip in form.strip]
    ropes = {each.material.name: each.material for each in list_mechanical(hammock) if each.field == "ea"}
    found += [watch_cord(cord, ropes[cord.material], form.accuracy.longer) for cord in form.cord]
    return tuple(found)


def _list_loaded(load: LoadedTable, place: int, accuracy: AccuracyTable, hammock: Hammock) -> Iterator[Observation]:
    """Yield what was read under an amount of water, the ``place``-th."""
    for key, reading in READINGS.items():
        value = getattr(load, key)
        if value is not None:
            spread = accuracy.length if reading.dimension == "length" else accuracy.tension * value
            yield watch_reading(key, place, load.water, (value, spread))
        aside = getattr(load, f"{key}_aside", None)
        if aside is not None:
            end = hammock.suspension.pick(key.removesuffix("_line"))
            slack = find_pull(aside, load.pull, end.line_length)
            tension = slack / (1 - slack / compose_line(end).ea)  # the line is longer under its tension
            yield watch_reading(key, place, load.water, (tension, tension * accuracy.aside / aside))


def watch_reading(key: str, place: int, water: float, read: tuple[float, float]) -> Observation:
    """Return a reading of the loaded hammock with value and standard deviation; ``place`` is that of its water."""
    column, reading = _NAMES.index(key), READINGS[key]
    title = make_sentence("{words}, {water:mass} of water", words=reading.words, water=water)
    return Observation(title, *read, reading.dimension, lambda readings, _: float(readings[place, column]))


def watch_strip(strip: StripTable, fabric: Fabric, spread: float) -> Observation:
    """Return how much longer a strip became."""

    def find(_: FloatArray, values: Values) -> float:
        numbers: Any = _pick(values, fabric)  # fields of many kinds
        return strip.marks * stretch_strip(replace(fabric, **numbers), strip.thread, strip.pull / strip.width)

    title = make_sentence("strip along the {thread}, {pull:force.3}", thread=strip.thread, pull=strip.pull)
    return Observation(title, strip.longer, spread, "length", find)


def watch_cord(cord: CordTable, rope: Material, spread: float) -> Observation:
    """Return how much longer a piece of cord or strap became."""
    nominal = {field.name: float(getattr(rope, field.name)) for field in list_quantities(rope) if field.name == "ea"}

    def find(_: FloatArray, values: Values) -> float:
        return cord.marks * cord.pull / {**nominal, **_pick(values, rope)}["ea"]

    title = make_sentence("{name} pulled, {pull:force.3}", name=cord.material, pull=cord.pull)
    return Observation(title, cord.longer, spread, "length", find)


def _pick(values: Values, material: Material) -> dict[str, float]:
    """Return the values of the inputs that are numbers of a material, by field."""
    return {
        each.field: value
        for each, value in values.items()
        if isinstance(each, MaterialInput) and each.material == material
    }
