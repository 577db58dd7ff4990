"""Materials of a hammock: every number, its source and how certain it is."""

from collections.abc import Mapping
from typing import Any

from ...materials import Material, list_quantities


def describe_materials(sources: Mapping[str, Material]) -> list[dict[str, Any]]:
    """Return the materials of a design as plain numbers and words.

    Parameters
    ----------
    sources : mapping of key to Material
        ``design.sources``.

    Returns
    -------
    list of dict
        One for each material: ``category``, ``name``, ``kind``, the keys of the design that name it (``used_for``) and
        ``values``: quantity, dimension, ``value_SI``, ``range_SI`` (two numbers or None), the value as written, status,
        source and note. A number without an origin is the design's own.

    Examples
    --------
    >>> from tautlay.materials import read_library
    >>> (cord,) = describe_materials({"channel.cord": read_library().cord("12-strand UHMWPE 2 mm")})
    >>> cord["name"], cord["used_for"], cord["values"][0]["quantity"]
    ('12-strand UHMWPE 2 mm', ['channel.cord'], 'diameter')
    """
    used: dict[tuple[str, str], list[str]] = {}
    found: dict[tuple[str, str], Material] = {}
    for key, material in sources.items():
        name = (material.category, material.name)
        found.setdefault(name, material)
        used.setdefault(name, []).append(key)
    return [
        {
            "category": material.category,
            "name": material.name,
            "kind": material.kind,
            "used_for": used[name],
            "values": [
                _describe_value(material, item.name, item.metadata["dimension"])
                for item in list_quantities(material)
                if getattr(material, item.name) is not None
            ],
        }
        for name, material in found.items()
    ]


def _describe_value(material: Material, quantity: str, dimension: str) -> dict[str, Any]:
    """Return one number of a material with its origin."""
    origin = material.provenance.get(quantity)
    return {
        "quantity": quantity.replace("_", " "),
        "dimension": dimension,
        "value_SI": getattr(material, quantity),
        "range_SI": list(origin.range) if origin and origin.range else None,
        "written": origin.text if origin else "",
        "status": origin.status if origin else "stated",
        "source": origin.source if origin else "the design",
        "note": origin.note if origin else "",
    }
