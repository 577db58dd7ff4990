"""Units a maker may write, and their SI values."""

from functools import cache
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    import pint


class Unit(NamedTuple):
    """One unit: ``scale`` times a unit known to pint, or its reciprocal (feet per pound)."""

    expression: str
    scale: float = 1.0
    inverse: bool = False


class Dimension(NamedTuple):
    """One kind of quantity: SI unit, an example, units by name."""

    noun: str
    si: str
    example: str
    units: dict[str, Unit]


def _named(*rows: tuple[str, Unit]) -> dict[str, Unit]:
    """Return units by each of their space-separated names."""
    return {name: unit for names, unit in rows for name in names.split()}


_LENGTH = _named(
    ("m metre metres meter meters", Unit("meter")),
    ("cm", Unit("centimeter")),
    ("mm", Unit("millimeter")),
    ("km", Unit("kilometer")),
    ('in inch inches "', Unit("inch")),
    ("ft foot feet '", Unit("foot")),
    ("yd yard yards", Unit("yard")),
)
_AREA = _named(
    ("m2 m^2", Unit("meter**2")),
    ("cm2 cm^2", Unit("centimeter**2")),
    ("ft2 ft^2", Unit("foot**2")),
    ("in2 in^2", Unit("inch**2")),
    ("yd2 yd^2", Unit("yard**2")),
)
_MASS = _named(
    ("kg", Unit("kilogram")),
    ("g", Unit("gram")),
    ("oz ounce ounces", Unit("ounce")),
    ("lb lbs pound pounds", Unit("pound")),
)
_AREAL_MASS = _named(
    ("g/m2 g/m^2 gsm", Unit("gram / meter**2")),
    ("kg/m2 kg/m^2", Unit("kilogram / meter**2")),
    ("oz/yd2 oz/yd^2", Unit("ounce / yard**2")),
)
_LINEAR_MASS = _named(
    ("g/m", Unit("gram / meter")),
    ("den denier", Unit("denier")),
    ("dtex", Unit("dtex")),
    ("tex", Unit("tex")),
    ("kg/m", Unit("kilogram / meter")),
    ("g/ft", Unit("gram / foot")),
    ("oz/yd", Unit("ounce / yard")),
    ("oz/ft", Unit("ounce / foot")),
    ("lb/ft", Unit("pound / foot")),
    ("ft/lb", Unit("foot / pound", inverse=True)),
)
_FORCE = _named(
    ("N", Unit("newton")),
    ("kN", Unit("kilonewton")),
    ("daN", Unit("decanewton")),
    ("kgf", Unit("kilogram_force")),
    ("lbf", Unit("pound_force")),
)
_LINE_LOAD = _named(
    ("N/m", Unit("newton / meter")),
    ("N/mm", Unit("newton / millimeter")),
    ("N/cm", Unit("newton / centimeter")),
    ("kN/m", Unit("kilonewton / meter")),
    ("N/5cm", Unit("newton / centimeter", scale=0.2)),
    ("lbf/in", Unit("pound_force / inch")),
    ("lbf/ft", Unit("pound_force / foot")),
)
_MOMENT = {
    **dict.fromkeys(("N m", "Nm"), Unit("newton * meter")),
    **dict.fromkeys(("lbf ft", "ft lbf"), Unit("pound_force * foot")),
}
_ANGLE = _named(("deg degree degrees °", Unit("degree")), ("rad", Unit("radian")))
_STRESS = _named(
    ("Pa", Unit("pascal")),
    ("kPa", Unit("kilopascal")),
    ("MPa N/mm2 N/mm^2", Unit("megapascal")),
    ("GPa", Unit("gigapascal")),
    ("psi", Unit("psi")),
    ("ksi", Unit("ksi")),
    ("Msi", Unit("ksi", scale=1000.0)),
)
_DENSITY = _named(
    ("kg/m3 kg/m^3", Unit("kilogram / meter**3")),
    ("g/cm3 g/cm^3", Unit("gram / centimeter**3")),
    ("lb/in3 lb/in^3", Unit("pound / inch**3")),
    ("lb/ft3 lb/ft^3", Unit("pound / foot**3")),
)
_TURN = {  # their names have a space in them
    "N m/rad": Unit("newton * meter / radian"),
    "N m/deg": Unit("newton * meter / degree"),
    "lbf in/rad": Unit("pound_force * inch / radian"),
    "lbf in/deg": Unit("pound_force * inch / degree"),
}
_DURATION = _named(
    ("s second seconds", Unit("second")),
    ("min minute minutes", Unit("minute")),
    ("h hour hours", Unit("hour")),
    ("day days", Unit("day")),
    ("week weeks", Unit("week")),
)
_TEMPERATURE_DIFFERENCE = _named(("K degC", Unit("kelvin")), ("degF", Unit("kelvin", scale=5.0 / 9.0)))
# The empty name is a bare number: allowed for a ratio and for nothing else.
_RATIO = {"": Unit("dimensionless"), "%": Unit("dimensionless", scale=0.01)}

_TABLE = {
    "length": Dimension("a length", "meter", "2.5 mm, 1 3/4 in or 6 ft 2 in", _LENGTH),
    "area": Dimension("an area", "meter**2", "0.4 m2 or 4.3 ft2", _AREA),
    "mass": Dimension("a mass", "kilogram", "80 kg or 176 lb", _MASS),
    "areal_mass": Dimension("an areal mass", "kilogram / meter**2", "37 g/m2 or 1.1 oz/yd2", _AREAL_MASS),
    "linear_mass": Dimension("a mass per length", "kilogram / meter", "2.6 g/m, 70 den or 1.7 oz/yd", _LINEAR_MASS),
    "force": Dimension("a force", "newton", "4.4 kN or 1000 lbf", _FORCE),
    "line_load": Dimension("a force per width", "newton / meter", "7.4 N/mm or 42 lbf/in", _LINE_LOAD),
    "line_stiffness": Dimension("a stiffness per width", "newton / meter", "30 N/mm", _LINE_LOAD),
    "moment": Dimension("a moment", "newton * meter", "500 N m or 370 lbf ft", _MOMENT),
    "angle": Dimension("an angle", "radian", "30 deg", _ANGLE),
    "stress": Dimension("a stress or a modulus", "pascal", "69.6 GPa or 34 ksi", _STRESS),
    "turning_stiffness": Dimension("a stiffness against turning", "newton * meter / radian", "400 N m/rad", _TURN),
    "density": Dimension("a density", "kilogram / meter**3", "2700 kg/m3", _DENSITY),
    "duration": Dimension("a time", "second", "8 h or 3 days", _DURATION),
    "temperature_difference": Dimension("a temperature", "kelvin", "5 degC or 41 degF", _TEMPERATURE_DIFFERENCE),
    "ratio": Dimension("a ratio", "dimensionless", "0.15 or 15 %", _RATIO),
}
DIMENSIONS: tuple[str, ...] = tuple(_TABLE)


def find_dimension(dimension: str) -> Dimension:
    """Return the table of one dimension.

    Raises
    ------
    ValueError
        If ``dimension`` is not one of ``DIMENSIONS``: a mistake of the caller, not of the maker.
    """
    if dimension not in _TABLE:
        raise ValueError(f"unknown dimension {dimension!r}. Choose one of {', '.join(DIMENSIONS)}")
    return _TABLE[dimension]


@cache
def _registry() -> "pint.UnitRegistry[float]":
    """Return pint's units; imported here because that costs a third of a second."""
    import pint

    return pint.UnitRegistry()


@cache
def unit_factor(dimension: str, unit: str) -> float:
    """Return what one ``unit`` is in SI (of an inverse unit: the SI value is 1 / (number x factor)).

    Pint sees our own expression only, never what the maker typed.

    Raises
    ------
    ValueError
        If pint finds that the expression of ``unit`` does not have this dimension.
    """
    table = find_dimension(dimension)
    found = table.units[unit]
    registry = _registry()
    target = registry.parse_units(f"1 / ({table.si})" if found.inverse else table.si)
    source = registry.parse_units(found.expression)
    if source.dimensionality != target.dimensionality:
        raise ValueError(f"unit {unit!r} is not {table.noun}: {found.expression} has another dimension")
    return found.scale * float(registry.convert(1.0, source, target))


def convert_number(number: float, dimension: str, unit: str) -> float:
    """Return ``number`` of ``unit`` in SI; zero of an inverse unit is a ZeroDivisionError."""
    factor = unit_factor(dimension, unit)
    return 1.0 / (number * factor) if find_dimension(dimension).units[unit].inverse else number * factor
