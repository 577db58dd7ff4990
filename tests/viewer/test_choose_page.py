"""The page of the lightest design: start and answer over each other, and why nothing lighter, as picture and as table."""

import re
from dataclasses import replace

import pytest

from tautlay.cases import weigh_design
from tautlay.cases.studies.choose.open_design import read_open_design
from tautlay.cases.studies.choose.outcome import ChooseResult, ChosenDesign, NextLighter
from tautlay.cases.studies.sweep.sweep_row import RowStatus, SweepRow
from tautlay.cases.studies.sweep.variant import Variant
from tautlay.viewer.choose_page import compose_choose_page

OPEN = """
[choose]
name = "Two <lengths>"
design = "heron_ford.toml"

[[vary]]
name = "length"
key = "body.length"
values = ["2.00 m", "2.10 m"]

[[vary]]
name = "legs"
key = "suspension.leg"
values = ["12-strand UHMWPE 1.75 mm", "12-strand UHMWPE 2 mm"]
"""


def make_result(folder, *, found=True):
    """Return a search with a made-up end: nothing is solved."""
    from importlib.resources import files

    plan = (files("tautlay.cases") / "heron_ford.toml").read_text(encoding="utf-8")
    (folder / "heron_ford.toml").write_text(plan, encoding="utf-8")
    (folder / "open.toml").write_text(OPEN, encoding="utf-8")
    asked = read_open_design(folder / "open.toml")
    picks = (0, 1)
    options = tuple(choice.options[pick] for choice, pick in zip(asked.fine.choices, picks, strict=True))
    design = asked.fine.make_design(Variant(1, picks, options))
    labels = {choice.name: option.label for choice, option in zip(asked.fine.choices, options, strict=True)}
    row = SweepRow(1, labels, RowStatus.SOLVED, figures={"least_margin": 1.05}, governs="left head leg, splice breaks")
    chosen = ChosenDesign(row, weigh_design(design).packed.mass, True, asked.fine.name, design)
    lighter = (
        NextLighter(
            "legs", options[1].label, "12-strand UHMWPE 1.75 mm", 0.0031, "head leg, splice breaks, 120 % used"
        ),
        NextLighter("length", "2.00 m", "<1.98 m>", 0.0008, "cloth left beyond the soles, 140 % used"),
    )
    return ChooseResult(asked, chosen if found else None, lighter=lighter if found else (), proven=True)


def test_start_and_answer_lie_over_each_other_with_sizes_weights_and_values(tmp_path):
    page = compose_choose_page(make_result(tmp_path))
    outlines = [
        [float(pair.split(",")[0]) for pair in points.split()]
        for points in re.findall(r'polygon points="([^"]+)"', page)
    ]
    assert [max(each) for each in outlines] == [210.0, 200.0]  # hundredths of the length, as written and as chosen
    assert "2.10 m" in page
    assert "2.00 m" in page
    assert page.index("added pack weight") < page.index("What was open")
    assert "Lightest that passes" in page


def test_each_gram_has_a_bar_and_a_row_and_nothing_of_a_file_runs(tmp_path):
    page = compose_choose_page(make_result(tmp_path))
    shares = [float(each) for each in re.findall(r'class="bar" style="width: ([0-9.]+)%"', page)]
    assert shares == pytest.approx([100.0, 25.8], abs=0.1)
    assert "head leg, splice breaks, 120 % used" in page
    assert "<lengths>" not in page
    assert "<1.98 m>" not in page


def test_another_goal_stands_in_the_heading(tmp_path):
    found = make_result(tmp_path)
    for goal, words in (
        (["back_sag_m"], "Best that passes in back sag"),
        (["packed_kg", "back_sag_m"], "beaten by nothing"),
    ):
        asked = replace(found.open_design, terms=found.open_design.terms.model_copy(update={"goal": goal}))
        page = compose_choose_page(replace(found, open_design=asked, lighter=()))
        assert words in page
        assert "Lightest that passes</h2>" not in page


def test_where_nothing_passes_the_page_says_so(tmp_path):
    page = compose_choose_page(make_result(tmp_path, found=False))
    assert "Nothing passes" in page
    assert "<svg" not in page
