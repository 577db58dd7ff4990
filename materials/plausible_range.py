"""Bounds outside which a quantity is probably a wrong unit."""

from math import log
from typing import NamedTuple

from .display import System, format_number, format_quantity
from .units import convert_number, find_dimension, unit_factor


class Plausible(NamedTuple):
    """Dimension, smallest and largest value that can be meant, and a usual one (SI)."""

    dimension: str
    low: float
    high: float
    usual: float


# Engineering judgement, no source: wide enough for every hammock, narrow enough for a factor of 1000 to stand out. The
# usual value only decides which of several units was probably meant.
PLAUSIBLE: dict[str, Plausible] = {
    "fabric areal mass": Plausible("areal_mass", 0.010, 0.600, 0.04),
    "fabric stiffness": Plausible("line_stiffness", 1e3, 5e6, 40000.0),
    "fabric shear stiffness": Plausible("line_stiffness", 1.0, 1e6, 100.0),
    "fabric strength": Plausible("line_load", 500.0, 500e3, 8000.0),
    "elongation": Plausible("ratio", 0.005, 1.5, 0.2),
    "Poisson ratio": Plausible("ratio", 0.0, 1.0, 0.15),
    "cord diameter": Plausible("length", 0.0003, 0.020, 0.0025),
    "linear mass": Plausible("linear_mass", 0.1e-3, 0.2, 0.005),
    "thread linear mass": Plausible("linear_mass", 5e-6, 1e-3, 5e-05),
    "breaking load": Plausible("force", 50.0, 200e3, 5000.0),
    "thread breaking load": Plausible("force", 1.0, 1e3, 30.0),
    "axial stiffness": Plausible("force", 200.0, 5e6, 50000.0),
    "strap width": Plausible("length", 0.005, 0.120, 0.025),
    "strap thickness": Plausible("length", 0.0003, 0.008, 0.0015),
    "tube diameter": Plausible("length", 0.004, 0.060, 0.016),
    "tube wall": Plausible("length", 0.0003, 0.006, 0.001),
    "rod diameter": Plausible("length", 0.002, 0.060, 0.012),
    "bar modulus": Plausible("stress", 1e9, 500e9, 70000000000.0),
    "bar strength": Plausible("stress", 5e6, 3e9, 240000000.0),
    "bar density": Plausible("density", 100.0, 10e3, 2000.0),
    "plate thickness": Plausible("length", 0.0003, 0.020, 0.002),
    "plate strength": Plausible("stress", 5e6, 3e9, 290000000.0),
    "plate density": Plausible("density", 100.0, 10e3, 2700.0),
    "fibre density": Plausible("density", 700.0, 3000.0, 1200.0),
    "creep": Plausible("ratio", 1e-5, 0.5, 0.01),
    "creep time": Plausible("duration", 60.0, 3e9, 86400.0),
    "creep shift": Plausible("temperature_difference", 1.0, 200.0, 12.0),
    "share when wet": Plausible("ratio", 0.1, 1.5, 0.9),
    "water held": Plausible("ratio", 0.001, 5.0, 0.4),
    "body length": Plausible("length", 0.5, 4.0, 2.1),
    "body width": Plausible("length", 0.2, 3.0, 1.1),
    "arc depth": Plausible("length", 0.0, 0.8, 0.2),
    "bar length": Plausible("length", 0.2, 2.5, 0.9),
    "leg length": Plausible("length", 0.1, 3.0, 0.6),
    "line length": Plausible("length", 0.05, 15.0, 1.5),
    "tree distance": Plausible("length", 1.5, 25.0, 4.5),
    "strap height": Plausible("length", 0.2, 5.0, 1.6),
    "tree girth": Plausible("length", 0.1, 10.0, 1.2),
    "trunk diameter": Plausible("length", 0.03, 3.2, 0.4),
    "stature": Plausible("length", 1.0, 2.5, 1.7),
    "person mass": Plausible("mass", 10.0, 250.0, 75.0),
    "channel width": Plausible("length", 0.004, 0.2, 0.02),
    "strip of cloth": Plausible("length", 0.01, 0.5, 0.09),
    "seam inset": Plausible("length", 0.004, 0.2, 0.038),
    "stitch length": Plausible("length", 0.0008, 0.012, 0.003),
    "mesh size": Plausible("length", 0.002, 0.5, 0.025),
}

# One name per unit, the likeliest slips; the suggestion must not depend on aliases.
_COMMON: dict[str, tuple[str, ...]] = {
    "length": ("mm", "cm", "m", "in", "ft"),
    "mass": ("kg", "lb"),  # of a person
    "areal_mass": ("g/m2", "kg/m2", "oz/yd2"),
    "linear_mass": ("g/m", "kg/m", "oz/yd", "tex", "dtex", "den"),
    "force": ("N", "kN", "lbf", "kgf"),
    "line_load": ("N/m", "N/mm", "lbf/in", "N/5cm"),
    "line_stiffness": ("N/m", "N/mm", "lbf/in", "N/5cm"),
    "moment": ("N m", "lbf ft"),
    "angle": ("deg", "rad"),
    "stress": ("Pa", "kPa", "MPa", "GPa", "psi", "ksi", "Msi"),
    "density": ("kg/m3", "g/cm3", "lb/in3"),
    "duration": ("s", "min", "h", "day"),
    "temperature_difference": ("K", "degF"),
    "ratio": ("", "%"),
}


def find_plausible(what: str) -> Plausible:
    """Return the bounds of one meaning; ValueError for a meaning that is not in ``PLAUSIBLE``."""
    if what not in PLAUSIBLE:
        raise ValueError(f"unknown meaning {what!r}; choose one of {', '.join(PLAUSIBLE)}")
    return PLAUSIBLE[what]


_IMPERIAL = ("in", "ft", "oz", "lb", "oz/yd2", "oz/yd", "lbf", "lbf/in", "psi", "ksi", "Msi", "lb/in3")
_CHANGE_OF_SYSTEM = log(2.0)  # a slip within metric or within imperial units is likelier than across


def _si_name(dimension: str) -> str:
    """Return the common unit that is the SI unit itself."""
    return next(name for name in _COMMON[dimension] if unit_factor(dimension, name) == 1.0)


def _write_short(number: float, unit: str) -> str:
    """Return number and unit without trailing zeros."""
    digits = f"{number:.3g}" if 1e-4 <= abs(number) < 1e3 else format_number(number)
    return f"{digits} {unit}".rstrip()


def _is_imperial(dimension: str, unit: str) -> bool:
    """Return whether a unit, by whatever name, is an imperial one."""
    table = find_dimension(dimension).units
    return any(table[unit] == table[name] for name in _IMPERIAL if name in table)


def _suggest_slip(number: float, unit: str, bounds: Plausible) -> str | None:
    """Return the same number in the unit that makes it plausible and most usual."""
    imperial = _is_imperial(bounds.dimension, unit)
    written = convert_number(number, bounds.dimension, unit)
    best, distance = None, abs(log(written / bounds.usual))  # what is no likelier than the text itself is no help
    for name in _COMMON[bounds.dimension]:
        meant = convert_number(number, bounds.dimension, name)
        if not bounds.low <= meant <= bounds.high:
            continue
        away = abs(log(meant / bounds.usual)) + _CHANGE_OF_SYSTEM * (imperial != (name in _IMPERIAL))
        if away < distance:
            best, distance = _write_short(number, name), away
    return best


def check_plausible(value: float, what: str, unit: str | None = None) -> str | None:
    """Return a sentence on why an SI value is not plausible, or None if it is.

    Parameters
    ----------
    value : float
        SI value.
    what : str
        A key of ``PLAUSIBLE``.
    unit : str or None
        Unit the value was written in, for the likely slip; None is the SI unit.

    Raises
    ------
    ValueError
        For a meaning that is not in ``PLAUSIBLE``, or a unit that is not one of its dimension.

    Examples
    --------
    >>> check_plausible(0.037, "fabric areal mass")
    >>> print(check_plausible(30.0, "fabric areal mass"))
    30 kg/m2 is 50 times the largest plausible fabric areal mass (600 g/m2). Did you mean 30 g/m2?
    """
    bounds = find_plausible(what)
    dimension, low, high, _ = bounds
    if low <= value <= high:
        return None
    units = find_dimension(dimension).units
    written = _si_name(dimension) if unit is None else unit
    if written not in units:
        raise ValueError(f"unknown unit {written!r} of {dimension}; choose one of {', '.join(units)}")
    number = value / unit_factor(dimension, written)
    if units[written].inverse and value != 0.0:
        number = 1.0 / (value * unit_factor(dimension, written))
    system: System = "imperial" if _is_imperial(dimension, written) else "metric"
    if value > high:
        times = format_number(value / high, 2)
        verdict = f"{times} times the largest plausible {what} ({format_quantity(high, dimension, system)})"
    else:
        verdict = f"below the smallest plausible {what} ({format_quantity(low, dimension, system)})"
    slip = _suggest_slip(number, written, bounds) if number > 0.0 else None
    advice = f"Did you mean {slip}?" if slip else "Check the number and its unit."
    return f"{_write_short(number, written)} is {verdict}. {advice}"
