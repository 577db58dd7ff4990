"""Quantities for readers: SI values in the unit a maker would choose."""

from math import floor, isfinite, log10
from typing import Literal, NamedTuple

from .units import find_dimension, unit_factor

System = Literal["metric", "imperial"]

# Of each row the last unit is taken whose threshold (SI) the value reaches.
_SCALES: dict[str, dict[str, list[tuple[float, str]]]] = {
    "metric": {
        "length": [(0.0, "mm"), (0.03, "cm"), (3.0, "m")],
        "area": [(0.0, "cm2"), (0.1, "m2")],
        "mass": [(0.0, "g"), (1.0, "kg")],
        "areal_mass": [(0.0, "g/m2")],
        "linear_mass": [(0.0, "tex"), (0.5e-3, "g/m")],
        "force": [(0.0, "N"), (10e3, "kN")],
        "line_load": [(0.0, "N/m")],
        "line_stiffness": [(0.0, "N/m")],
        "moment": [(0.0, "N m")],
        "angle": [(0.0, "deg")],
        "stress": [(0.0, "Pa"), (1e3, "kPa"), (1e6, "MPa"), (1e9, "GPa")],
        "turning_stiffness": [(0.0, "N m/rad")],
        "density": [(0.0, "kg/m3")],
        "duration": [(0.0, "s"), (60.0, "min"), (3600.0, "h"), (172800.0, "days")],
        "temperature_difference": [(0.0, "K")],
        "ratio": [(0.0, "")],
    },
    "imperial": {
        "length": [(0.0, "in"), (3.0, "ft")],
        "area": [(0.0, "in2"), (0.0929, "ft2")],
        "mass": [(0.0, "oz"), (0.45359237, "lb")],
        "areal_mass": [(0.0, "oz/yd2")],
        "linear_mass": [(0.0, "den"), (0.5e-3, "oz/yd")],
        "force": [(0.0, "lbf")],
        "line_load": [(0.0, "lbf/in")],
        "line_stiffness": [(0.0, "lbf/in")],
        "moment": [(0.0, "lbf ft")],
        "angle": [(0.0, "deg")],
        "stress": [(0.0, "psi"), (6.894757e6, "ksi"), (6.894757e9, "Msi")],
        "turning_stiffness": [(0.0, "lbf in/rad")],
        "density": [(0.0, "lb/in3")],
        "duration": [(0.0, "s"), (60.0, "min"), (3600.0, "h"), (172800.0, "days")],
        "temperature_difference": [(0.0, "degF")],
        "ratio": [(0.0, "")],
    },
}


def format_number(number: float, digits: int = 3) -> str:
    """Return ``number`` with ``digits`` significant digits, never with an exponent.

    Examples
    --------
    >>> format_number(1.0999), format_number(14321.0), format_number(0.0)
    ('1.10', '14321', '0')
    """
    if number == 0.0:
        return "0"
    rounded = float(f"{number:.{digits - 1}e}")
    return f"{number:.{max(0, digits - 1 - floor(log10(abs(rounded))))}f}"


def format_quantity(value: float, dimension: str, system: System = "metric", digits: int = 3) -> str:
    """Return an SI value as a maker would write it, such as ``37.3 g/m2`` or ``1.10 oz/yd2``.

    Parameters
    ----------
    value : float
        SI value.
    dimension : str
        One of ``DIMENSIONS``.
    system : {"metric", "imperial"}
        Units to choose from; both can be read back by ``parse_quantity``.
    digits : int
        Significant digits, at least 1; digits before the point are never dropped.

    Raises
    ------
    ValueError
        For a value that is not finite, an unknown dimension or system, or ``digits`` below 1.

    Examples
    --------
    >>> format_quantity(0.0373, "areal_mass"), format_quantity(1.1, "length", "imperial")
    ('37.3 g/m2', '43.3 in')
    """
    if digits < 1:
        raise ValueError(f"digits = {digits}: at least one significant digit is needed")
    if not isfinite(value):
        raise ValueError(f"{value} is not a finite {dimension} and cannot be written with a unit")
    unit = [unit for unit in list_units(dimension, system) if abs(value) >= unit.least][-1]
    return f"{format_number(value / unit.factor, digits)} {unit.name}".rstrip()


class DisplayUnit(NamedTuple):
    """A unit for readers: used from the SI value ``least`` on; one of it is ``factor`` in SI."""

    name: str
    least: float
    factor: float


def list_units(dimension: str, system: System) -> list[DisplayUnit]:
    """Return the units in which quantities of a dimension are written, for small values first.

    Parameters
    ----------
    dimension : str
        One of ``DIMENSIONS``.
    system : {"metric", "imperial"}
        Units to choose from.

    Raises
    ------
    ValueError
        For an unknown dimension or system.

    Examples
    --------
    >>> [(unit.name, unit.least, unit.factor) for unit in list_units("force", "metric")]
    [('N', 0.0, 1.0), ('kN', 10000.0, 1000.0)]
    """
    find_dimension(dimension)
    if system not in _SCALES:
        raise ValueError(f"unknown system of units {system!r}; choose one of {', '.join(_SCALES)}")
    return [DisplayUnit(name, least, unit_factor(dimension, name)) for least, name in _SCALES[system][dimension]]
