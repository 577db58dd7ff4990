"""Who lies in it and how, and what is to be computed: keys of [person] and [load]."""

import re
from importlib.resources import files

import pytest

from tautlay.cases import DesignError, read_design
from tautlay.hammock import Arms, LoadCase, LyingSide, Sex

LARCH = (files("tautlay.cases") / "larch_ridge.toml").read_text(encoding="utf-8")
PERSON = LARCH[LARCH.index("[person]") : LARCH.index("[load]")]


def read(tmp_path, person, load='case = "distributed"'):
    path = tmp_path / "own.toml"
    text = LARCH.replace(PERSON, f"[person]\n{person}\n\n").replace('case = "distributed"', load)
    path.write_text(text, encoding="utf-8")
    return read_design(path)


@pytest.mark.parametrize(
    ("who", "sex", "stature"),
    [("woman, 5th percentile", Sex.FEMALE, 1.525), ("man, 95th", Sex.MALE, 1.87), ("woman, 50th", Sex.FEMALE, 1.626)],
)
def test_person_by_percentile(tmp_path, who, sex, stature):
    person = read(tmp_path, f'who = "{who}"\nhead_from_bar = "10 cm"').person
    assert (person.sex, person.stature) == (sex, pytest.approx(stature))


def test_posture_and_load(tmp_path):
    text = 'who = "man, 50th"\nhead_from_bar = "10 cm"\nlie = "side"\narms = "folded"\nknee_pad = "8 cm"\noffset = "2 in"\npillow = "6 cm"'
    design = read(tmp_path, text, 'case = "sudden"\nsudden_factor = 1.5')
    posture = design.person.posture
    assert (posture.lie, posture.arms) == (LyingSide.SIDE, Arms.FOLDED)
    assert (posture.knee_pad, posture.offset) == (pytest.approx(0.08), pytest.approx(0.0508))
    assert posture.pillow == pytest.approx(0.06)
    assert (design.load, design.sudden_factor) == (LoadCase.SUDDEN, 1.5)


@pytest.mark.parametrize(
    ("person", "words"),
    [
        ('who = "giant"', 'Example: "woman, 5th percentile"'),
        ('who = "man, 100th"', "is not a person|between the 1st and the 99th percentile"),
        ('who = "man, 50th"\nmass = "80 kg"', "who"),
        ('stature = "1.7 m"\nmass = "70 kg"', "sex"),
        ('who = "man, 50th"\nlie = "belly"', "bend backwards in the trough. Choose back or side"),
        ('who = "man, 50th"\narms = "up"', "Choose sides or folded"),
        ('who = "man, 50th"\noffset = "2 m"', "must be between"),
        ('who = "man, 50th"\nknee_pad = "-1 cm"', "must be between|negative"),
    ],
)
def test_senseless_persons_are_refused(tmp_path, person, words):
    with pytest.raises(DesignError, match=words):
        read(tmp_path, f'{person}\nhead_from_bar = "10 cm"')


@pytest.mark.parametrize(
    "load", ['case = "standing"', 'case = "sudden"\nsudden_factor = 0.5', 'case = "sudden"\nsudden_factor = "2"']
)
def test_senseless_loads_are_refused(tmp_path, load):
    with pytest.raises(DesignError, match=r"load\."):
        read(tmp_path, 'who = "man, 50th"\nhead_from_bar = "10 cm"', load)


def test_a_head_beyond_a_bar_is_written_with_a_minus_sign(tmp_path):
    heron = (files("tautlay.cases") / "heron_ford.toml").read_text(encoding="utf-8")
    path = tmp_path / "own.toml"
    path.write_text(re.sub(r'head_from_bar = ".*?"', 'head_from_bar = "-1 3/4 in"', heron), encoding="utf-8")
    assert read_design(path).person.head_from_bar == pytest.approx(-0.04445)
    with pytest.raises(
        DesignError, match=r"crown lies 10\.0 cm .* beyond the head bar, but there is no cloth beyond it"
    ):
        read(tmp_path, 'who = "man, 50th"\nhead_from_bar = "-10 cm"')
