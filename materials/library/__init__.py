"""The library of materials: built in, and what the user's files add or replace."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from os import PathLike
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar

from ..categories import CATEGORIES, Known, Records
from ..display import System
from ..listing import TextTable, list_materials, list_values
from ..material import Material, MaterialError, list_quantities
from ..quantity import parse_quantity
from ..record_reader import read_records
from ..short_repr import write_repr
from ..similar_materials import find_alike, find_likeliest
from ..suggestion import suggest

FOLDER = Path(__file__).parent
Bound = float | str  # SI number, or a quantity with its unit
_M = TypeVar("_M", bound=Material)


@dataclass(frozen=True)
class Library:
    """Materials by category and name.

    Parameters
    ----------
    records : mapping of str to mapping of str to Material
        Category, name, material; names in the order of the files.

    Examples
    --------
    >>> from tautlay.materials import Fabric
    >>> library = read_library()
    >>> library.find(Fabric, "ripstop nylon 37 g/m2").provenance["strength_warp"].text
    '42 lbf/in'
    >>> [cord.name for cord in library.select("cord", text="UHMWPE", maximum={"diameter": "2 mm"})]
    ['12-strand UHMWPE 1.75 mm', '12-strand UHMWPE 2 mm']
    """

    records: Known

    def __repr__(self) -> str:
        return write_repr(self, *(f"{category} {len(group)}" for category, group in self.records.items()))

    def __getstate__(self) -> Records:
        # A mapping proxy cannot be pickled; sweeps send designs to worker processes.
        return {category: dict(group) for category, group in self.records.items()}

    def __setstate__(self, records: Records) -> None:
        object.__setattr__(self, "records", _guard(records))

    def find(self, noun: type[_M], name: str) -> _M:
        """Return the material of a kind and name.

        Parameters
        ----------
        noun : type of Material
            Such as ``Cord``.
        name : str
            Its name in the library.

        Raises
        ------
        MaterialError
            If there is none; the message tells the nearest name.
        """
        found = self._category(noun.category).get(name)
        if isinstance(found, noun):
            return found
        likeliest = self.find_likeliest(str(name), noun.category)
        near = f"Did you mean {likeliest!r}?" if likeliest else suggest(str(name), self.names(noun.category))
        raise MaterialError([f"unknown {noun.category} {name!r}. {near}"])

    def names(self, category: str) -> tuple[str, ...]:
        """Return all names of a category; MaterialError for an unknown category."""
        return tuple(self._category(category))

    def _category(self, category: str) -> Mapping[str, Material]:
        if category not in CATEGORIES:
            raise MaterialError([f"unknown category {category!r}. {suggest(category, tuple(CATEGORIES))}"])
        return self.records.get(category, {})

    def find_likeliest(self, name: str, *categories: str) -> str | None:
        """Return the most probable name for text with a quantity in it, or None.

        Masses, diameters and other quantities are compared as such, in whatever units they are written.

        Examples
        --------
        >>> read_library().find_likeliest("ripstop nylon 1.6 oz", "fabric")
        'ripstop nylon 54 g/m2'
        """
        found = find_likeliest(name, [m for category in categories for m in self._category(category).values()])
        return None if found is None else found.name

    def select(
        self,
        category: str,
        *,
        text: str | None = None,
        kind: str | None = None,
        minimum: Mapping[str, Bound] | None = None,
        maximum: Mapping[str, Bound] | None = None,
    ) -> tuple[Material, ...]:
        """Return the materials of a category that meet every condition.

        Parameters
        ----------
        category : str
            A key of ``CATEGORIES``.
        text : str or None
            Part of the name or kind, capital or small letters. Where no name has it, a quantity in it counts as
            such: ``"1.1 oz"`` finds the fabrics of about that mass, ``"5/64 in"`` the cords of about that diameter.
        kind : str or None
            The whole kind.
        minimum, maximum : mapping or None
            Limits by field: SI numbers, or quantities such as ``"30 g/m2"``. A limit of a number that is
            not known is not met.

        Raises
        ------
        MaterialError
            For an unknown category or field.
        QuantityError
            For a limit that cannot be read.
        """
        chosen = tuple(self._category(category).values())
        if text is not None:
            # a number is not the end of a longer one
            part = re.compile((r"(?<![0-9.])" if text[:1].isdigit() else "") + re.escape(text), re.IGNORECASE)
            chosen = tuple(m for m in chosen if part.search(f"{m.name} {m.kind}")) or find_alike(text, chosen)
        if kind is not None:
            chosen = tuple(m for m in chosen if m.kind == kind)
        for key, bound in (minimum or {}).items():
            limit = _read_bound(category, key, bound)
            chosen = tuple(m for m in chosen if (value := getattr(m, key)) is not None and value >= limit)
        for key, bound in (maximum or {}).items():
            limit = _read_bound(category, key, bound)
            chosen = tuple(m for m in chosen if (value := getattr(m, key)) is not None and value <= limit)
        return chosen

    def table(
        self, category: str, system: System = "metric", materials: tuple[Material, ...] | None = None
    ) -> TextTable:
        """Return headers and rows of text, one material a row, with its weakest status and its sources.

        Parameters
        ----------
        category : str
            As for ``select``.
        system : {"metric", "imperial"}
            Units.
        materials : tuple of Material or None
            What to list, such as the answer of ``select``; None is the whole category.
        """
        chosen = tuple(self._category(category).values()) if materials is None else materials
        return list_materials(CATEGORIES[category], chosen, system)

    def details(self, category: str, name: str, system: System = "metric") -> TextTable:
        """Return headers and rows of text, one number a row, with range, status, source and note."""
        self._category(category)
        return list_values(self.find(CATEGORIES[category], name), system)


def _read_bound(category: str, key: str, bound: Bound) -> float:
    """Return a limit in SI."""
    quantities = {item.name: item for item in list_quantities(CATEGORIES[category])}
    if key not in quantities:
        raise MaterialError([f"unknown quantity {key!r} of {category}. {suggest(key, tuple(quantities))}"])
    return parse_quantity(bound, quantities[key].metadata["dimension"]) if isinstance(bound, str) else bound


def _merge(lower: Known, upper: Known) -> Records:
    """Return all materials; of two with one name the upper one, in the place of the lower."""
    return {category: {**lower.get(category, {}), **upper.get(category, {})} for category in CATEGORIES}


def _guard(records: Records) -> Known:
    """Return the same materials in tables that cannot be written to."""
    return MappingProxyType({key: MappingProxyType(group) for key, group in records.items()})


@lru_cache(maxsize=1)
def _read_built_in() -> Library:
    """Return the library that comes with the program."""
    records: Records = {}
    for category in CATEGORIES:
        records = _merge(records, read_records(FOLDER / f"{category}.toml", records))
    return Library(_guard(records))


def read_library(*paths: str | PathLike[str]) -> Library:
    """Return the built-in materials and those of the user's files.

    A later file adds to the earlier ones; a material of the same category and name replaces the earlier one.

    Parameters
    ----------
    *paths : str or PathLike
        TOML files; the built-in files show the form.

    Raises
    ------
    MaterialError
        With every error of every file.

    Examples
    --------
    >>> len(read_library().names("fabric")) >= 12
    True
    """
    library = _read_built_in()
    if not paths:
        return library
    records: Records = _merge(library.records, {})
    faults: list[str] = []
    for path in paths:
        try:
            records = _merge(records, read_records(Path(path), records))
        except MaterialError as error:
            faults.extend(error.faults)
    if faults:
        raise MaterialError(faults)
    return Library(_guard(records))
