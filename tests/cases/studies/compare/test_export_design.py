"""A design of a sweep written as a design file: the tables that were solved, the comments of its maker."""

import tomllib
from importlib.resources import files
from pathlib import Path

import pytest

from tautlay.cases import read_sweep
from tautlay.cases.studies.compare.export_design import extract_design, write_extract
from tautlay.cases.studies.compare.reload_sweep import restore_sweep, summarise_sweep
from tautlay.cases.studies.compare.value_columns import RankingError
from tautlay.cases.studies.sweep.store import SweepRecord
from tautlay.cases.studies.sweep.sweep_row import RowStatus, SweepRow

DEMOS = ("larch_ridge", "heron_ford", "otter_creek", "starter")
KEYS = """
[[vary]]
key = "body.fabric"
values = ["ripstop nylon 30 g/m2", "ripstop nylon 37 g/m2"]
[[vary]]
keys = ["body.head_width", "body.foot_width"]
values = [["1.20 m", "1.10 m"], ["48 in", "44 in"]]
[[vary]]
name = "sleeper"
key = "person.who"
values = ["man, 5th percentile"]
[[vary]]
key = "trees.girth"
values = ["1.3 m"]
[[vary]]
key = "suspension.tree_distance"
values = ["4.4 m"]
[[vary]]
key = "channel.lock"
values = [{ thread = "nylon size E", stitch_length = "3 mm", rows = 2, corner_length = "5 cm" }]
labels = ["two rows"]
[[vary]]
key = "load.sudden_factor"
from = 2.0
to = 3.0
count = 2
"""
PART = """
[[vary]]
key = "head_bar.part.2.length"
values = ["12 cm", "13 cm"]
"""
SECTION = """
[[vary]]
key = "head_bar.section"
values = ["7075-T6 16 x 1 mm"]
"""


def make_sweep(folder, design, vary, combine="one at a time"):
    """Return a sweep of a design, and what a file of results would keep of it."""
    file = folder / "sweep.toml"
    file.write_text(
        f'[sweep]\nname = "many keys"\ndesign = "{design}"\ncombine = "{combine}"\n{vary}', encoding="utf-8"
    )
    sweep = read_sweep(file)
    names = tuple(choice.name for choice in sweep.choices)
    return sweep, SweepRecord(sweep.name, str(file), sweep.text, sweep.base.text, names, "", "metric", "distributed")


def make_row(sweep, variant):
    pairs = zip(sweep.choices, variant.options, strict=True)
    return SweepRow(variant.number, {choice.name: option.label for choice, option in pairs}, RowStatus.SOLVED)


def find_comments(text):
    return [line.strip() for line in text.splitlines() if line.strip().startswith("#")]


@pytest.mark.parametrize("demo", DEMOS)
def test_written_tables_are_those_that_were_solved_and_comments_stay(demo, tmp_path):
    design = str(files("tautlay.cases") / f"{demo}.toml")
    bar = PART if "\n[[head_bar.part]]" in Path(design).read_text(encoding="utf-8") else SECTION
    sweep, heading = make_sweep(tmp_path, design, KEYS + bar)
    assert len(sweep.variants) > 9
    for variant in sweep.variants:
        text = extract_design(heading, make_row(sweep, variant), tmp_path).text
        assert tomllib.loads(text) == sweep.set_tables(variant)
        gone = variant.options[5].settings  # the table that is replaced as a whole goes with its comments
        before, _, after = sweep.base.text.partition("[channel.lock]")
        outside = before + after[after.index("\n[") :] if gone and after else sweep.base.text
        assert set(find_comments(outside)) <= set(find_comments(text))
        assert text.startswith(f"# Design {variant.number} of the sweep many keys of {demo}.toml: ")


def test_all_choices_at_once_are_written(tmp_path):
    sweep, heading = make_sweep(
        tmp_path,
        str(files("tautlay.cases") / "heron_ford.toml"),
        KEYS + PART,
        'latin hypercube"\nsamples = 3\nseed = 4 #',
    )
    for variant in sweep.variants:
        text = extract_design(heading, make_row(sweep, variant), tmp_path).text
        assert tomllib.loads(text) == sweep.set_tables(variant)
        assert "stature" not in tomllib.loads(text)["person"]
        assert "hang_angle" not in tomllib.loads(text)["suspension"]


def test_a_kept_sweep_reads_as_the_file_did(tmp_path):
    sweep, heading = make_sweep(tmp_path, str(files("tautlay.cases") / "heron_ford.toml"), KEYS)
    again = restore_sweep(heading)
    assert (again.choices, again.variants, again.mesh_size) == (sweep.choices, sweep.variants, sweep.mesh_size)
    assert summarise_sweep(heading) == ("Heron Ford", "", "one at a time", 0.04, True)
    with pytest.raises(RankingError, match="cannot be read again"):
        restore_sweep(heading._replace(text="[swoop]"))


def test_inline_tables_dotted_keys_and_crlf_are_written_too(tmp_path):
    text = (files("tautlay.cases") / "larch_ridge.toml").read_text(encoding="utf-8")
    head, body = text.split("[load]", 1)
    odd = (head + "[load]  # as hung" + body).replace("\n", "\r\n")
    (tmp_path / "odd.toml").write_bytes(odd.encode())
    sweep, heading = make_sweep(tmp_path, "odd.toml", KEYS)
    for variant in sweep.variants:
        written = extract_design(heading, make_row(sweep, variant), tmp_path).text
        assert tomllib.loads(written) == sweep.set_tables(variant)
        assert "# as hung" in written


@pytest.fixture
def with_materials(tmp_path):
    """A design with a file of materials beside it, in a folder of its own."""
    home = tmp_path / "home"
    home.mkdir()
    design = (files("tautlay.cases") / "larch_ridge.toml").read_text(encoding="utf-8")
    (home / "own.toml").write_text(
        '[fabric."own cloth"]\nbase = "ripstop nylon 37 g/m2"\nsource = "invented"\nstatus = "seen"\n', encoding="utf-8"
    )
    (home / "mine.toml").write_text(f'{design}\n[materials]\nfiles = ["own.toml"]\n', encoding="utf-8")
    vary = '[[vary]]\nkey = "body.fabric"\nvalues = ["own cloth"]\n'
    return make_sweep(home, "mine.toml", vary)


def test_files_of_materials_are_named_from_where_the_design_lies(with_materials, tmp_path):
    from tautlay.cases import read_design

    sweep, heading = with_materials
    row = make_row(sweep, sweep.variants[1])
    beside = extract_design(heading, row, tmp_path / "home")
    assert (beside.moved, tomllib.loads(beside.text)["materials"]) == ((), {"files": ["own.toml"]})
    away = write_extract(heading, row, tmp_path / "away" / "deep" / "seven.toml")
    assert away.moved == ("../../home/own.toml",)
    assert read_design(tmp_path / "away" / "deep" / "seven.toml").hammock.body.fabric.name == "own cloth"


def test_a_missing_file_of_materials_is_told(with_materials, tmp_path):
    sweep, heading = with_materials
    (tmp_path / "home" / "own.toml").unlink()
    with pytest.raises(RankingError, match=r"the sweep many keys cannot be read again: .*own\.toml"):
        extract_design(heading, make_row(sweep, sweep.variants[1]), tmp_path)


def test_a_file_that_is_there_is_never_replaced(with_materials, tmp_path):
    sweep, heading = with_materials
    with pytest.raises(FileExistsError, match="the file already exists"):
        write_extract(heading, make_row(sweep, sweep.variants[1]), tmp_path / "home" / "mine.toml")


def test_a_design_whose_choices_mean_something_else_by_now_is_not_written(with_materials, tmp_path):
    _, heading = with_materials
    with pytest.raises(RankingError, match=r"has changed since\. Run the sweep again"):
        extract_design(heading, SweepRow(2, {"body.fabric": "gone"}, RowStatus.SOLVED), tmp_path)
