"""The grammar of a maker's quantities: one number and one unit, read strictly.

A unit library that evaluates what it is given reads ``2,5 mm`` as 25 mm and ``1 3/4 in`` as 0.75 in. So the
text is matched here, against a closed list of units, and only our own name of the unit goes to pint.
"""

import re
from math import isfinite
from typing import NamedTuple

from .display import System, format_quantity
from .plausible_range import PLAUSIBLE, Plausible, check_plausible, find_plausible
from .unit_hints import HINTS
from .units import DIMENSIONS, convert_number, find_dimension

__all__ = [
    "DIMENSIONS",
    "PLAUSIBLE",
    "Plausible",
    "QuantityError",
    "System",
    "check_plausible",
    "format_quantity",
    "parse_quantity",
]

LONGEST = 64
SIGNED = ("angle", "ratio")  # an angle may turn either way, a ratio may be a contraction

# [0-9] and not \d: \d also takes the digits of other scripts.
_DECIMAL = r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?"
_FRACTION = r"(?:(?P<whole>[0-9]+)(?: ?- ?| ))?(?P<top>[0-9]+) ?/ ?(?P<bottom>[0-9]+)"
_NUMBER = re.compile(rf"(?:{_FRACTION}|(?P<decimal>{_DECIMAL}))(?P<unit>(?![0-9.]).*)")
_FEET_INCHES = re.compile(r"(?P<feet>[0-9]+) ?(?:ft|foot|feet|')(?:-| - | ?)(?P<inches>[0-9.].*)")
_INCHES = ("in", "inch", "inches", '"')
_SAME = str.maketrans(
    {
        "′": "'",
        "’": "'",
        "″": '"',
        "”": '"',
        "\u00a0": " ",
        "½": " 1/2 ",
        "¼": " 1/4 ",
        "¾": " 3/4 ",
    }
)


class QuantityError(ValueError):
    """A quantity that cannot be read; the message says what is wrong with it and gives an example."""


class _Refusal(Exception):  # noqa: N818 - never leaves this module
    """Why a text is not a quantity, as a predicate of the text."""


class _Reading(NamedTuple):
    """SI value and the unit it was written in."""

    value: float
    unit: str


def _read_float(text: str) -> float:
    """Return a finite float, refusing overflow and underflow."""
    number = float(text)
    if not isfinite(number):
        raise _Refusal("is too large")
    if number == 0.0 and re.search("[1-9]", re.split("[eE]", text)[0]):
        raise _Refusal("is too small")
    return number


def _read_number(match: re.Match[str]) -> float:
    """Return the value of a matched decimal number, fraction or mixed fraction."""
    if match["decimal"] is not None:
        return _read_float(match["decimal"])
    top, bottom = _read_float(match["top"]), _read_float(match["bottom"])
    if bottom == 0.0:
        raise _Refusal("divides by zero")
    if match["whole"] is None:
        return top / bottom
    if top >= bottom:
        raise _Refusal("has a fraction of one or more after a whole number")
    return _read_float(match["whole"]) + top / bottom


def _refuse_unit(unit: str, dimension: str) -> _Refusal:
    """Return why ``unit`` is not accepted, with the unit that was probably meant."""
    units = find_dimension(dimension).units
    if hint := HINTS.get(dimension, {}).get(unit):
        return _Refusal(f"has the wrong unit: {hint}")
    if "," in unit:
        return _Refusal("has a comma: use a decimal point, and no thousands separator")
    if not unit:
        return _Refusal("needs a unit")
    for name in units:
        if name and name.casefold() == unit.casefold():
            return _Refusal(f"has the wrong unit: upper and lower case matter, write {name}")
    return _Refusal(f"has an unknown unit {unit!r}")


def _read_simple(text: str, dimension: str) -> _Reading:
    """Read one number and one unit."""
    match = _NUMBER.fullmatch(text)
    if match is None:
        raise _Refusal("does not start with a plain number")
    number = _read_number(match)
    unit = re.sub(r" ?([/^]) ?", r"\1", match["unit"].strip())
    unit = re.sub(r"/5 cm$", "/5cm", unit)
    if unit not in find_dimension(dimension).units:
        raise _refuse_unit(unit, dimension)
    if dimension not in SIGNED and text.startswith("-"):
        raise _Refusal("must not be negative")
    try:
        value = convert_number(number, dimension, unit)
    except ZeroDivisionError:
        raise _Refusal(f"must not be zero {unit}") from None
    if not isfinite(value):
        raise _Refusal("is too large")
    return _Reading(value, unit)


def _read_length(text: str) -> _Reading:
    """Read feet and inches, or any other length."""
    match = _FEET_INCHES.fullmatch(text)
    if match is None:
        return _read_simple(text, "length")
    inner = _NUMBER.fullmatch(match["inches"])
    if inner is None or inner["unit"].strip() not in _INCHES:
        raise _Refusal("has no inches with their unit after the feet")
    inches = _read_number(inner)
    if inches >= 12.0:
        raise _Refusal("has 12 or more inches after the feet")
    return _Reading(convert_number(12.0 * _read_float(match["feet"]) + inches, "length", "in"), "in")


def _read_text(text: object, dimension: str) -> _Reading:
    """Read a quantity or raise a ``_Refusal``."""
    if not isinstance(text, str):
        raise _Refusal("is not text: put number and unit in quotes")
    if len(text) > LONGEST:
        raise _Refusal(f"is longer than {LONGEST} characters")
    powers = re.sub(r"(?<=[A-Za-z])[²³]", lambda found: "2" if found[0] == "²" else "3", text)  # of a unit only
    plain = re.sub(" +", " ", powers.translate(_SAME).replace("''", '"')).strip(" \t")
    if not plain:
        raise _Refusal("is empty")
    return _read_length(plain) if dimension == "length" else _read_simple(plain, dimension)


def _read_signed(text: object, dimension: str) -> _Reading:
    """Read a quantity that may have a minus sign."""
    if not isinstance(text, str) or not (plain := text.lstrip()).startswith("-"):
        return _read_text(text, dimension)
    value, unit = _read_text(plain[1:], dimension)
    return _Reading(-value, unit)


def _list_units(dimension: str) -> str:
    """Return the units that may be written, one name of each."""
    seen: dict[object, str] = {}
    for name, unit in find_dimension(dimension).units.items():
        seen.setdefault(unit, name)
    bare = "no unit or " if "" in seen.values() else ""
    return f"{bare}{', '.join(filter(None, seen.values()))}"


def _show(text: object) -> str:
    """Return the text as written, cut to a readable length."""
    if isinstance(text, str):
        return repr(text) if len(text) <= LONGEST else f"{text[:LONGEST]!r}..."
    if isinstance(text, bool | float) or (isinstance(text, int) and abs(text) < 10**15):
        return repr(text)
    return f"a value of type {type(text).__name__}"


def parse_quantity(text: str, dimension: str, plausible: str | None = None, *, signed: bool = False) -> float:
    """Read a quantity as a maker writes it and return it in SI.

    One number (``2.5``, ``1e-3``, ``3/4``, ``1 3/4``) and one unit; lengths also as ``6 ft 2 1/2 in``.

    Parameters
    ----------
    text : str
        At most 64 characters. Anything that is not text is an error: a bare number has no unit.
    dimension : str
        One of ``DIMENSIONS``; it decides which units are allowed.
    plausible : str or None
        Key of ``PLAUSIBLE``; a value outside those bounds is an error.
    signed : bool
        Whether a minus sign may stand before it, as before a place that is measured either way; always before an angle
        or a ratio.

    Returns
    -------
    float
        SI value: m, kg, kg/m2, kg/m, N, N/m, rad, Pa, kg/m3 or 1.

    Raises
    ------
    QuantityError
        If the text cannot be read; the message has the text, the reason and an example.
    ValueError
        For an unknown ``dimension`` or ``plausible``, or if they disagree.

    Notes
    -----
    Factors come from pint and agree with NIST SP 811 (2008), Appendix B.8.

    Examples
    --------
    >>> round(parse_quantity("6 ft 2 1/2 in", "length"), 4)
    1.8923
    >>> round(parse_quantity("1.1 oz/yd2", "areal_mass", "fabric areal mass"), 5)
    0.0373
    >>> round(parse_quantity("-1 ft 2 in", "length", signed=True), 4)
    -0.3556
    """
    table = find_dimension(dimension)
    if plausible is not None and find_plausible(plausible).dimension != dimension:
        raise ValueError(f"{plausible!r} is not {table.noun}")
    try:
        value, unit = _read_signed(text, dimension) if signed else _read_text(text, dimension)
    except _Refusal as refusal:
        advice = f"Write {table.noun} such as {table.example} ({_list_units(dimension)})."
        raise QuantityError(f"{_show(text)} {refusal}. {advice}") from None
    if plausible is not None and (slip := check_plausible(value, plausible, unit)):
        raise QuantityError(f"{_show(text)} is not plausible: {slip}")
    return value
