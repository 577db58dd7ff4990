"""``tautlay rank`` on a file of results with invented figures."""

import re
import tomllib
from importlib.resources import files

import pandas
import pytest
from click.testing import CliRunner

from tautlay.cases.command.cli import main
from tautlay.cases.studies.sweep.store import SweepRecord, open_store
from tautlay.cases.studies.sweep.sweep_values import SweepValues
from tautlay.cases.studies.sweep.task import TaskResult

from ..._rows import make_grid, make_row

SWEEP = """[sweep]
name = "Cloth for Larch Ridge"
design = "{design}"
[[vary]]
name = "cloth"
key = "body.fabric"
values = ["ripstop nylon 22 g/m2", "nylon taffeta 60 g/m2"]
labels = ["ripstop nylon 22 g/m2", "taffeta, 60 g/m2"]
[[vary]]
name = "cord"
key = "channel.cord"
values = ["12-strand UHMWPE 1.75 mm", "12-strand UHMWPE 2 mm"]
labels = ["thin", "thick"]
[[vary]]
key = "body.arc.depth"
from = "12 cm"
to = "20 cm"
count = 3
"""


def keep_rows(path, rows, name="Cloth for Larch Ridge", unchecked=("bag",)):
    """Write invented designs into a file of results."""
    design = str(files("tautlay.cases") / "larch_ridge.toml")
    text = (files("tautlay.cases") / "larch_ridge.toml").read_text(encoding="utf-8")
    heading = SweepRecord(
        name, "sweep.toml", SWEEP.format(design=design), text, tuple(rows[0].choices), "", "both", "distributed"
    )
    with open_store(path, make=True) as store:
        for row in rows:
            measured = SweepValues(dict(row.figures), row.governs, row.failed, unchecked)
            store.save_outcome(TaskResult(f"{name} {row.number}", row.status, row.reason, measured))
        store.register(heading, [(row.number, dict(row.choices), f"{name} {row.number}") for row in rows])


@pytest.fixture(scope="module")
def file(tmp_path_factory):
    path = tmp_path_factory.mktemp("rank") / "cloths.sqlite"
    keep_rows(path, make_grid())
    return path


def run(*asked, code=0):
    outcome = CliRunner().invoke(main, ["rank", *map(str, asked)], env={"COLUMNS": "80"})
    assert outcome.exit_code == code, outcome.output
    assert "Traceback" not in outcome.output
    assert all(len(line) <= 80 for line in outcome.stdout.splitlines() if not line.startswith("Written to"))
    return " ".join(outcome.output.split())


@pytest.mark.parametrize("units", ["metric", "imperial", "both"])
def test_it_lists_best_first_with_why_the_others_do_not_hold(file, units):
    words = run(file, "--units", units)
    assert "Cloth for Larch Ridge: 12 designs, distributed; 10 pass." in words
    assert "FAIL: cord breaks" in words
    assert "INVALID: the arcs meet." in words
    assert ("74.00 g" in words) == (units != "imperial")
    assert ("2.610 oz" in words) == (units != "metric")
    assert "NOT CHECKED in some or all of them: bag." in words
    assert "Computed, not proven" in words


def test_rows_are_numbered_in_order_and_the_rest_is_counted(file):
    words = run(file, "--most", 2, "--sort", "least_margin")
    assert words.index("taffeta, 60 g/m2, thick, 12 cm") < words.index("taffeta, 60 g/m2, thick, 16 cm")
    assert "Not shown: 10 more. --most 12 shows all." in words


def test_conditions_are_told_and_what_all_have_is_said_once(file):
    words = run(file, "--where", "cord = thin", "--where", "packed_kg < 100 g", "--holding")
    assert "2 selected (cord = thin; packed_kg < 100 g; passes), 2 pass." in words
    assert "All have cloth ripstop nylon 22 g/m2; cord thin." in words
    assert "0 selected (packed_kg < 1 g), 0 pass." in run(file, "--where", "packed_kg < 1 g", "--effects")


def test_what_nothing_beats_is_listed_with_the_figures_that_count(file):
    words = run(file, "--against", "packed_kg", "least_margin")
    assert "Pareto-optimal in pack weight and reserve factor," in words
    assert "(excluded: 1 that fail, 1 not solved or without these values)" in words
    assert "INVALID" not in words
    run(file, "--against", "packed_kg", "sag_m", code=2)
    none = run(file, "--against", "packed_kg", "least_margin", "--where", "number = 3")
    assert "No design can be compared in pack weight and reserve factor (excluded: 1 that fail)." in none


def test_effects_are_told_with_how_they_are_found(file):
    words = run(file, "--effects", "--units", "metric")
    assert "Effects on packed_kg: added pack weight" in words
    assert "taffeta, 60 g/m2 +90.0 g +90.0 g +90.0 g 5" in words  # one pair lacks the design that was refused
    assert "mean over all pairs of solved designs that differ in this choice alone" in words


def test_tables_are_written(file, tmp_path):
    words = run(file, "--csv", tmp_path / "a.csv", "--parquet", tmp_path / "a.parquet", "--most", 1)
    assert f"Written to {tmp_path / 'a.csv'}" in words.replace("\n", "")
    one, other = pandas.read_csv(tmp_path / "a.csv"), pandas.read_parquet(tmp_path / "a.parquet")
    assert list(one.columns) == list(other.columns)
    assert len(one) == len(other) == 12
    assert one["unbeaten"].sum() > 1


def test_designs_without_checks_are_written_too(tmp_path):
    rows = [make_row(n, {"cloth": str(n)}, packed_kg=n / 10) for n in (1, 2)]
    keep_rows(tmp_path / "few.sqlite", rows)
    run(tmp_path / "few.sqlite", "--csv", tmp_path / "a.csv", "--page", tmp_path / "a.html")
    assert pandas.read_csv(tmp_path / "a.csv")["unbeaten"].tolist() == [False, False]


def test_a_design_is_written_with_what_to_know_of_it(file, tmp_path):
    words = run(file, "--write-design", 3, tmp_path / "three.toml", "--most", 1)
    assert "design 3, ripstop nylon 22 g/m2, thin, 20 cm: FAIL: cord breaks" in words
    written = tomllib.loads((tmp_path / "three.toml").read_text(encoding="utf-8"))
    assert (written["body"]["arc"]["depth"], written["channel"]["cord"]) == ("20 cm", "12-strand UHMWPE 1.75 mm")
    assert "has no design 13. Choose 1 to 12" in run(file, "--write-design", 13, tmp_path / "b.toml", code=2)


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        (["--sort", "least_margn"], "Did you mean least_margin?"),
        (["--where", "packed_kg < 3"], "needs a unit"),
        (["--sweep", "cloth"], "has no sweep 'cloth'"),
        (["--csv", "/proc/nothing/a.csv"], "the file cannot be written"),
        (["--against", "packed_kg", "packed_kg"], "Choose two or more"),
    ],
)
def test_what_cannot_be_done_ends_in_a_sentence(file, asked, words):
    assert words in run(file, *asked, code=2)


def test_a_file_of_something_else_is_refused(tmp_path):
    assert "there is no such file" in run(tmp_path / "none.sqlite", code=2)
    (tmp_path / "a.txt").write_text("a" * 200, encoding="utf-8")
    run(tmp_path / "a.txt", code=2)
    with open_store(tmp_path / "empty.sqlite", make=True):
        pass
    assert "has no sweep yet" in run(tmp_path / "empty.sqlite", code=2)


def test_the_sweep_written_last_is_taken_and_others_by_name(tmp_path):
    file = tmp_path / "two.sqlite"
    keep_rows(file, make_grid())
    keep_rows(file, make_grid()[:2], name="second")
    assert run(file).startswith("second: 2 designs")
    assert run(file, "--sweep", "Cloth for Larch Ridge").startswith("Cloth for Larch Ridge: 12 designs")


def test_control_characters_in_names_do_not_reach_the_terminal(tmp_path):
    rows = make_grid()
    evil = [
        row.__class__(**{**vars(row), "choices": {**row.choices, "cloth": f"[red]\x1b[31m{row.number}"}})
        for row in rows
    ]
    keep_rows(tmp_path / "evil.sqlite", evil)
    outcome = CliRunner().invoke(main, ["rank", str(tmp_path / "evil.sqlite"), "--effects"])
    assert outcome.exit_code == 0
    assert "\x1b" not in outcome.output
    assert "[red]" in outcome.output


NONSENSE = (
    ("--where", f"number = {'9' * 5000}"), ("--where", "governs => x"), ("--where", "reason ~ "),
    ("--where", "packed_kg < 1 g", "--against", "nope", "packed_kg"), ("--csv", "."), ("--sort", "x" * 4000),
)  # fmt: skip


@pytest.mark.parametrize("asked", NONSENSE)
def test_nonsense_ends_in_one_sentence(file, asked):
    outcome = CliRunner().invoke(main, ["rank", str(file), *asked])
    assert outcome.exit_code == 2
    assert len(outcome.stderr.splitlines()) == 1
    assert len(outcome.stderr) < 1000


@pytest.mark.parametrize("option", ["--csv", "--parquet", "--page"])
def test_results_are_not_written_over(file, option):
    before = file.read_bytes()
    outcome = CliRunner().invoke(main, ["rank", str(file), option, str(file)])
    assert outcome.exit_code == 2
    assert "this file is being read and is not replaced" in outcome.stderr
    assert file.read_bytes() == before


def test_two_things_are_not_written_to_one_file(file, tmp_path):
    outcome = CliRunner().invoke(main, ["rank", str(file), "--csv", f"{tmp_path}/a", "--page", f"{tmp_path}/a"])
    assert outcome.exit_code == 2
    assert not list(tmp_path.iterdir())


def test_brackets_in_names_are_text_and_no_markup(tmp_path):
    path = tmp_path / "a.sqlite"
    keep_rows(path, [make_row(n, {"[/b]": label}, packed_kg=n) for n, label in ((1, "[/i]"), (2, "[red]"))])
    outcome = CliRunner().invoke(main, ["rank", str(path), "--effects"])
    assert outcome.exit_code == 0, outcome.exception
    assert all(name in outcome.stdout for name in ("[/b]", "[/i]", "[red]"))


def test_columns_are_listed_one_per_line_and_can_be_sorted_by(file):
    outcome = CliRunner().invoke(main, ["rank", str(file), "--columns"])
    assert outcome.exit_code == 0
    names = [re.split(r" {2,}", line)[0] for line in outcome.stdout.splitlines()]
    assert {"cloth", "cord", "number", "governs", "packed_kg", "least_margin"} <= set(names)
    for name in ("cloth", "number", "packed_kg"):
        run(file, "--sort", name)
    assert "unknown column weight. Did you mean packed_kg? List all: `tautlay rank FILE --columns`." in run(
        file, "--sort", "weight", code=2
    )


def test_passing_has_its_earlier_name_as_an_alias(file):
    assert run(file, "--passing") == run(file, "--holding")
