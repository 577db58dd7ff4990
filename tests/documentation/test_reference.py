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


def list_sized_keys(tables):
    """Return every key of the design file that is a length or an angle; [judge] limits what is found instead."""
    find = tables.load("tautlay.cases.form.schema.find_quantity")
    fields = tables.load("tautlay.cases.form.schema.find_field")
    rows = tables.list_keys(tables.load(FORMS[0]))
    rules = {row.path: find(fields(tuple(row.path.split(".")))[1]) for row in rows if not row.path.startswith("judge.")}
    return [path for path, rule in rules.items() if rule is not None and rule.dimension in ("length", "angle")]


@pytest.fixture(scope="module")
def drawings(tables):
    return importlib.import_module("directives.measures_drawing")


def test_every_length_and_angle_of_the_design_file_is_drawn(tables, drawings):
    sized = list_sized_keys(tables)
    assert len(sized) > 150
    assert [path for path in sized if drawings.find_drawn(path) is None] == []


def test_a_key_that_is_drawn_itself_has_its_own_number(drawings):
    assert drawings.find_drawn("body.foot_width").number != drawings.find_drawn("body.head_width").number
    assert drawings.find_drawn("foot_extension.opening") == drawings.find_drawn("head_extension.opening")


def test_a_length_that_is_not_drawn_is_found(drawings):
    drawn = drawings.list_drawn_keys()
    assert all(
        drawings.find_alike(path) not in drawn for path in ("body.sag", "ends.strap.girth", "head_bar.part.bury")
    )


def test_nothing_is_drawn_that_is_no_key(tables, drawings):
    sized = list_sized_keys(tables)
    assert set(drawings.list_drawn_keys()) <= {*sized, *map(drawings.find_alike, sized)}


def test_every_drawing_stands_beside_the_keys_of_a_table(tables, drawings):
    groups = {row.path.rpartition(".")[0] for row in tables.list_keys(tables.load(FORMS[0]))}
    assert {drawing.table for drawing in drawings.list_drawings()} <= groups
    text = (DOCS / "reference" / "design_file.md").read_text(encoding="utf-8")
    assert f"```{{form-keys}} {FORMS[0]}\n:drawn:\n```" in text


def test_every_key_of_a_result_is_explained(tables):
    rows = list(tables.list_record_keys(tables.load("tautlay.cases.result_record.ResultRecord")))
    assert [path for path, words in rows if not words] == []
    told = dict(rows)
    assert {"forces.head_bar_thrust_N", "shape.sag_m", "checks[].part", "checks[].demand_UNIT"} <= set(told)
    assert told["comfort.trunk_pitch_rad"] != told["comfort.leg_pitch_rad"]
    assert told["extensions"].endswith("Left out where there is none.")


@pytest.fixture(scope="module")
def summary():
    cases = importlib.import_module("tautlay.cases")
    design = cases.read_design(ROOT / "cases" / "larch_ridge.toml")
    return cases.solve_case(design, mesh_size=0.15).summary


def test_every_key_of_a_result_is_listed(tables, summary):
    assert tables.find_unlisted(summary) == []


def test_a_key_that_is_not_listed_is_found(tables, summary):
    changed = summary | {"checks": [{"demand_furlong": 1.0}], "stretch": {"left side cord": {"colour": ""}}, "odd": {}}
    assert tables.find_unlisted(changed) == ["checks[].demand_furlong", "odd", "stretch.left side cord.colour"]


def test_a_result_names_in_its_reference_what_it_inherits(tables):
    lists = importlib.import_module("directives.name_lists")
    result = importlib.import_module("tautlay.cases").Result
    assert {"findings", "forces", "verdict", "comfort", "record", "summary"} <= set(lists.list_members(result))
    lines = ["What was found."]
    lists.tell_type(None, "property", "comfort", result.comfort, None, lines)
    assert lines == ["*Comfort | None*: What was found."]


@pytest.mark.parametrize("room", ["cases", "solver"])
def test_every_field_of_a_public_record_is_told_where_its_parameters_are(room):
    package = importlib.import_module(f"tautlay.{room}")
    for name in package.__all__:
        kind = getattr(package, name)
        fields = getattr(kind, "__dataclass_fields__", getattr(kind, "_fields", ()))
        told = inspect.getdoc(kind) or ""
        if isinstance(kind, type) and "Parameters\n----" in told:
            assert [each for each in fields if each[0] != "_" and not re.search(rf"\b{each}\b", told)] == [], name


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
