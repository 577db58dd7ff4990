"""A drawing of a design says every main size with its key, in true proportion."""

import re
from importlib.resources import files
from xml.etree import ElementTree

import pytest
from click.testing import CliRunner

from tautlay.cases import read_design
from tautlay.cases.command.cli import main
from tautlay.cases.unit_display import show_quantity
from tautlay.viewer import draw_measures

LARCH = files("tautlay.cases") / "larch_ridge.toml"


@pytest.fixture(scope="module")
def design():
    return read_design(LARCH)


def read_words(svg):
    return [
        " ".join("".join(each.itertext()).split())
        for each in ElementTree.parse(svg).iter()
        if each.tag.endswith("text")
    ]


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_every_main_size_stands_on_it(design, tmp_path, units):
    draw_measures(design, tmp_path / "m.svg", units=units)
    words = read_words(tmp_path / "m.svg")
    body, ropes = design.hammock.body, design.hammock.suspension
    for key, value in {
        "body.length": body.length, "body.head_width": body.head_width, "body.foot_width": body.foot_width,
        "body.arc.depth": body.left_arc.depth, "head_bar.length": design.hammock.head_bar.length,
        "foot_bar.length": design.hammock.foot_bar.length, "person.stature": design.person.stature,
        "head_line_length": ropes.head.line_length, "foot_leg_length": ropes.foot.leg_length,
        "head_strap_height": ropes.head.strap_height,
    }.items():  # fmt: skip
        shown = f"{key}{show_quantity(value, 'length', units)}".replace(" ", "")
        assert shown in "".join(words).replace(" ", ""), key


def test_the_same_design_gives_the_same_bytes(design, tmp_path):
    for name in ("a.svg", "b.svg"):
        draw_measures(design, tmp_path / name)
    assert (tmp_path / "a.svg").read_bytes() == (tmp_path / "b.svg").read_bytes()


def test_the_command_replaces_its_own_drawing_and_nothing_else(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    runner = CliRunner()
    for name in ("larch_ridge.svg", "m.png"):
        arguments = ["draw", str(LARCH)] if name.endswith("svg") else ["draw", str(LARCH), "-o", name]
        for _ in range(2):
            assert runner.invoke(main, arguments).output == f"Written to {name}\n"
    (tmp_path / "mine.svg").write_text("<svg/>", encoding="utf-8")
    refused = runner.invoke(main, ["draw", str(LARCH), "-o", "mine.svg"])
    assert refused.exit_code == 2
    assert (tmp_path / "mine.svg").read_text(encoding="utf-8") == "<svg/>"
    wrong = runner.invoke(main, ["draw", str(LARCH), "-o", "m.gif"])
    assert wrong.exit_code == 2
    assert re.search(r"m\.gif must end in \.svg or \.png", wrong.output)
