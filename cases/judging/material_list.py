"""Materials of a hammock: every number, its source and how certain it is."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated

from ...making import Basis
from ...materials import Material, list_quantities
from ..record import FieldUnit, Record


@dataclass(frozen=True, repr=False)
class MaterialValue(Record):
    """One number of a material, and where it comes from.

    Parameters
    ----------
    quantity : str
        What it is, in words.
    dimension : str
        Its dimension.
    value : float
        SI.
    range : (float, float) or None
        Smallest and largest likely value, SI.
    written : str
        As it stands in its source; empty for the design's own.
    status : str
        How sure it is.
    source, note : str
        Where it comes from; a number without an origin is the design's own.
    """

    quantity: str
    dimension: str
    value: Annotated[float, FieldUnit("SI")]
    range: Annotated[tuple[float, float] | None, FieldUnit("SI")]
    written: str
    status: Basis
    source: str
    note: str


@dataclass(frozen=True, repr=False)
class MaterialRecord(Record):
    """A material of a design.

    Parameters
    ----------
    category, name, kind : str
        What it is.
    used_for : tuple of str
        Keys of the design that name it.
    values : tuple of MaterialValue
        Its numbers.
    """

    category: str
    name: str
    kind: str
    used_for: tuple[str, ...]
    values: tuple[MaterialValue, ...]


def record_materials(sources: Mapping[str, Material]) -> tuple[MaterialRecord, ...]:
    """Return the materials of a design with all their numbers.

    Parameters
    ----------
    sources : mapping of key to Material
        ``design.sources``.

    Returns
    -------
    tuple of MaterialRecord
        One for each material.

    Examples
    --------
    >>> from tautlay.materials import Cord, read_library
    >>> (cord,) = record_materials({"channel.cord": read_library().find(Cord, "12-strand UHMWPE 2 mm")})
    >>> cord.name, cord.used_for, cord.values[0].quantity
    ('12-strand UHMWPE 2 mm', ('channel.cord',), 'diameter')
    """
    used: dict[tuple[str, str], list[str]] = {}
    found: dict[tuple[str, str], Material] = {}
    for key, material in sources.items():
        name = (material.category, material.name)
        found.setdefault(name, material)
        used.setdefault(name, []).append(key)
    return tuple(
        MaterialRecord(material.category, material.name, material.kind, tuple(used[name]), _list_values(material))
        for name, material in found.items()
    )


def _list_values(material: Material) -> tuple[MaterialValue, ...]:
    """Return the numbers of a material that are known."""
    return tuple(
        _read_value(material, item.name, item.metadata["dimension"])
        for item in list_quantities(material)
        if getattr(material, item.name) is not None
    )


def _read_value(material: Material, quantity: str, dimension: str) -> MaterialValue:
    """Return one number of a material with its origin."""
    origin = material.provenance.get(quantity)
    return MaterialValue(
        quantity=quantity.replace("_", " "),
        dimension=dimension,
        value=getattr(material, quantity),
        range=origin.range if origin and origin.range else None,
        written=origin.text if origin else "",
        status=origin.status if origin else "stated",
        source=origin.source if origin else "the design",
        note=origin.note if origin else "",
    )
