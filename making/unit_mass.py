"""Mass of one unit of a material: of a square metre of cloth, of a metre of cord, tube or rod."""

from math import prod
from typing import NamedTuple

from ..materials import BarSection, Material, Plate
from .capacity import BASES, Basis

# Numbers a mass is computed from. Sections scale with their density: their sizes are measured, not guessed.
_SCALING = {"fabric": ("areal_mass",), "plate": ("thickness", "density"), "tube": ("density",), "rod": ("density",)}
_SIZES = {"tube": ("outer_diameter", "wall"), "rod": ("diameter",)}


class UnitMass(NamedTuple):
    """Mass of one unit of a material.

    Parameters
    ----------
    value : float
        kg/m2 of cloth and sheet, kg/m of everything else.
    least, most : float
        The same at the ends of its likely range; the value itself where none is stated.
    basis : Basis
        Of the least certain number it is computed from; a size of the maker's own is stated.
    """

    value: float
    least: float
    most: float
    basis: Basis


def find_unit_mass(material: Material) -> UnitMass:
    """Return the mass of one unit of a material, with the likely range that its source gives.

    Parameters
    ----------
    material : Material
        Of any category; of sections only the density has a range here, not their sizes.

    Examples
    --------
    >>> from tautlay.materials import read_library
    >>> cloth = find_unit_mass(read_library().fabric("ripstop nylon 37 g/m2"))
    >>> [round(1e3 * value, 1) for value in cloth[:3]], cloth.basis
    ([37.3, 34.0, 37.3], 'second hand')
    """
    value = _find_value(material)
    names = _SCALING.get(material.category, ("linear_mass",))
    spans = [_find_span(material, name) for name in names]
    least, most = (value * prod(span[end] for span in spans) for end in (0, 1))
    origins = [material.provenance.get(name) for name in (*names, *_SIZES.get(material.category, ()))]
    bases: list[Basis] = ["stated" if origin is None else origin.status for origin in origins]
    return UnitMass(value, least, most, max(bases, key=BASES.index))


def _find_value(material: Material) -> float:
    """Return the mass of one unit, kg/m2 or kg/m."""
    if isinstance(material, Plate):
        return material.density * material.thickness
    if isinstance(material, BarSection):
        return material.linear_mass
    return float(getattr(material, _SCALING.get(material.category, ("linear_mass",))[0]))


def _find_span(material: Material, name: str) -> tuple[float, float]:
    """Return the ends of the likely range of a number over the number itself."""
    origin = material.provenance.get(name)
    if origin is None or origin.range is None:
        return 1.0, 1.0
    return origin.range[0] / getattr(material, name), origin.range[1] / getattr(material, name)
