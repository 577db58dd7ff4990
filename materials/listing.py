"""Materials as tables of text."""

from collections.abc import Collection, Iterable
from typing import NamedTuple

from .display import System, format_quantity
from .material import Material, list_quantities
from .provenance import STATUSES, Provenance
from .short_repr import write_repr


class TextTable(NamedTuple):
    """Headers and rows of text; every row is as long as the headers."""

    headers: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]

    def __repr__(self) -> str:
        return write_repr(self, f"{len(self.rows)} rows", *self.headers)


def _write_value(value: float | None, dimension: str, system: System) -> str:
    """Return a quantity, or a dash if it is not known."""
    return "-" if value is None else format_quantity(value, dimension, system)


def find_weakest_status(material: Material, names: Collection[str] | None = None) -> str:
    """Return the status of the least certain number; ``not sourced`` if a number has no provenance.

    Parameters
    ----------
    material : Material
        Whose numbers.
    names : collection of str or None
        Fields to look at; None is all. Poisson ratio and shear of nearly every cloth are unverified, so that
        over all numbers one fabric looks like another.

    Examples
    --------
    >>> from tautlay.materials import Fabric, read_library
    >>> cloth = read_library().find(Fabric, "ripstop nylon 37 g/m2")
    >>> find_weakest_status(cloth), find_weakest_status(cloth, ["areal_mass", "warp", "strength_warp"])
    ('memory', 'derived')
    """
    origins = [
        material.provenance.get(item.name)
        for item in list_quantities(material)
        if getattr(material, item.name) is not None and (names is None or item.name in names)
    ]
    known = [origin.status for origin in origins if origin is not None]
    return max(known, key=STATUSES.index) if len(known) == len(origins) else "not sourced"


def list_materials(noun: type[Material], materials: Iterable[Material], system: System) -> TextTable:
    """Return one row per material: name, kind, every quantity, weakest status, sources."""
    quantities = list_quantities(noun)
    titles = (item.name.replace("_", " ") for item in quantities)
    rows = []
    for material in materials:
        cells = (_write_value(getattr(material, item.name), item.metadata["dimension"], system) for item in quantities)
        sources = dict.fromkeys(origin.source for origin in material.provenance.values())
        rows.append((material.name, material.kind, *cells, find_weakest_status(material), "; ".join(sources)))
    return TextTable(("name", "kind", *titles, "weakest status", "sources"), tuple(rows))


def list_values(material: Material, system: System) -> TextTable:
    """Return one row per quantity: value, likely range, as written, status, source, note."""
    rows = []
    for item in list_quantities(material):
        dimension, value = item.metadata["dimension"], getattr(material, item.name)
        origin = material.provenance.get(item.name)
        written = _write_value(value, dimension, system)
        rows.append((item.name.replace("_", " "), written, *_describe_origin(origin, dimension, system)))
    return TextTable(("quantity", "value", "likely range", "as written", "status", "source", "note"), tuple(rows))


def _describe_origin(origin: Provenance | None, dimension: str, system: System) -> tuple[str, ...]:
    """Return likely range, text as written, status, source and note."""
    if origin is None:
        return ("-", "-", "not sourced", "-", "")
    limits = "-" if origin.range is None else " to ".join(format_quantity(v, dimension, system) for v in origin.range)
    return (limits, origin.text, origin.status, origin.source, origin.note)
