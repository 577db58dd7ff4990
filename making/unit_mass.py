"""Mass of one unit of a material: of a square metre of cloth, of a metre of cord, tube or rod."""

from math import prod
from typing import NamedTuple

from ..materials import Material
from .capacity import BASES, Basis


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
    >>> from tautlay.materials import Fabric, read_library
    >>> cloth = find_unit_mass(read_library().find(Fabric, "ripstop nylon 37 g/m2"))
    >>> [round(1e3 * value, 1) for value in cloth[:3]], cloth.basis
    ([37.3, 34.0, 37.3], 'second hand')
    """
    value = material.unit_mass
    spans = [_find_span(material, name) for name in material.mass_from]
    least, most = (value * prod(span[end] for span in spans) for end in (0, 1))
    origins = [material.provenance.get(name) for name in (*material.mass_from, *material.sizes)]
    bases: list[Basis] = ["stated" if origin is None else origin.status for origin in origins]
    return UnitMass(value, least, most, max(bases, key=BASES.index))


def _find_span(material: Material, name: str) -> tuple[float, float]:
    """Return the ends of the likely range of a number over the number itself."""
    origin = material.provenance.get(name)
    if origin is None or origin.range is None:
        return 1.0, 1.0
    return origin.range[0] / getattr(material, name), origin.range[1] / getattr(material, name)
