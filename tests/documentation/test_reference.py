"""The reference says something of everything, and every link of the pages leads somewhere."""

import importlib
import inspect
import re
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"
PAGES = sorted(page for page in DOCS.glob("**/*.md") if not {"_build", "examples"} & set(page.parts))  # as written
FORMS = (
    "tautlay.cases.form.schema.DesignForm",
    "tautlay.cases.studies.sweep.sweep_form.SweepForm",
    "tautlay.cases.studies.choose.choose_form.ChooseForm",
    "tautlay.cases.studies.fit.measured_form.MeasuredForm",
)
ROOMS = ("solver", "materials", "making", "hammock", "cutting", "meshing", "cases", "viewer")


@pytest.fixture(scope="module")
def tables():
    pytest.importorskip("sphinx", reason="documentation needs the extra docs")
    sys.path.insert(0, str(DOCS))
    try:
        yield importlib.import_module("directives.key_tables")
    finally:
        sys.path.remove(str(DOCS))


@pytest.mark.parametrize("form", FORMS)
def test_every_key_of_a_file_is_explained(tables, form):
    comments = tables.read_comments()
    rows = list(tables.list_keys(tables.load(form)))
    silent = [row.path for row in rows if not tables.find_words(row, comments)]
    assert silent == []
    assert len(rows) > 15


def test_every_key_of_a_result_is_explained(tables):
    rows = list(tables.list_record_keys(tables.load("tautlay.cases.result_record.ResultRecord")))
    assert [path for path, words in rows if not words] == []
    assert {"forces.head_bar_thrust_N", "shape.sag_m", "checks[].part"} <= {path for path, _ in rows}


@pytest.mark.parametrize("room", ROOMS)
def test_every_public_name_has_a_page_and_says_what_it_is(room):
    assert f"```{{public-names}} tautlay.{room}\n" in (DOCS / "reference" / "python.md").read_text(encoding="utf-8")
    package = importlib.import_module(f"tautlay.{room}")
    for name in package.__all__:
        found = getattr(package, name)
        if isinstance(found, type) or inspect.isfunction(found):
            assert inspect.getdoc(found), name


@pytest.mark.parametrize("page", PAGES, ids=lambda page: str(page.relative_to(DOCS)))
def test_links_between_pages_lead_somewhere(page):
    for target in re.findall(r"\]\((?!https?:)([^)#]+)", page.read_text(encoding="utf-8")):
        there = (page.parent / target).resolve()
        assert there.exists() or "examples" in there.parts, target


def test_every_example_says_its_number():
    scripts = sorted((DOCS / "gallery").glob("plot_*.py"))
    assert len(scripts) >= 12
    for script in scripts:
        text = script.read_text(encoding="utf-8")
        assert text.count("print(") == 1, script.name
        assert "The number:" in text.replace("The\nnumber:", "The number:"), script.name
