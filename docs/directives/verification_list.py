"""What the verification tests compare with, from their own first lines."""

import ast
from pathlib import Path

from docutils import nodes
from sphinx.util.docutils import SphinxDirective

from .rst_table import parse_rst, quote, write_table

TESTS = Path(__file__).parents[2] / "tests" / "verification"


class VerificationDirective(SphinxDirective):
    """``verification-list``: one row for each module of verification tests."""

    def run(self) -> list[nodes.Node]:
        """Return the table."""
        rows = []
        for file in sorted(TESTS.glob("test_*.py")):
            tree = ast.parse(file.read_text(encoding="utf-8"))
            tests = [part for part in tree.body if isinstance(part, ast.FunctionDef) and part.name.startswith("test_")]
            names = "; ".join(part.name.removeprefix("test_").replace("_", " ") for part in tests)
            rows.append((quote(ast.get_docstring(tree) or ""), quote(names)))
        return parse_rst(self, write_table(("compared with", "tests"), rows, (50, 50)))
