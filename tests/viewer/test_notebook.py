"""A result as a notebook shows it: whole, harmless, small, and nothing is solved for it."""

import base64
import dataclasses
import re
import subprocess
import sys
from importlib import import_module
from importlib.resources import files
from io import BytesIO

import pytest
from IPython.core.formatters import DisplayFormatter
from PIL import Image

from tautlay.cases import read_design, solve_case
from tautlay.cases.unit_display import show_quantity
from tautlay.viewer.notebook import MOST_CHECKS

from .test_report_page import EVIL, Reader

LARCH = str(files("tautlay.cases") / "larch_ridge.toml")


@pytest.fixture(scope="module")
def lying():
    """The metric demonstration with a person in contact, on a coarse mesh."""
    return solve_case(read_design(LARCH), load="lying", mesh_size=0.12, hot_spots=False)


@pytest.fixture(params=["solved_larch", pytest.param("lying", marks=pytest.mark.slow)])
def result(request):
    return request.getfixturevalue(request.param)


@pytest.fixture
def page(result, monkeypatch):
    for name in ("walk_implicit", "walk_explicit"):
        monkeypatch.setattr(import_module("tautlay.solver.relax"), name, lambda *_: pytest.fail("it solves"))
    return result._repr_html_()


def test_page_is_whole_small_and_asks_for_nothing(page):
    reader = Reader(page)
    assert (reader.wrong, reader.open) == ([], [])
    assert 50_000 < len(page) < 400_000
    assert not {"script", "style", "link", "iframe"} & {tag for tag, _ in reader.elements}
    addresses = [given["src"] for _, given in reader.elements if "src" in given]
    assert len(addresses) == 1
    assert addresses[0].startswith("data:image/png;base64,")
    assert "://" not in page


def test_page_shows_verdict_checks_and_forces(page, result):
    words = Reader(page).words
    assert result.summary["verdict"] in words
    checks = result.findings.checks
    assert words.count("\N{CHECK MARK} pass") == MOST_CHECKS
    assert words.index(checks[0].part) < words.index(checks[0].mechanism)
    for key in ("head_line_N", "foot_bar_thrust_N"):
        assert show_quantity(result.summary["forces"][key], "force", result.design.units) in words
    assert "Computed shape and forces. A computed result is no proof that a hammock is safe." in words
    assert "NOT CHECKED: cloth, apex rings, bar tips." in words  # the mesh is too coarse for it


def test_page_reads_on_light_and_on_dark(page):
    """Only the picture has a ground; no words have a colour."""
    assert re.findall(r"(?:color|background)[^;\"]*", page) == ["background:#fff"]


def test_picture_is_a_sheet_with_all_views(page):
    data = base64.b64decode(re.search(r'base64,([^"]+)"', page)[1])
    with Image.open(BytesIO(data)) as picture:
        assert picture.size == (1169, 827)
        assert len(picture.getcolors()) > 100


def test_what_a_design_says_is_made_harmless(solved_larch):
    odd = dataclasses.replace(solved_larch, design=dataclasses.replace(solved_larch.design, name=EVIL, note=EVIL))
    reader = Reader(odd._repr_html_())
    assert (reader.wrong, reader.open) == ([], [])
    assert "script" not in {tag for tag, _ in reader.elements}
    assert not any("onerror" in given for _, given in reader.elements)


def test_ipython_shows_it_and_a_terminal_one_line(solved_larch):
    shown, _ = DisplayFormatter().format(solved_larch)
    assert shown["text/html"] == solved_larch._repr_html_()
    assert shown["text/plain"] == repr(solved_larch)
    assert "image/png" not in shown  # once is enough


def test_a_session_needs_no_import_and_no_window():
    script = f"""
import sys
from IPython.core.formatters import DisplayFormatter
from tautlay.cases import read_design, solve_case
result = solve_case(read_design({LARCH!r}), mesh_size=0.15, hot_spots=False)
repr(result)
assert not {{"tautlay.viewer", "matplotlib"}} & set(sys.modules), "drawn before it is shown"
assert "text/html" in DisplayFormatter().format(result)[0]
assert not {{"matplotlib.pyplot", "pyvista", "vtkmodules"}} & set(sys.modules), "opens what it does not need"
"""
    subprocess.run([sys.executable, "-W", "error", "-c", script], check=True)
