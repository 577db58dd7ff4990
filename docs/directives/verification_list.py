"""What the verification tests compare with, from their own first lines, and how closely."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from docutils import nodes
from sphinx.util.docutils import SphinxDirective

from .rst_table import parse_rst, quote, write_table

TESTS = Path(__file__).parents[2] / "tests" / "verification"
_RELATIVE = ("rel", "rtol")
_MARKED = re.compile(r"(:math:`[^`]*`|``[^`]*``)")


class VerificationDirective(SphinxDirective):
    """``verification-list``: one row for each module of verification tests."""

    def run(self) -> list[nodes.Node]:
        """Return the table."""
        rows = []
        for file in sorted(TESTS.glob("test_*.py")):
            tree = ast.parse(file.read_text(encoding="utf-8"))
            tests = [part for part in tree.body if isinstance(part, ast.FunctionDef) and part.name.startswith("test_")]
            told = "; ".join(describe_test(part) for part in tests)
            rows.append((quote_around(ast.get_docstring(tree) or ""), quote(told)))
        return parse_rst(
            self, write_table(("compared with", "tests, and the largest difference allowed"), rows, (50, 50))
        )


def describe_test(test: ast.FunctionDef) -> str:
    """Return the name of a test in words, and the relative differences beyond which it fails.

    Examples
    --------
    >>> test = ast.parse("def test_a_sphere(): assert found == approx(1.0, rel=1e-3)").body[0]
    >>> describe_test(test)
    'a sphere (0.1 %)'
    """
    name = test.name.removeprefix("test_").replace("_", " ")
    limits = sorted(set(_list_limits(test)))
    if not limits:
        return name
    shown = dict.fromkeys(f"{100 * limit:.3g} %" for limit in (limits[0], limits[-1]))
    return f"{name} ({' to '.join(shown)})"


def quote_around(text: str) -> str:
    r"""Return text that means nothing in reStructuredText but for its formulas and its code.

    Examples
    --------
    >>> print(quote_around("a *b* of :math:`x_1`"))
    a \*b\* of :math:`x_1`
    """
    parts = _MARKED.split(" ".join(text.split()))
    return "".join(part if place % 2 else _quote_piece(part) for place, part in enumerate(parts))


def _quote_piece(part: str) -> str:
    """Return a piece of text quoted, with the spaces at its ends."""
    before, after = part[: len(part) - len(part.lstrip())], part[len(part.rstrip()) :]
    return f"{before}{quote(part)}{after}" if part.strip() else part


def _list_limits(test: ast.FunctionDef) -> Iterator[float]:
    """Yield the relative differences that the comparisons of a test allow, as far as they are plain numbers."""
    for call in (part for part in ast.walk(test) if isinstance(part, ast.Call)):
        for keyword in call.keywords:
            if keyword.arg in _RELATIVE and isinstance(keyword.value, ast.Constant) and keyword.value.value:
                yield float(keyword.value.value)
