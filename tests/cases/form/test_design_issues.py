import os
import re
from importlib.resources import files
from pathlib import Path

import pytest
from click.testing import CliRunner

from tautlay.cases import DesignError, read_design
from tautlay.cases.command.cli import main

GOOD = (Path(str(files("tautlay.cases"))) / "larch_ridge.toml").read_text(encoding="utf-8")
CLOTHS = (Path(str(files("tautlay.cases"))) / "heron_ford_cloths.toml").read_text(encoding="utf-8")

# (what stands in a good design, what is put there, key, value shown, what is allowed or meant)
TEN = [
    ('head_width = "1.20 m"', "head_width = 1.20", "body.head_width", "1.2", "in quotes"),
    ('foot_width = "1.08 m"', 'foot_width = "1,08 m"', "body.foot_width", "'1,08 m'", "has a comma"),
    (
        "ripstop nylon 37 g/m2",
        "ripstop nylon 73 g/m2",
        "body.fabric",
        "73",
        "Did you mean 'ripstop nylon 64 g/m2' or 'ripstop nylon 37 g/m2'?",
    ),
    ("layers = 1", 'layers = "two"', "body.layers", "'two'", "a whole number"),
    ('depth = "17 cm"', 'depth = "17 m"', "body.arc.depth", "'17 m'", "Did you mean 17 cm?"),
    ('shape = "parabola"', 'shape = "parabolla"', "body.arc.shape", "'parabolla'", "Did you mean parabola?"),
    ("7075-T6 16 x 1 mm", "7075-T6 16 x 1mm", "head_bar.section", "16 x 1mm", "Did you mean '7075-T6 16 x 1 mm'?"),
    ('strap_height = "1.80 m"', 'strap_hight = "1.80 m"', "suspension.strap_hight", "'1.80 m'", "mean strap_height?"),
    ('mass = "64 kg"', 'mass = "64 lbf"', "person.mass", "'64 lbf'", "write lb for a mass"),
    ('sex = "female"', 'sex = "woman"', "person.sex", "'woman'", "Choose female or male"),
]


def write_design(folder, text):
    path = folder / "faulty.toml"
    path.write_text(text, encoding="utf-8")
    return path


def list_faults(folder, text):
    with pytest.raises(DesignError) as caught:
        read_design(write_design(folder, text))
    return caught.value.faults


def change(text, old, new):
    assert old in text
    return text.replace(old, new, 1)


def test_ten_faults_are_told_at_once(tmp_path):
    text = GOOD
    for old, new, *_ in TEN:
        text = change(text, old, new)
    path = write_design(tmp_path, text)
    outcome = CliRunner().invoke(main, ["check", str(path)])
    assert outcome.exit_code == 2
    assert outcome.stdout == ""
    lines = outcome.stderr.splitlines()
    assert "Traceback" not in outcome.stderr
    assert len(lines) == len(TEN) + 1  # the misspelt strap_height is not missing besides
    assert lines[-1] == "10 errors."
    for _, new, key, value, allowed in TEN:
        number = next(place for place, line in enumerate(text.splitlines(), 1) if new in line)
        found = [line for line in lines if line.startswith(f"{path}:{number}: {key}")]
        assert len(found) == 1, key
        assert value in found[0]
        assert allowed in found[0]


@pytest.mark.parametrize(("old", "new", "key", "value", "allowed"), TEN)
def test_each_fault_alone(tmp_path, old, new, key, value, allowed):
    (fault,) = list_faults(tmp_path, change(GOOD, old, new))
    assert fault.key == key
    assert allowed in fault.message


@pytest.mark.parametrize(
    ("old", "new", "key", "words"),
    [
        ('length = "2.02 m"\n', "", "body.length", 'is missing: flat length from bar to bar. Example: length = "2.05 m"'),
        ('hang_angle = "30 deg"', 'hang_angle = "30 deg"\ntree_distance = "5 m"', "suspension.tree_distance", "conflicts"),
        ('hang_angle = "30 deg"', "", "suspension", "hang_angle or tree_distance is missing"),
        ('hang_angle = "30 deg"', 'hang_angle = "89 deg"', "suspension.hang_angle", "between 1.00 deg and 80.0 deg"),
        ('leg_length = "70 cm"', 'head_leg_length = "70 cm"', "suspension.foot_leg_length", "is missing. Give both"),
        ('leg_length = "70 cm"', 'leg_length = "70 cm"\nfoot_leg_length = ""', "suspension.foot_leg_length", "conflicts"),
        ('strap_height = "1.80 m"', "", "suspension", "strap_height or head_strap_height and foot_strap_height"),
        ('attachment = "sewn"', 'attachment = "locked"', "channel.lock_length", "is missing: anchored length at each corner of a locked channel"),
        ('attachment = "sewn"', 'attachment = "sewn"\nlock_length = "4 cm"', "channel.lock_length", "has no effect with attachment"),
        ("[head_bar]", "[head_bars]", "head_bars", "Did you mean head_bar?"),
        ('case = "distributed"', 'case = "standing"', "load.case", "Choose distributed, lying, sitting or sudden"),
        ('size = "40 mm"', 'size = "2 m"', "mesh.size", "Did you mean 2"),
        ('size = "40 mm"', 'size = "45 cm"', "mesh.size", "mesh size must be between"),
        ("layers = 1", "layers = 0", "body.layers", "must be at least 1"),
        ("layers = 1", "layers = 5", "body.layers", "must be at most 4"),
        ("layers = 1", "layers = true", "body.layers", "whole number"),
        ("layers = 1", "layers = 1.0", "body.layers", "whole number"),
        ('name = "Larch Ridge"', 'name = " "', "design.name", "visible character"),
        ('name = "Larch Ridge"', 'name = "Larch\\nRidge"', "design.name", "no line break"),
        ('name = "Larch Ridge"', f'name = "{"x" * 71}"', "design.name", "at most 70 characters"),
        ('name = "Larch Ridge"', "name = 7", "design.name", "text in quotes"),
        ('[mesh]\n', "", "load.size", "unknown setting"),
        ("[report]", "[report.units]", "report.units", "unknown value"),
        ('leg = "12-strand UHMWPE 2 mm"', 'leg = "polyester 1 in, 25 g/m"', "suspension.leg", "not a cord in the library"),
        ("[body]", '[materials]\nfiles = "a.toml"\n[body]', "materials.files", "must be a list"),
        ("[body]", '[materials]\nfiles = ["none.toml"]\n[body]', "materials.files", "none.toml"),
        ("[body]", '[materials]\nfiles = [1]\n[body]', "materials.files.1", "text in quotes"),
    ],
)  # fmt: skip
def test_fault_names_key_and_what_is_allowed(tmp_path, old, new, key, words):
    faults = list_faults(tmp_path, change(GOOD, old, new))
    assert [fault for fault in faults if fault.key == key and words in fault.message], faults
    assert all(fault.line for fault in faults if "is missing: table" not in fault.message)


def test_a_missing_table_is_named_and_a_misspelt_one_is_not_also_missing(tmp_path):
    (fault,) = list_faults(tmp_path, change(GOOD, "[head_bar]", "[head_bars]"))
    assert "Did you mean head_bar?" in fault.message
    without = GOOD[: GOOD.index("[head_bar]")] + GOOD[GOOD.index("[foot_bar]") :]
    (fault,) = list_faults(tmp_path, without)
    assert (fault.key, fault.message) == (
        "head_bar",
        "is missing: table of the head spreader bar. Example: [head_bar]",
    )


def test_a_sweep_given_as_a_design_is_said_to_be_one(tmp_path):
    (fault,) = list_faults(tmp_path, CLOTHS)
    assert "this is a sweep, not a design" in fault.message


def test_table_where_a_word_is_needed_and_the_other_way_round(tmp_path):
    start, end = GOOD.index("[body]"), GOOD.index("[channel]")
    (fault, *_) = list_faults(tmp_path, 'body = "cloth"\n' + GOOD[:start] + GOOD[end:])
    assert fault.message == "must be a table. Begin it with a line [body]."


@pytest.mark.parametrize(
    ("old", "new", "keys", "words"),
    [
        (
            'length = "90 cm"',
            'length = "1.30 m"',
            "head_bar.length and body.head_width",
            "The head bar is 130.0 cm (51.18 in) long but the body is only 120.0 cm (47.24 in) wide there",
        ),
        ('leg_length = "70 cm"', 'leg_length = "40 cm"', "suspension.leg_length and head_bar.length", "cannot meet"),
        (
            'depth = "17 cm"',
            'depth = "59 cm"',
            "body.arc.depth and body.head_width and body.foot_width",
            "side arcs meet",
        ),
        (
            'hang_angle = "30 deg"',
            'tree_distance = "9 m"',
            "suspension.tree_distance and suspension.line_length",
            "trees",
        ),
        (
            'stature = "',
            'stature = "2.2 m" # ',
            "person.stature and person.head_from_bar and body.length",
            "A person of 2",
        ),
    ],
)
def test_geometry_is_judged_when_every_value_is_good(tmp_path, old, new, keys, words):
    text = change(GOOD, old, new)
    fault = list_faults(tmp_path, text)[0]
    number = next(place for place, line in enumerate(text.splitlines(), 1) if new in line)
    assert str(fault).startswith(f"{tmp_path / 'faulty.toml'}:{number}: {keys}: ")
    assert words in fault.message


@pytest.mark.parametrize(
    ("line", "wanted"),
    [
        ("name = Larch Ridge", 'Put text in quotes: key = "text".'),
        ("name = Larch Ridge  # mine", 'Put text in quotes: key = "text".'),
        ("name = 12-strand cord", 'Put text in quotes: key = "text".'),
        ("name = 2 m", 'Put a quantity in quotes: "2 m"'),
    ],
)
def test_unquoted_text_is_named(tmp_path, line, wanted):
    (tmp_path / "a.toml").write_text(f"[design]\n{line}\n", encoding="utf-8")
    with pytest.raises(DesignError, match=re.escape(wanted)):
        read_design(tmp_path / "a.toml")


@pytest.mark.parametrize(
    ("wrong", "meant"),
    [
        ("ripstop nylon 1.6 oz", "ripstop nylon 54 g/m2"),  # 1.6 oz/yd2 is 54.2 g/m2: NIST SP 811 B.8
        ("1.6 oz/yd2 ripstop nylon", "ripstop nylon 54 g/m2"),
        ("nylon 1.1 oz", "ripstop nylon 37 g/m2"),
        ("ripstop nylon 55 g/m2", "ripstop nylon 54 g/m2"),
        ("ripstop nilon 37 g/m2", "ripstop nylon 37 g/m2"),
    ],
)
def test_fabric_is_suggested_by_its_mass(tmp_path, wrong, meant):
    text = GOOD.replace('"ripstop nylon 37 g/m2"', f'"{wrong}"')
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    with pytest.raises(DesignError, match=f"Did you mean {meant!r}\\?"):
        read_design(tmp_path / "a.toml")


@pytest.mark.parametrize(
    ("text", "place", "words"),
    [
        ("[body]\nlength = 2 m\n", ":2: column 12:", 'Put a quantity in quotes: "2 m"'),
        ("[body\n", ":1: column 6:", "this cannot be read"),
        ('[body]\nlength = "2 m', ":2:", "this cannot be read"),
        ("[body]\n[body]\n", ":2:", "this cannot be read"),
        ('a = "1"\na = "2"\n', ":2:", "this cannot be read"),
        ("a = " + "[" * 1900 + "\n" + "[" * 1900, ":", "nested too deeply"),
        ("a = " + "9" * 1999, ":1:", "longer than 2000 characters"),
        ("a = 2024-13-45\n", ":", "this cannot be read"),
        ("a.b = 1\na = 2\n", ":2:", "this cannot be read"),
        ("\x00", ":", "this cannot be read"),
    ],
)
def test_syntax_errors_have_line_and_column(tmp_path, text, place, words):
    (fault,) = list_faults(tmp_path, text)
    assert str(fault).startswith(f"{tmp_path / 'faulty.toml'}{place}")
    assert words in str(fault)


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "the file is empty"),
        (b" \n\t\n", "the file is empty"),
        (b'[body]\nlength = "2 m\xff"', "this is not a text file. If it is one, save it as UTF-8"),
        (bytes(range(256)), "this is not a text file"),
        (b"#" * 1_100_000, "1100000 bytes are too many"),
    ],
)
def test_unreadable_content_is_one_sentence(tmp_path, content, words):
    path = tmp_path / "faulty.toml"
    path.write_bytes(content)
    with pytest.raises(DesignError) as caught:
        read_design(path)
    assert words in str(caught.value)
    assert "\n" not in str(caught.value)


def test_folder_and_missing_file_and_pipe(tmp_path):
    os.mkfifo(tmp_path / "pipe")
    cases = {
        tmp_path: "this is a folder",
        tmp_path / "no.toml": "there is no such file",
        tmp_path / "pipe": "not an ordinary",
    }
    for path, words in cases.items():
        with pytest.raises(DesignError, match=words):
            read_design(path)


def test_name_that_no_file_can_have():
    with pytest.raises(DesignError, match="there is no such file"):
        read_design("nul\0.toml")
