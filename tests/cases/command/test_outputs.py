"""No output replaces what is read, or a file of somebody else; no name moves the cursor of a terminal."""

import json
import os
import subprocess
import sys
from importlib.resources import files
from pathlib import Path

import pytest
from click.testing import CliRunner

from tautlay.cases.command.cli import main

from ..._start import BEGIN
from .test_rank_command import keep_rows, make_grid

LARCH = (files("tautlay.cases") / "larch_ridge.toml").read_text(encoding="utf-8")
RED = "\x1b[31m"
OWN = '[cord."own"]\nbase = "12-strand UHMWPE 2 mm"\n'


@pytest.fixture
def home(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("d.toml").write_text(LARCH + '\n[materials]\nfiles = ["own.toml"]\n', encoding="utf-8")
    Path("own.toml").write_text(OWN, encoding="utf-8")
    keep_rows(Path("s.sqlite"), make_grid())
    return tmp_path


def call(*arguments, code=0):
    outcome = CliRunner().invoke(main, list(map(str, arguments)))
    assert outcome.exit_code == code, outcome.output
    return outcome.output


# Each writes {}; the last is what it is called in sentences.
OUTPUTS = {
    "weigh": (("weigh", "d.toml", "--json", "{}"), "list of weights"),
    "hang": (("hang", "d.toml", "--json", "{}"), "list of tree spacings"),
    "csv": (("rank", "s.sqlite", "--csv", "{}"), "table"),
    "parquet": (("rank", "s.sqlite", "--parquet", "{}"), "table"),
    "page": (("rank", "s.sqlite", "--page", "{}"), "page"),
    "report": (("report", "result", "-o", "{}"), "page"),
    "comparison": (("report", "result", "result", "-o", "{}"), "page"),
}


@pytest.mark.parametrize("name", OUTPUTS)
def test_file_of_somebody_else_is_not_replaced(home, name):
    arguments, noun = OUTPUTS[name]
    mine = b'{"mine": 1}\n<!doctype html>\nnumber,1\n'
    Path("mine").write_bytes(mine)
    words = call(*(each.format("mine") for each in arguments), code=2)
    assert f"mine: this file is no {noun} that tautlay wrote; choose another name, or replace it with --force." in words
    assert Path("mine").read_bytes() == mine


@pytest.mark.parametrize("target", ["d.toml", "own.toml", "link.toml"])
@pytest.mark.parametrize("name", ["weigh", "hang"])
def test_what_is_read_is_not_replaced_even_by_force(home, name, target):
    os.link("d.toml", "link.toml")
    before = Path(target).read_bytes()
    words = call(*(each.format(target) for each in OUTPUTS[name][0]), "--force", code=2)
    assert "this file is being read and is not replaced" in words
    assert Path(target).read_bytes() == before


@pytest.mark.parametrize("name", ["weigh", "csv", "parquet", "page"])
def test_earlier_output_is_replaced_and_anything_else_by_force(home, name):
    arguments = [each.format("out") for each in OUTPUTS[name][0]]
    for _ in range(2):
        call(*arguments)
    Path("out").write_text("mine")
    call(*arguments, "--force")
    assert Path("out").read_bytes() != b"mine"


def test_design_is_written_over_a_file_only_by_force(home):
    words = call("rank", "s.sqlite", "--write-design", 1, "d.toml", code=2)
    assert "the file already exists; choose another name, or replace it with --force." in words
    words = call("new", "d.toml", code=2)
    assert "the file already exists; choose another name, or replace it with --force." in words


def test_link_and_device_are_no_places(home):
    Path("away").symlink_to("nowhere")
    assert "broken link or no ordinary file" in call("weigh", "d.toml", "--json", "away", code=2)
    assert "broken link or no ordinary file" in call("weigh", "d.toml", "--json", "/dev/null", code=2)


def test_folder_of_the_design_is_not_replaced(home):
    Path("result").mkdir()
    Path("d.toml").rename("result/design.toml")
    Path("own.toml").rename("result/own.toml")
    words = call("solve", "result/design.toml", "-o", "result", code=2)
    assert "has design.toml, which is being read; nothing was written" in words


def test_pictures_do_not_replace_pictures_of_others(shown, tmp_path):
    mine = tmp_path / "view_top.png"
    mine.write_bytes(b"\x89PNG mine")
    words = call("view", shown, "--pictures", tmp_path, code=2)
    assert "this file is no picture that tautlay wrote" in words
    assert list(tmp_path.iterdir()) == [mine]


@pytest.mark.slow
@pytest.mark.parametrize("name", [b"bad\xff.toml", b"red\x1b[31m.toml", "d\u00e4 n\u00e4.toml".encode()])
def test_name_of_any_bytes_is_solved_weighed_and_drafted(home, name):
    path = os.fsencode(home) + b"/" + name
    Path("d.toml").rename(os.fsdecode(path))
    for arguments in (
        ["solve", path, "--mesh-size", "20 cm", "--no-picture", "-o", b"o" + name],
        ["weigh", path, "--json", b"w" + name],
        ["pattern", path, "-o", b"p" + name],
    ):
        done = subprocess.run([sys.executable, "-c", BEGIN, *arguments], capture_output=True, check=False)
        assert (done.returncode, done.stderr) == (0, b""), done.stderr.decode(errors="replace")[-500:]
        assert b"\x1b" not in done.stdout
    written = [os.fsencode(each.name) for each in home.iterdir()]
    assert {b"o" + name, b"w" + name, b"p" + name} <= set(written)
    for file in (
        b"o" + name + b"/result.json",
        b"w" + name,
        b"o" + name + b"/report.html",
        b"p" + name + b"/pattern.html",
    ):
        with Path(os.fsdecode(file)).open(encoding="utf-8") as stream:
            assert RED not in stream.read()
    with Path(os.fsdecode(b"w" + name)).open(encoding="utf-8") as stream:
        assert json.load(stream)["design"]["file"].isprintable()


def test_result_is_kept_where_a_page_cannot_be_drawn(home, monkeypatch):
    def fail(*_, **__):
        raise RuntimeError("no page")

    monkeypatch.setattr("tautlay.cases.command.result_pictures.draw_result", fail)
    outcome = CliRunner().invoke(main, ["solve", "d.toml", "--mesh-size", "20 cm", "-o", "out"])
    assert isinstance(outcome.exception, RuntimeError)
    assert {path.name for path in Path("out").iterdir()} == {"design.toml", "result.json", "shape.vtu"}
