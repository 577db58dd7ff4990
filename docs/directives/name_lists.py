"""What a package offers to scripts, from its own list."""

from importlib import import_module
from inspect import isfunction
from typing import ClassVar

from docutils import nodes
from sphinx.util.docutils import SphinxDirective

_LONGEST = 200  # characters of a value


def _shorten(value: object) -> str:
    """Return a value as Python writes it, cut where it gets long."""
    text = repr(value).replace("`", "'")
    return text if len(text) <= _LONGEST else f"{text[:_LONGEST]}..."


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
                lines += [f".. autoclass:: {package.__name__}.{name}", "   :members:", ""]
            elif isfunction(found):
                lines += [f".. autofunction:: {package.__name__}.{name}", ""]
            else:
                lines += [f".. py:data:: {package.__name__}.{name}", "", f"   ``{_shorten(found)}``", ""]
        return self.parse_text_to_nodes("\n".join(["```{eval-rst}", *lines, "```"]))
