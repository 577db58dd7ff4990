"""How a value is shown: in metric units, in US units, or in both."""

from collections.abc import Sequence
from math import floor
from typing import Literal, NamedTuple, get_args

from ..materials import (
    DIMENSIONS,
    DisplayUnit,
    Sentence,
    System,
    format_number,
    format_quantity,
    list_units,
    parse_quantity,
)

Units = Literal[System, "both"]
_QUARTERS = ((), ("1/4",), ("1/2",), ("3/4",))  # of an inch
WIDTH = 80  # columns of the narrowest terminal that is served
UNIT_SYSTEMS: tuple[Units, ...] = get_args(Units)
SYSTEMS: tuple[System, ...] = get_args(System)
SHARE = "share"  # a separate dimension: a part of a whole, written in per cent
_PER_CENT = DisplayUnit("%", 0.0, 0.01)
_BELOW = 1 - 1e-9  # what stands on a scale is smaller than its end


def find_units(name: str) -> Units:
    """Return the units of that name, such as a file keeps them; both for any other text."""
    return next((units for units in UNIT_SYSTEMS if units == name), "both")


def title_units(units: Units) -> str:
    """Return the word for units on a screen; files and options keep their own.

    Examples
    --------
    >>> title_units("metric"), title_units("imperial")
    ('metric', 'US')
    """
    return "US" if units == "imperial" else units


def list_systems(units: Units) -> tuple[System, ...]:
    """Return the systems that are shown, one after the other.

    Examples
    --------
    >>> list_systems("imperial"), list_systems("both")
    (('imperial',), ('metric', 'imperial'))
    """
    return SYSTEMS if units == "both" else (units,)


def find_main_system(units: Units) -> System:
    """Return the system of what has room for one: metric where both are asked for."""
    return list_systems(units)[0]


def choose_unit(value: float, dimension: str, system: System) -> DisplayUnit:
    """Return the unit in which a value, and all others of a scale that ends there, are written.

    Parameters
    ----------
    value : float
        SI value at the end of the scale.
    dimension : str
        A dimension known to materials, such as ``"force"``, or ``SHARE``.
    system : {"metric", "imperial"}
        Units to choose from.

    Examples
    --------
    >>> choose_unit(2.0, "length", "metric").name
    'cm'
    """
    return [unit for unit in _list_units(dimension, system) if abs(value) >= unit.least][-1]


def _list_units(dimension: str, system: System) -> list[DisplayUnit]:
    """Return the units of a dimension, for small values first."""
    return [_PER_CENT] if dimension == SHARE else list_units(dimension, system)


def tabulate_units() -> dict[str, dict[str, list[DisplayUnit]]]:
    """Return the units of every dimension and system, ``SHARE`` too, for programs that write quantities themselves.

    Examples
    --------
    >>> [unit.name for unit in tabulate_units()["force"]["metric"]]
    ['N', 'kN']
    """
    return {name: {system: _list_units(name, system) for system in SYSTEMS} for name in (*DIMENSIONS, SHARE)}


def show_ticks(values: Sequence[float], dimension: str, units: Units) -> list[str]:
    """Return the marks of a scale, all in the unit of what stands just below its end, so that they compare at a glance.

    Parameters
    ----------
    values : sequence of float
        SI values, the last one the end of the scale.
    dimension : str
        As for :func:`choose_unit`.
    units : {"metric", "imperial", "both"}
        Which units.

    Examples
    --------
    >>> show_ticks([0.0, 500.0, 1000.0], "line_load", "metric"), show_ticks([0.0, 2000.0], "stress", "metric")
    (['0 N/m', '500 N/m', '1000 N/m'], ['0 kPa', '2 kPa'])
    """
    systems = list_systems(units)
    chosen = list(dict.fromkeys(choose_unit(values[-1] * _BELOW, dimension, system) for system in systems))
    found = []
    for value in values:
        first, *others = (f"{_trim(value / unit.factor)} {unit.name}" for unit in chosen)
        found.append(" ".join([first, *(f"({text})" for text in others)]))
    return found


def _trim(number: float) -> str:
    """Return a number of three digits without zeros behind the point."""
    text = format_number(number)
    return text.rstrip("0").rstrip(".") if "." in text else text


def show_quantity(value: float, dimension: str, units: Units = "both", digits: int = 3) -> str:
    """Return a value in the units asked for.

    Parameters
    ----------
    value : float
        SI value.
    dimension : str
        A dimension known to materials, such as ``"force"``, or ``SHARE``.
    units : {"metric", "imperial", "both"}
        Which units; an angle is the same in all, and a share.
    digits : int
        Significant digits.

    Returns
    -------
    str
        Number and unit; with ``"both"`` the second unit in brackets.

    Examples
    --------
    >>> show_quantity(444.82, "force"), show_quantity(444.82, "force", "imperial")
    ('445 N (100 lbf)', '100 lbf')
    """
    if dimension == SHARE:
        return f"{format_number(value / _PER_CENT.factor, digits)} {_PER_CENT.name}"
    if units != "both":
        return format_quantity(value, dimension, units, digits)
    metric, imperial = (format_quantity(value, dimension, system, digits) for system in SYSTEMS)
    return metric if metric == imperial else f"{metric} ({imperial})"


def show_tape(value: float, units: Units = "both") -> str:
    """Return a length as it is tied or measured with a tape: whole centimetres, quarter inches.

    Parameters
    ----------
    value : float
        m, not negative.
    units : {"metric", "imperial", "both"}
        Which units.

    Examples
    --------
    >>> show_tape(1.782), show_tape(1.782, "imperial"), show_tape(0.005, "imperial")
    ('178 cm (70 1/4 in)', '70 1/4 in', '1/4 in')
    """
    whole, quarters = divmod(round(4 * value / parse_quantity("1 in", "length")), 4)
    digits = [str(whole)] if whole or not quarters else []
    imperial = " ".join([*digits, *_QUARTERS[quarters], "in"])
    metric = f"{round(100 * value)} cm"
    return {"metric": metric, "imperial": imperial, "both": f"{metric} ({imperial})"}[units]


def show_alike(values: Sequence[float], dimension: str, units: Units) -> list[str]:
    """Return values in one unit, that of the largest, so that they compare at a glance.

    Parameters
    ----------
    values : sequence of float
        SI values, at least one.
    dimension : str
        As for :func:`choose_unit`.
    units : {"metric", "imperial", "both"}
        Units to choose from; of both the imperial one stands in brackets.

    Examples
    --------
    >>> show_alike([574.0, 2560.0], "stress", "metric")
    ['0.574 kPa', '2.56 kPa']
    >>> show_alike([0.02, 0.1], "length", "both")
    ['2.00 cm (0.787 in)', '10.0 cm (3.94 in)']
    """
    if units == "both":
        pairs = zip(*(show_alike(values, dimension, system) for system in SYSTEMS), strict=True)
        return [f"{metric} ({imperial})" for metric, imperial in pairs]
    unit = choose_unit(max(values, key=abs), dimension, units)
    return [f"{format_number(value / unit.factor)} {unit.name}".rstrip() for value in values]


def round_shares(shares: Sequence[float]) -> list[int]:
    """Return shares of a whole as per cent that add up to 100.

    What rounding down leaves goes to the largest remainders.

    Parameters
    ----------
    shares : sequence of float
        Not negative; they add up to 1.

    Returns
    -------
    list of int
        Each within one per cent of its share.

    Examples
    --------
    >>> round_shares([0.155, 0.805, 0.04])
    [16, 80, 4]
    """
    parts = [floor(100 * share) for share in shares]
    order = sorted(range(len(parts)), key=lambda place: parts[place] - 100 * shares[place])
    for place in order[: 100 - sum(parts)]:
        parts[place] += 1
    return parts


def write_sentence(text: str, units: Units = "both") -> str:
    """Return a sentence with its quantities in the units asked for; any other text as it is.

    Parameters
    ----------
    text : str or Sentence
        What is to be printed.
    units : {"metric", "imperial", "both"}
        Which units.

    Returns
    -------
    str
        Text.

    Examples
    --------
    >>> from tautlay.materials import make_sentence
    >>> write_sentence(make_sentence("It hangs {low:length} above the ground.", low=0.254), "imperial")
    'It hangs 10.0 in above the ground.'
    """
    if not isinstance(text, Sentence):
        return text
    return text.write(lambda value, dimension, digits: show_quantity(value, dimension, units, digits))


class SentenceQuantity(NamedTuple):
    """A quantity in a sentence: SI value, dimension, significant digits."""

    value: float
    dimension: str
    digits: int


def split_sentence(text: str) -> list[str | SentenceQuantity]:
    """Return a sentence as its texts and quantities in turn, beginning and ending with a text.

    Parameters
    ----------
    text : str or Sentence
        What is to be taken apart; a plain text is one piece.

    Examples
    --------
    >>> from tautlay.materials import make_sentence
    >>> split_sentence(make_sentence("It hangs {low:length} above the ground.", low=0.254))
    ['It hangs ', SentenceQuantity(value=0.254, dimension='length', digits=3), ' above the ground.']
    """
    if not isinstance(text, Sentence):
        return [text]
    found: list[SentenceQuantity] = []

    def cut(value: float, dimension: str, digits: int) -> str:
        found.append(SentenceQuantity(float(value), dimension, digits))
        return "\0"

    texts = text.write(cut).split("\0")
    return [*(piece for pair in zip(texts, found, strict=False) for piece in pair), texts[-1]]
