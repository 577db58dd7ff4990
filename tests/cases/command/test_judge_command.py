"""`tautlay judge`: its table, its files, its exit codes."""

import json
from importlib.resources import files

import pytest
from click.testing import CliRunner

from tautlay.cases.command.cli import main

LARCH = (files("tautlay.cases") / "larch_ridge.toml").read_text(encoding="utf-8")
PEOPLE = """[[person]]
name = "host"
stature = "1.66 m"
mass = "64 kg"
sex = "female"
head_from_bar = "15 cm"

[[person]]
name = "guest"
who = "man, 95th percentile"
head_from_bar = "12 cm"

[judge]
loads = ["distributed", "sudden"]

[judge.most]
packed_kg = "300 g"

"""


def run(*words):
    return CliRunner().invoke(main, [str(word) for word in words], catch_exceptions=False)


@pytest.fixture(scope="module")
def judged(tmp_path_factory):
    """Return the folder of a judged design for two people, without contact, and what was printed."""
    folder = tmp_path_factory.mktemp("judge")
    text = f"{LARCH[: LARCH.index('[person]')]}{PEOPLE}{LARCH[LARCH.index('[load]') :]}"
    (folder / "own.toml").write_text(text, encoding="utf-8")
    names = ("--json", folder / "a.json", "--page", folder / "a.html")
    return folder, run("judge", folder / "own.toml", "--mesh-size", "15 cm", *names, "--strict")


def test_table_fits_the_terminal_and_stands_in_order(judged):
    _, outcome = judged
    lines = outcome.stdout.splitlines()
    assert outcome.exit_code == 1
    assert max(len(line) for line in lines if not line.startswith("Written")) <= 80
    heads = [line.strip() for line in lines]
    places = [heads.index(each) for each in ("To pass", "Too little reserve", "Beyond a limit", "Pass")]
    assert places == sorted(places)
    assert "Computed, not proven" in outcome.stdout


def test_the_heavier_of_two_people_gives_the_need_and_weight_belongs_to_nobody(judged):
    folder, _ = judged
    found = json.loads((folder / "a.json").read_text(encoding="utf-8"))
    assert not found["passed"]
    assert [each["name"] for each in found["people"]] == ["host", "guest"]
    assert found["judged"] == ["distributed", "sudden"]
    assert found["unjudged"] == []
    strength = [each for each in found["requirements"] if each["topic"] == "strength"]
    assert {each["person"] for each in strength if each["utilisation"]} == {"guest"}
    weight = next(each for each in found["requirements"] if each["name"] == "added pack weight")
    assert (weight["load"], weight["person"], weight["required_kg"]) == ("", "", pytest.approx(0.3))


def test_page_says_the_same_and_loads_nothing(judged):
    folder, _ = judged
    found = json.loads((folder / "a.json").read_text(encoding="utf-8"))
    page = (folder / "a.html").read_text(encoding="utf-8")
    assert 'class="verdict bad"' in page
    assert found["verdict"] in page
    assert page.count('<tr class="not">') == sum(each["grade"] != "pass" for each in found["requirements"])
    assert "default-src 'none'" in page


def test_its_files_replace_earlier_ones_and_nothing_else(judged, tmp_path):
    folder, _ = judged
    (tmp_path / "mine.json").write_text("{}", encoding="utf-8")
    outcome = run("judge", folder / "own.toml", "--json", tmp_path / "mine.json")
    assert outcome.exit_code == 2
    assert "no verdict that tautlay wrote" in outcome.stderr
    twice = run("judge", folder / "own.toml", "--json", tmp_path / "a", "--page", tmp_path / "a")
    assert twice.exit_code == 2
    assert "given twice" in twice.stderr
    read = run("judge", folder / "own.toml", "--page", folder / "own.toml")
    assert read.exit_code == 2
    assert run("judge", folder / "own.toml", "--mesh-size", "9 m").exit_code == 2
