"""What a package offers to scripts, from its own list."""

import re
from collections.abc import Iterator
from enum import Enum
from functools import cached_property
from importlib import import_module
from inspect import isfunction
from typing import Any, ClassVar, get_type_hints

from docutils import nodes
from sphinx.util.docutils import SphinxDirective

_LONGEST = 200  # characters of a value
_FOREIGN = ("object", "tuple", "str", "int", "float", "Exception", "Generic", "Protocol")


def _shorten(value: object) -> str:
    """Return a value as Python writes it, cut where it gets long."""
    text = repr(value).replace("`", "'")
    return text if len(text) <= _LONGEST else f"{text[:_LONGEST]}..."


def _describe_class(place: str, found: type) -> list[str]:
    """Return how a class is described: an enumeration with its values, any other with what it takes from ours."""
    if issubclass(found, Enum):
        values = [f"   * ``{each.name}``: {each.value}" for each in found]
        return [f".. autoclass:: {place}", "   :members:", "", *values, ""]
    return [f".. autoclass:: {place}", "   :members:", f"   :inherited-members: {', '.join(_FOREIGN)}", ""]


def _is_told(name: str, value: object) -> bool:
    """Return whether something in a class is a public property."""
    return name[0] != "_" and isinstance(value, property | cached_property)


def tell_type(app: Any, what: str, name: str, found: Any, options: Any, lines: list[str]) -> None:  # noqa: ARG001
    """Put the type of a property before what is said of it."""
    getter = found.fget if isinstance(found, property) else found.func if isinstance(found, cached_property) else None
    if getter is not None and lines:
        lines[0] = f"*{write_type(get_type_hints(getter)['return'])}*: {lines[0]}"


def write_type(kind: Any) -> str:
    """Return a type as one says it: its name without the modules.

    Examples
    --------
    >>> write_type(tuple[float, ...] | None)
    'tuple[float, ...] | None'
    """
    text = kind.__name__ if isinstance(kind, type) and not getattr(kind, "__args__", ()) else str(kind)
    return re.sub(r"\b\w+\.(?=\w)", "", text).replace("NoneType", "None")


def list_members(kind: type) -> Iterator[str]:
    """Yield the public properties of a class, its own and those it inherits from ours."""
    for each in kind.__mro__:
        if each.__module__.startswith("tautlay."):
            yield from (name for name, value in vars(each).items() if _is_told(name, value))


class NamesDirective(SphinxDirective):
    """``public-names``: every public name of a package with its docstring."""

    required_arguments: ClassVar[int] = 1

    def run(self) -> list[nodes.Node]:
        """Return the descriptions."""
        package = import_module(self.arguments[0])
        lines = []
        for name in sorted(package.__all__):
            found = getattr(package, name)
            if isinstance(found, type):
                lines += _describe_class(f"{package.__name__}.{name}", found)
            elif isfunction(found):
                lines += [f".. autofunction:: {package.__name__}.{name}", ""]
            else:
                lines += [f".. py:data:: {package.__name__}.{name}", "", f"   ``{_shorten(found)}``", ""]
        return self.parse_text_to_nodes("\n".join(["```{eval-rst}", *lines, "```"]))
