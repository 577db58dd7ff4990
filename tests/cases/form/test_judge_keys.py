"""What a design has to stand: keys of [judge], and several people."""

from importlib.resources import files

import pytest

from tautlay.cases import read_design
from tautlay.cases.judging.comfort.measure_list import MEASURES
from tautlay.cases.judging.verdict.limit import LIMITED, Limit
from tautlay.hammock import LoadCase

from ._design_issues import list_faults

LARCH = (files("tautlay.cases") / "larch_ridge.toml").read_text(encoding="utf-8")
GUEST = '[[person]]\nname = "guest"\nwho = "man, 95th percentile"\nhead_from_bar = "10 cm"\n\n'


def read(tmp_path, more="", text=LARCH):
    path = tmp_path / "own.toml"
    path.write_text(f"{text}\n{more}", encoding="utf-8")
    return read_design(path)


def list_people(people):
    """Return the demonstration for other people."""
    start = LARCH.index("[person]")
    return f"{LARCH[:start]}{people}{LARCH[LARCH.index('[load]') :]}"


def test_left_out_it_asks_for_lying_sitting_and_sudden_with_room_below_and_knees_that_do_not_bend_back(tmp_path):
    terms = read(tmp_path).terms
    assert terms.loads == (LoadCase.LYING, LoadCase.SITTING, LoadCase.SUDDEN)
    assert [who.name for who in terms.people] == [""]
    assert {(limit.key, limit.side) for limit in terms.limits} == {
        ("ground_clearance_m", "least"),
        ("knee_flexion_rad", "least"),
    }


@pytest.mark.parametrize("load", LoadCase)
def test_every_load_case_can_be_asked_for(tmp_path, load):
    assert read(tmp_path, f'[judge]\nloads = ["{load}"]').terms.loads == (load,)


def test_every_measure_of_the_lay_can_be_limited():
    assert {measure.key for measure in MEASURES} <= {each.key for each in LIMITED}


def test_limits_have_units_and_replace_the_usual_ones(tmp_path):
    terms = read(
        tmp_path, '[judge.most]\nback_sag_m = "8 in"\npacked_kg = "300 g"\n[judge.least]\nground_clearance_m = "50 cm"'
    ).terms
    assert Limit("ground_clearance_m", "least", 0.5) in terms.limits
    assert Limit("packed_kg", "most", pytest.approx(0.3)) in terms.limits
    assert Limit("back_sag_m", "most", pytest.approx(0.2032)) in terms.limits
    assert len([limit for limit in terms.limits if limit.key == "ground_clearance_m"]) == 1


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ("[judge]\nloads = []", "judge.loads"),
        ('[judge]\nloads = ["laying"]', "Did you mean lying?"),
        ('[judge]\nloads = ["lying", "lying"]', "twice"),
        ('[judge.most]\nback_sag = "20 cm"', "Did you mean back_sag_m?"),
        ("[judge.most]\nback_sag_m = 0.2", "judge.most.back_sag_m"),
        ('[judge.most]\nback_sag_m = "10 cm"\n[judge.least]\nback_sag_m = "12 cm"', "no hammock can meet both"),
    ],
)
def test_faults_name_the_key_and_what_to_do(tmp_path, more, words):
    (fault,) = list_faults(tmp_path, f"{LARCH}\n{more}")
    assert words in str(fault)
    assert fault.line is not None
    assert fault.line > LARCH.count("\n")


def test_several_people_have_names_and_the_first_is_that_of_a_solve(tmp_path):
    second = '[[person]]\nwho = "woman, 5th percentile"\nhead_from_bar = "15 cm"\n\n'
    design = read(tmp_path, text=list_people(GUEST + second))
    assert [who.name for who in design.terms.people] == ["guest", "woman, 5 %"]
    assert design.person == design.terms.people[0].person
    assert [case.title for case in design.terms.list_cases()] == [
        "sitting, guest", "sudden, guest", "lying, guest",
        "sitting, woman, 5 %", "sudden, woman, 5 %", "lying, woman, 5 %",
    ]  # fmt: skip


def test_one_in_a_list_is_the_same_as_one_table(tmp_path):
    one, listed = read(tmp_path), read(tmp_path, text=LARCH.replace("[person]", "[[person]]", 1))
    assert one.person == listed.person
    assert one.terms == listed.terms


@pytest.mark.parametrize(
    ("second", "words"),
    [
        ('[[person]]\nhead_from_bar = "15 cm"\n\n', "person.2: who or stature, mass and sex is missing"),
        ('[[person]]\nwho = "man, 5th"\nhead_from_bar = "15 cm"\nhat = "2"\n\n', "person.2.hat"),
        (
            '[[person]]\nstature = "2.05 m"\nmass = "99 kg"\nsex = "male"\nhead_from_bar = "60 cm"\n\n',
            "person.2.stature",
        ),
    ],
)
def test_a_fault_of_one_of_several_people_is_told_by_number(tmp_path, second, words):
    (fault,) = list_faults(tmp_path, list_people(GUEST + second))
    assert words in str(fault)


def test_more_people_than_a_study_takes_are_refused(tmp_path):
    (fault,) = list_faults(tmp_path, list_people(GUEST * 7))
    assert "6" in str(fault)
