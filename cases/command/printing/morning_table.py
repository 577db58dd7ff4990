"""Evening and morning as a table for a terminal."""

from collections.abc import Iterable, Iterator, Sequence
from math import degrees

from rich.console import Console, Group
from rich.table import Table
from rich.text import Text

from ....making.creep import Weather
from ....making.weathering import Unknown
from ....materials import format_number, format_quantity, make_sentence
from ....materials.temperature import find_fahrenheit
from ...judging.checks.check import write_utilisation
from ...judging.weighing import weigh_design
from ...result import Result
from ...studies.morning.morning import Morning, write_advice
from ...unit_display import WIDTH, Units, find_main_system, show_alike, write_sentence


def print_morning(name: str, found: Morning, units: Units, console: Console) -> None:
    """Print how a hammock hangs in the evening and in the morning, what to do, and what is not known.

    Parameters
    ----------
    name : str
        Of the design.
    found : Morning
        From :func:`~tautlay.cases.studies.morning.morning.find_morning`.
    units : {"metric", "imperial", "both"}
        Units.
    console : Console
        Where to; nothing is wider than 80 columns.
    """
    table = Table(box=None, pad_edge=False)
    table.add_column("")
    for heading in ("evening", "morning", "at worst"):
        table.add_column(heading, justify="right", no_wrap=True)
    for row in _list_rows(found, units):
        table.add_row(*map(Text, row))
    heading = f"{name}, {found.evening.load.words}: {_write_weather(found.weather, units)}"
    sentences = [write_advice(found), *_list_lost(found), *_list_unknown(found.unknown), _write_limits()]
    lines = [Text(write_sentence(sentence, units)) for sentence in sentences]
    console.print(Group(Text(heading, style="bold"), table, Text(), *lines), width=min(console.width, WIDTH))


def _write_weather(weather: Weather, units: Units) -> str:
    """Return what lies between evening and morning."""
    system = find_main_system(units)
    warmth = f"{weather.temperature:.0f} degC"
    if system == "imperial":
        warmth = f"{find_fahrenheit(weather.temperature):.0f} degF"
    time = format_quantity(weather.after, "duration", digits=2)
    return f"after {time} under load, {'soaked' if weather.wet else 'dry'}, {warmth}"


def _list_rows(found: Morning, units: Units) -> Iterator[Sequence[str]]:
    """Yield what is compared."""
    ways = (found.evening, found.morning, found.worst)
    shapes = [way.shape for way in ways]
    yield "above the ground", *show_alike([each.ground_clearance for each in shapes], "length", units)
    yield "sag", *show_alike([each.sag for each in shapes], "length", units)
    yield "hang angle", *(f"{format_number(degrees(each.hang_angle))} deg" for each in shapes)
    yield "pull of the head line", *show_alike([way.forces.head_line for way in ways], "force", units)
    yield "pull of the foot line", *show_alike([way.forces.foot_line for way in ways], "force", units)
    yield "closest check, used", *map(_write_used, ways)
    yield "weight of the hammock", *show_alike([weigh_design(way.design).add().mass for way in ways], "mass", units)


def _write_used(result: Result) -> str:
    """Return the share of its strength that the check closest to its limit uses, factor of safety included."""
    least = min((check.margin for check in result.findings.checks), default=None)
    return "" if least is None else write_utilisation(least)


def _list_lost(found: Morning) -> Iterator[str]:
    """Yield what no longer keeps its factor of safety."""
    for check in found.lost:
        yield make_sentence("{title}: passes in the evening, may FAIL in the morning.", title=check.title)


def _list_unknown(unknown: Iterable[Unknown]) -> Iterator[str]:
    """Yield what was left as it is, by what it is."""
    materials: dict[str, list[str]] = {}
    for each in unknown:
        materials.setdefault(each.what, []).append(each.material)
    for what, names in materials.items():
        yield make_sentence("NOT KNOWN: {what}: {names}.", what=what, names=", ".join(names))


def _write_limits() -> str:
    """Return what is left out."""
    return make_sentence(
        "Creep values are mostly from memory: `tautlay materials fibre`. A new cord or splice also beds in: load it "
        "once before. Wet nylon grows by itself, a fibre by 2.7 to 2.9 %, and that is not in it; knots slip, trees "
        "lean: keep the margin above the ground."
    )
