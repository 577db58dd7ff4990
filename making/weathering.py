"""What a material is after some hours under load, soaked, warm or cold."""

from dataclasses import dataclass, replace

from ..materials import Cord, Fabric, Material, TextileFibre, Thread, Webbing, format_quantity
from .creep import NEAR, ROOM, Weather, find_creep, soften

Textile = Fabric | Cord | Webbing | Thread


@dataclass(frozen=True)
class Unknown:
    """Something about a material that no source tells, and what was done instead.

    Parameters
    ----------
    what : str
        Such as ``creep, left out``.
    material : str
        Name of the material.
    """

    what: str
    material: str


@dataclass(frozen=True)
class Weathered:
    """A material after what it went through.

    Parameters
    ----------
    material : Material
        The same object where nothing changes.
    unknown : tuple of Unknown
        What was left as it is since nothing is known.
    """

    material: Material
    unknown: tuple[Unknown, ...] = ()


def take_worst(fibre: TextileFibre, weather: Weather) -> TextileFibre:
    """Return a fibre at those ends of its ranges that let a hammock down most.

    Parameters
    ----------
    fibre : TextileFibre
        A number without a range stays as it is.
    weather : Weather
        Cold nights slow creep least with a large difference of temperature, warm ones hasten it most with a small one.

    Examples
    --------
    >>> from tautlay.materials import read_library
    >>> nylon = read_library().find(TextileFibre, "nylon")
    >>> take_worst(nylon, Weather(wet=True)).wet_stiffness
    0.7
    """
    return replace(
        fibre,
        creep=_pick_end(fibre, "creep", 1),
        creep_shift=_pick_end(fibre, "creep_shift", 0 if weather.temperature > ROOM else 1),
        wet_stiffness=_pick_end(fibre, "wet_stiffness", 0),
        water=_pick_end(fibre, "water", 1),
    )


def _pick_end(fibre: TextileFibre, name: str, end: int) -> float | None:
    """Return the low (0) or high (1) end of a number's range; the number itself where it has none."""
    origin, value = fibre.provenance.get(name), getattr(fibre, name)
    return value if origin is None or origin.range is None else origin.range[end]


def weather_material(material: Material, fibre: TextileFibre | None, weather: Weather) -> Weathered:
    """Return a material after what it went through.

    Parameters
    ----------
    material : Material
        What is not cloth, cord, strap or thread is returned as it is.
    fibre : TextileFibre or None
        From :func:`find_fibre`.
    weather : Weather
        What it goes through.

    Examples
    --------
    >>> cord = Cord("demo", "nylon", 0.003, 5e-3, 2000.0, 5000.0)
    >>> fibre = TextileFibre("nylon", "polyamide", 1140.0, 0.02, 1e6, None, 0.9, 0.5)
    >>> night = weather_material(cord, fibre, Weather(after=8 * 3600.0)).material
    >>> round(night.ea), weather_material(cord, fibre, Weather()).material is cord
    (4409, True)
    """
    if not isinstance(material, Textile) or not weather.changes:
        return Weathered(material)
    changed: Textile = material
    unknown: list[str] = []
    if weather.after > 0.0 and not isinstance(changed, Thread):
        changed = _load(changed, fibre, weather, unknown)
    if weather.wet:
        changed = _soak(changed, fibre, unknown)
    if abs(weather.temperature - ROOM) > NEAR:
        unknown.append(f"stiffness and strength at this temperature, taken as at {ROOM:.0f} degC")
    return Weathered(changed, tuple(Unknown(what, material.name) for what in unknown))


def _soak(material: Textile, fibre: TextileFibre | None, unknown: list[str]) -> Textile:
    """Return it wet, what has crept with it softer too, and note what is not known of that."""
    softer, water = (fibre.wet_stiffness, fibre.water) if fibre else (None, None)
    if softer is None and not isinstance(material, Thread):
        unknown.append("stiffness when wet, taken as dry")
    if water is None:
        unknown.append("water held, left out")
    stiffness, mass = softer or 1.0, 1.0 + (water or 0.0)
    if isinstance(material, Thread):
        return replace(material, linear_mass=mass * material.linear_mass)
    if not isinstance(material, Fabric):
        return replace(material, linear_mass=mass * material.linear_mass, ea=stiffness * material.ea)
    return replace(
        material,
        areal_mass=mass * material.areal_mass,
        warp=stiffness * material.warp,
        weft=stiffness * material.weft,
    )


def _load(
    material: Fabric | Cord | Webbing, fibre: TextileFibre | None, weather: Weather, unknown: list[str]
) -> Fabric | Cord | Webbing:
    """Return it after its time under load, and note what is not known of that."""
    if fibre is None or fibre.creep is None:
        unknown.append("creep, left out")
        return material
    if fibre.creep_time is not None and weather.after > fibre.creep_time:
        unknown.append(f"creep beyond {format_quantity(fibre.creep_time, 'duration', digits=2)}, left out")
    if abs(weather.temperature - ROOM) > NEAR and fibre.creep_shift is None:
        unknown.append(f"creep at this temperature, taken as at {ROOM:.0f} degC")
    if weather.wet and fibre.wet_stiffness != 1.0:
        unknown.append("creep when wet, taken as dry")
    grown = find_creep(fibre, 1.0, weather)
    if not isinstance(material, Fabric):
        return replace(material, ea=soften(material.ea, material.breaking_load, grown))
    return replace(
        material,
        warp=soften(material.warp, material.strength_warp, grown),
        weft=soften(material.weft, material.strength_weft, grown),
    )
