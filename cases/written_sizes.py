"""The lengths and angles that a design file states, each under its key."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from ..materials import parse_quantity, parse_toml
from .design import Design
from .design_issue import write_path
from .form import DesignForm, TomlTable, find_quantity, find_table

MEASURED = ("length", "angle")  # dimensions of what a drawing can show
_ASKED = ("judge",)  # limits of what is found, not sizes of what is made


class WrittenSize(NamedTuple):
    """A size as the file states it: its key, SI value and dimension."""

    key: str
    value: float
    dimension: str


def list_sizes(design: Design) -> dict[str, WrittenSize]:
    """Return every length and angle that the file of a design states, by key, in its order.

    Parameters
    ----------
    design : Design
        As ``read_design`` returns it; defaults, which are not in its file, are left out.

    Returns
    -------
    dict of str to WrittenSize
        m and rad; entries of a list are counted from 1.

    Examples
    --------
    >>> from importlib.resources import files
    >>> from tautlay.cases import read_design
    >>> found = list_sizes(read_design(files("tautlay.cases") / "larch_ridge.toml"))
    >>> found["body.arc.depth"]
    WrittenSize(key='body.arc.depth', value=0.17, dimension='length')
    """
    asked = {name: table for name, table in parse_toml(design.text).items() if name not in _ASKED}
    return {size.key: size for size in _walk(asked, DesignForm, ())}


def _walk(written: Mapping[str, object], form: type[TomlTable], above: tuple[str | int, ...]) -> Iterator[WrittenSize]:
    """Yield the sizes in a table and in those below it."""
    for name, value in written.items():
        field, path = form.model_fields[name], (*above, name)
        table = find_table(field.annotation)
        if table is None:
            rule = find_quantity(field)
            if rule is not None and rule.dimension in MEASURED and isinstance(value, str):
                yield WrittenSize(write_path(path), parse_quantity(value, rule.dimension, signed=True), rule.dimension)
        elif isinstance(value, list):
            for number, entry in enumerate(value):
                yield from _walk(entry, table, (*path, number))
        elif isinstance(value, dict):
            yield from _walk(value, table, path)
