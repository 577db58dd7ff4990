"""Rows as a list table, and text that is parsed where it stands."""

from collections.abc import Iterable, Sequence

from docutils import nodes
from docutils.parsers.rst import Parser
from docutils.utils import new_document
from sphinx.util.docutils import SphinxDirective


def write_table(headings: Sequence[str], rows: Iterable[Sequence[str]], widths: Sequence[int]) -> list[str]:
    """Return the lines of a table; a cell is one line of reStructuredText."""
    lines = [".. list-table::", "   :header-rows: 1", f"   :widths: {' '.join(map(str, widths))}", ""]
    for row in (headings, *rows):
        lines += [f"   {'* -' if place == 0 else '  -'} {cell}" for place, cell in enumerate(row)]
    return [*lines, ""]


def parse_rst(directive: SphinxDirective, lines: Sequence[str]) -> list[nodes.Node]:
    """Return what lines of reStructuredText mean, also inside a page of another markup."""
    source, line = directive.get_source_info()
    document = new_document(source, directive.state.document.settings)
    document.settings.env = directive.env
    Parser().parse("\n".join(lines), document)
    directive.state.document.note_source(source, line)
    return list(document.children)


def quote(text: str) -> str:
    """Return text that means nothing in reStructuredText."""
    return "".join(f"\\{character}" if character in "\\*`|_" else character for character in " ".join(text.split()))
