"""A design whose cloth, cords, straps and thread have been out for a while."""

from dataclasses import dataclass, replace

from ....making.creep import Weather, find_fibre
from ....making.weathering import Unknown, take_worst, weather_material
from ...design import Design
from ...judging.sensitivity.material_replacement import list_materials, swap_material


@dataclass(frozen=True)
class WeatheredDesign:
    """A design after what its materials went through.

    Parameters
    ----------
    design : Design
        The same object where nothing changes.
    unknown : tuple of Unknown
        What was left as it is since nothing is known.
    """

    design: Design
    unknown: tuple[Unknown, ...]


def weather_design(design: Design, weather: Weather, *, worst: bool = False) -> WeatheredDesign:
    """Return a design with every material as it is after what it went through.

    Parameters
    ----------
    design : Design
        As it is hung in the evening.
    weather : Weather
        Time under load, wet or dry, temperature.
    worst : bool
        Whether all fibres are taken at the worst ends of their ranges at once.

    Examples
    --------
    >>> from importlib.resources import files
    >>> from tautlay.cases import read_design
    >>> design = read_design(str(files("tautlay.cases") / "larch_ridge.toml"))
    >>> weather_design(design, Weather()).design is design
    True
    >>> night = weather_design(design, Weather(after=8 * 3600.0)).design
    >>> night.hammock.body.fabric.warp < design.hammock.body.fabric.warp
    True
    """
    hammock, work = design.hammock, design.workmanship
    unknown: list[Unknown] = []
    for material in list_materials(hammock, work):
        fibre = find_fibre(material, design.library)
        after = weather_material(material, take_worst(fibre, weather) if worst and fibre else fibre, weather)
        unknown += after.unknown
        hammock = swap_material(hammock, material, after.material)
        work = swap_material(work, material, after.material)
    if weather.wet:  # strengths too, also in a design that must only pass dry
        work = replace(work, reductions=replace(work.reductions, wet=True))
    if hammock == design.hammock and work == design.workmanship:
        return WeatheredDesign(design, tuple(unknown))
    return WeatheredDesign(replace(design, hammock=hammock, workmanship=work), tuple(unknown))
