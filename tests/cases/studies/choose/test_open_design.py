"""A file that leaves something open: read, and refused with a sentence."""

import pytest

from tautlay.cases import DesignError
from tautlay.cases.studies.choose.candidate import weigh_jobs
from tautlay.cases.studies.choose.open_design import read_open_design
from tautlay.cases.studies.sweep.plan import plan_jobs

from ._small import CORDS, vary, write_open

RANGE = '\n[[vary]]\nkey = "suspension.leg_length"\nfrom = "65 cm"\nto = "75 cm"\n'
WRONG = {
    "a person": (vary("person.mass", '["50 kg", "60 kg"]'), "person.mass says what the design has to stand"),
    "a factor": (vary("factors.cord", "[2, 5]"), "factors.cord says what the design has to stand"),
    "a load": (vary("load.case", '["lying"]'), "load.case says what the design has to stand"),
    "an unknown key": (vary("body.lenth", '["2 m"]'), "Did you mean length?"),
    "nothing": ("", "first thing that is open"),
}


def test_combinations_of_listed_values_are_a_finite_set(tmp_path):
    asked = read_open_design(write_open(tmp_path, vary("suspension.leg", CORDS) + vary("body.layers", "[1, 2]")))
    assert asked.finite
    assert not asked.rough
    assert len(asked.sweep.variants) == 10


def test_two_ends_without_a_count_are_no_finite_set_and_may_have_a_coarse_mesh(tmp_path):
    asked = read_open_design(write_open(tmp_path, RANGE, more='mesh_size = "25 cm"\nstarts = 4\n'))
    assert not asked.finite
    assert asked.rough
    assert len(asked.sweep.variants) == 4


@pytest.mark.parametrize(("text", "words"), WRONG.values(), ids=WRONG)
def test_what_cannot_be_chosen_is_told(tmp_path, text, words):
    with pytest.raises(DesignError, match=words.replace("?", r"\?")):
        read_open_design(write_open(tmp_path, text))


@pytest.mark.parametrize(
    ("text", "words"),
    [('[sweep]\nname = "a"\n', "Write .choose. instead"), ('[body]\nlength = "2 m"\n', "this is a design")],
)
def test_another_kind_of_file_is_told(tmp_path, text, words):
    path = tmp_path / "other.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(DesignError, match=words):
        read_open_design(path)


def test_weights_come_first_and_too_weak_a_line_is_excluded_by_statics(tmp_path):
    asked = read_open_design(write_open(tmp_path, vary("suspension.line", '["hair", "12-strand UHMWPE 2.5 mm"]')))
    light, heavy = weigh_jobs(plan_jobs(asked.sweep))
    assert light.packed < heavy.packed
    assert [weak.part for weak in light.weak] == ["head line", "foot line"]
    assert heavy.weak == ()


def test_keys_that_vary_together_have_ends_of_their_own(tmp_path):
    keys = '["head_bar.length", "head_bar.part.2.length"]'
    linked = f'\n[[vary]]\nkeys = {keys}\nfrom = ["86 cm", "7.5 cm"]\nto = ["96 cm", "17.5 cm"]\n'
    asked = read_open_design(write_open(tmp_path, linked))
    assert [each for _, each in asked.sweep.choices[0].pick(0.5).settings] == ["91 cm", "12.5 cm"]
    with pytest.raises(DesignError, match="lists of 2 values each"):
        read_open_design(write_open(tmp_path, linked.replace('["96 cm", "17.5 cm"]', '["96 cm"]')))
