"""The check of the built reference finds what is missing and what has gone."""

import importlib
import sys
from pathlib import Path

import click
import pytest

DOCS = Path(__file__).parents[2] / "docs"
PAGE = """
<p class="rubric">at the top</p><table><tr class="row-odd"><td><p><code class="x"><span>name</span></code></p></td></tr></table>
<p class="rubric">[body.arc]</p><div><svg></svg></div>
<table><tr class="row-odd"><td><p><code>depth</code></p></td><td><p><code>17 cm</code></p></td></tr>
<tr class="row-even"><td><p><code>shape</code></p></td></tr></table>
"""


@pytest.fixture(scope="module")
def check():
    pytest.importorskip("sphinx", reason="documentation needs the extra docs")
    sys.path.insert(0, str(DOCS))
    try:
        yield importlib.import_module("check_reference")
    finally:
        sys.path.remove(str(DOCS))


def test_keys_are_read_below_their_tables(check):
    assert check._read_keys(PAGE) == {"name", "body.arc.depth", "body.arc.shape"}


def test_options_have_the_places_that_the_page_gives_them(check):
    @click.group()
    def tool():
        """Stand in."""

    @tool.command()
    @click.argument("design")
    @click.option("--output", "-o")
    @click.option("--page/--no-page")
    def solve(design, output, page):
        """Do nothing."""

    assert set(check._list_options(tool, ("tool",))) == {
        "cmdoption-tool-solve-arg-DESIGN", "cmdoption-tool-solve-output", "cmdoption-tool-solve-o",
        "cmdoption-tool-solve-page", "cmdoption-tool-solve-no-page",
    }  # fmt: skip


def test_both_kinds_of_differences_are_told(check, monkeypatch):
    monkeypatch.setattr(
        check, "compare_pages", lambda folder: {"commands": ({"a", "b"}, {"b", "c"}), "python": ({"d"}, {"d"})}
    )
    assert check.find_differences(DOCS) == ["commands: a is missing.", "commands: c has gone from the program."]
