"""The library of materials with its sources."""

from docutils import nodes
from sphinx.util.docutils import SphinxDirective

from tautlay.materials import CATEGORIES, read_library

from .rst_table import parse_rst, quote, write_table


class MaterialsDirective(SphinxDirective):
    """``material-tables``: every value of every material with status and source."""

    def run(self) -> list[nodes.Node]:
        """Return the tables, one for each material."""
        library, lines = read_library(), []
        for category in CATEGORIES:
            lines += [f".. rubric:: {category}", ""]
            for name in library.names(category):
                rows = [
                    (quote(row[0]), quote(str(row[1])), quote(str(row[2])) or "\\", quote(row[4]), quote(row[5]))
                    for row in library.details(category, name, "metric").rows
                ]
                lines += [f"**{quote(name)}**", ""]
                lines += write_table(
                    ("value of", "value", "likely range", "status", "source"), rows, (18, 14, 18, 12, 38)
                )
        return parse_rst(self, lines)
