import json
import os
import re
import shlex
import subprocess
import sys
import tomllib
from importlib.resources import files
from pathlib import Path

import meshio
import pytest
from click.testing import CliRunner

from tautlay.cases import DesignError, DesignIssue, NoEquilibriumError, read_design
from tautlay.cases.command.cli import main
from tautlay.cases.command.exit_codes import explain_error
from tautlay.cases.solving import mesh_sequence
from tautlay.cases.studies import solved_case
from tautlay.materials import QuantityError, parse_quantity

HOME = Path(str(files("tautlay.cases")))
LARCH = str(HOME / "larch_ridge.toml")
COARSE = ["--mesh-size", "15 cm"]


def run(*arguments):
    return CliRunner().invoke(main, list(arguments))


def list_files(folder):
    return sorted(path.name for path in Path(folder).rglob("*") if path.is_file())


def test_solve_writes_everything_and_prints_both_units(tmp_path):
    outcome = run("solve", LARCH, "--output", str(tmp_path / "out"), *COARSE)
    assert outcome.exit_code == 0, outcome.output
    assert list_files(tmp_path) == [
        "channel.png",
        "design.toml",
        "report.html",
        "result.json",
        "shape.png",
        "shape.vtu",
    ]
    lines = [
        line for line in outcome.stdout.splitlines() if not line.startswith(("Written to", "All 11 cautions"))
    ]  # a path is as long as it is
    assert max(map(len, lines)) <= 80
    assert outcome.stderr == ""
    summary = json.loads((tmp_path / "out" / "result.json").read_text(encoding="utf-8"))
    thrust = summary["forces"]["head_bar_thrust_N"]
    (line,) = [line for line in outcome.stdout.splitlines() if line.startswith("bar thrust")]
    assert f"{thrust:.0f} N" in line
    assert f"{thrust / 4.4482216152605:.1f} lbf" in line  # lbf: NIST SP 811 B.8


def test_units_choose_the_columns(tmp_path):
    outcome = run("solve", LARCH, "-o", str(tmp_path), *COARSE, "--units", "imperial", "--no-picture")
    table = outcome.stdout[: outcome.stdout.index("Computed, not proven")]
    assert " lbf " in table
    assert " N " not in table
    assert list_files(tmp_path) == ["design.toml", "report.html", "result.json", "shape.vtu"]


def test_quiet_prints_nothing(tmp_path):
    outcome = run("solve", LARCH, "-o", str(tmp_path), *COARSE, "--quiet", "--no-picture")
    assert (outcome.exit_code, outcome.output) == (0, "")


def test_left_out_folder_is_named_after_the_design(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert run("solve", LARCH, *COARSE, "-q", "--no-picture").exit_code == 0
    assert (tmp_path / "results" / "larch_ridge" / "result.json").is_file()


@pytest.mark.parametrize(("cord", "code"), [("12-strand UHMWPE 2 mm", 0), ("nylon parachute cord type IIA", 1)])
def test_strict_ends_with_1_if_a_cord_is_too_weak(tmp_path, cord, code):
    text = Path(LARCH).read_text(encoding="utf-8").replace('leg = "12-strand UHMWPE 2 mm"', f'leg = "{cord}"')
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    outcome = run("solve", str(tmp_path / "a.toml"), "-o", str(tmp_path / "out"), *COARSE, "--strict", "--no-picture")
    assert outcome.exit_code == code
    assert ("FAIL: " in " ".join(outcome.stdout.split())) == (code == 1)


def test_bad_size_in_the_file_does_not_block_a_good_option(tmp_path):
    for bad in ('size = "2 m"', 'size = "45 cm"', "size = 3"):
        text = Path(LARCH).read_text(encoding="utf-8").replace('size = "40 mm"', bad)
        (tmp_path / "a.toml").write_text(text, encoding="utf-8")
        assert run("check", str(tmp_path / "a.toml")).exit_code == 2
        outcome = run("solve", str(tmp_path / "a.toml"), "-o", str(tmp_path / "out"), *COARSE, "-q", "--no-picture")
        assert outcome.exit_code == 0, outcome.stderr
    summary = json.loads((tmp_path / "out" / "result.json").read_text(encoding="utf-8"))
    assert summary["solution"]["mesh_size_m"] == 0.15


@pytest.mark.parametrize(
    ("size", "words"), [("8 mm", "A mesh of 60,416 triangles takes about 60 seconds"), ("40 mm", "")]
)
def test_long_wait_is_foretold(tmp_path, monkeypatch, size, words):
    def fail(*args, **kwargs):
        raise NoEquilibriumError("Not tried.")

    monkeypatch.setattr(solved_case, "solve_case", fail)
    arguments = ["solve", LARCH, "--mesh-size", size, "-o", str(tmp_path / "out")]
    assert run(*arguments).stderr.startswith(words or LARCH)
    assert run(*arguments, "--quiet").stderr == f"{LARCH}: Not tried.\n"


@pytest.mark.parametrize(
    ("strap", "words"), [("1.60 m", "TOO LOW: the lowest point is"), ("1.20 m", "BELOW GROUND: the lowest")]
)
def test_low_hammock_is_noted_and_strict_ends_with_1(tmp_path, strap, words):
    text = Path(LARCH).read_text(encoding="utf-8").replace('strap_height = "1.80 m"', f'strap_height = "{strap}"')
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    arguments = ["solve", str(tmp_path / "a.toml"), "-o", str(tmp_path / "out"), *COARSE, "--no-picture"]
    outcome = run(*arguments, "--strict")
    assert outcome.exit_code == 1
    assert words in " ".join(outcome.stdout.split())
    summary = json.loads((tmp_path / "out" / "result.json").read_text(encoding="utf-8"))
    assert any(note.startswith(words) for note in summary["notes"])
    assert run(*arguments).exit_code == 0


def test_tree_distance_named_in_the_starter_can_be_used(tmp_path):
    text = (HOME / "starter.toml").read_text(encoding="utf-8")
    (line,) = [line for line in text.splitlines() if line.startswith("hang_angle")]
    (other,) = re.findall(r'tree_distance = "[^"]+"', line)
    (tmp_path / "a.toml").write_text(text.replace(line, other), encoding="utf-8")
    result = solved_case.solve_case(read_design(tmp_path / "a.toml"), mesh_size=0.15)
    assert result.summary["shape"]["hang_angle_rad"] == pytest.approx(0.52, abs=0.05)  # 30 deg, as in the starter


@pytest.mark.parametrize("name", ["larch_ridge", "otter_creek", "heron_ford", "starter"])
def test_designs_that_come_with_the_program_hang_between_40_and_45_cm(name):
    result = solved_case.solve_case(read_design(HOME / f"{name}.toml"), mesh_size=0.08)
    assert 0.40 <= result.summary["shape"]["ground_clearance_m"] <= 0.45
    assert not any("ground" in note for note in result.summary["notes"])
    assert result.findings.checks
    assert result.findings.failed == ()


def test_report_in_imperial_units_has_no_metric_ones(tmp_path):
    text = Path(LARCH).read_text(encoding="utf-8").replace('strap_height = "1.80 m"', 'strap_height = "1.60 m"')
    (tmp_path / "a.toml").write_text(text.replace('units = "both"', 'units = "imperial"'), encoding="utf-8")
    outcome = run("solve", str(tmp_path / "a.toml"), "-o", str(tmp_path / "out"), *COARSE, "--no-picture")
    table = outcome.stdout[: outcome.stdout.index("Computed, not proven")]
    assert re.findall(r"[0-9] (?:m|cm|mm|N|N/m|N/mm|g|kg)\b", table) == []
    assert re.search(r"point\s+is\s+[0-9.]+\s+in", table)


def test_faults_follow_the_units_of_the_report(tmp_path):
    text = Path(LARCH).read_text(encoding="utf-8").replace('length = "90 cm"', 'length = "60 in"')
    (tmp_path / "a.toml").write_text(text.replace('units = "both"', 'units = "imperial"'), encoding="utf-8")
    words = run("check", str(tmp_path / "a.toml")).stderr
    assert "The head bar is 60.00 in long but the body is only 47.24 in wide there" in words


def test_no_equilibrium_ends_with_3_and_writes_nothing(tmp_path, monkeypatch):
    def fail(*args, **kwargs):
        raise NoEquilibriumError("No equilibrium: shorten the lines.")

    monkeypatch.setattr(solved_case, "solve_case", fail)
    outcome = run("solve", LARCH, "-o", str(tmp_path / "out"))
    assert (outcome.exit_code, outcome.stdout) == (3, "")
    assert outcome.stderr == f"{LARCH}: No equilibrium: shorten the lines.\n"
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["solve", "nowhere.toml"], "nowhere.toml: there is no such file"),
        (["check", "."], "this is a folder"),
        (["solve"], "Missing argument 'DESIGN'"),
        (["solve", LARCH, "--mesh-size", "25"], "needs a unit"),
        (["solve", LARCH, "--mesh-size", "25 m"], "Did you mean 25 mm?"),
        (["solve", LARCH, "--mesh-size", "49 cm"], "mesh size must be between"),
        (
            ["solve", LARCH, "--mesh-size", "3 mm"],
            "got 3.00 mm (0.118 in): a finer mesh has more than 100,000 triangles",
        ),
        (["solve", LARCH, "--units", "roman"], "'roman' is not one of"),
        (["materials", "wool"], "'wool' is not one of"),
        (["materials", "--find", "unobtainium"], "nothing in the library matches 'unobtainium'"),
        (["materials", "--file", "nowhere.toml"], "nowhere.toml"),
        (["fly"], "No such command 'fly'"),
    ],
)
def test_bad_input_ends_with_2_and_words_on_stderr(arguments, words):
    outcome = run(*arguments)
    assert outcome.exit_code == 2
    assert outcome.stdout == ""
    assert words in outcome.stderr
    assert "Traceback" not in outcome.stderr


@pytest.mark.parametrize("name", ["taken", "own", "taken/out", ""])
def test_folder_that_must_not_be_written_is_one_sentence_before_solving(tmp_path, monkeypatch, name):
    (tmp_path / "taken").touch()
    (tmp_path / "own").mkdir()
    (tmp_path / "own" / "design.toml").write_text("mine", encoding="utf-8")
    monkeypatch.setattr(solved_case, "solve_case", None)
    monkeypatch.chdir(tmp_path)
    outcome = run("solve", LARCH, *COARSE, "-q", "-o", name)
    assert outcome.exit_code == 2
    assert outcome.stderr.count("\n") == 1
    assert outcome.stderr.startswith(f"{name or '.'}: ")
    assert (tmp_path / "own" / "design.toml").read_text(encoding="utf-8") == "mine"


def test_second_solve_replaces_the_first_and_keeps_none_of_its_files(tmp_path):
    for options, pictures in (([], ["channel.png", "shape.png"]), (["--no-picture", "--no-page"], [])):
        assert run("solve", LARCH, *COARSE, "-q", "-o", str(tmp_path / "out"), *options).exit_code == 0
        pages = [] if "--no-page" in options else ["report.html"]
        assert list_files(tmp_path) == sorted(["design.toml", *pages, "result.json", *pictures, "shape.vtu"])


def test_interrupt_while_solving_ends_with_130_and_one_line(tmp_path, monkeypatch):
    def interrupt(*args, **kwargs):
        raise KeyboardInterrupt

    monkeypatch.setattr(mesh_sequence, "relax", interrupt)
    outcome = run("solve", LARCH, *COARSE, "-o", str(tmp_path / "out"))
    assert (outcome.exit_code, outcome.stdout) == (130, "")
    assert outcome.stderr == "Stopped; no file was left half-written.\n"
    assert not list(tmp_path.iterdir())


def test_interrupt_while_writing_leaves_nothing(tmp_path, monkeypatch):
    def interrupt(path, *args, **kwargs):
        path.write_bytes(b"<?xml half")
        raise KeyboardInterrupt

    monkeypatch.setattr(meshio, "write", interrupt)
    outcome = run("solve", LARCH, *COARSE, "-o", str(tmp_path / "out"))
    assert outcome.exit_code == 130
    assert not list(tmp_path.iterdir())


def test_interrupt_while_drawing_leaves_nothing(tmp_path, monkeypatch):
    from PIL.Image import Image

    keep = Image.save

    def interrupt(self, path, *args, **kwargs):
        if not isinstance(path, Path):
            return keep(self, path, *args, **kwargs)  # matplotlib draws into memory
        path.write_bytes(b"half a picture")
        raise KeyboardInterrupt

    monkeypatch.setattr(Image, "save", interrupt)
    outcome = run("solve", LARCH, *COARSE, "-o", str(tmp_path / "out"))
    assert outcome.exit_code == 130
    assert not list(tmp_path.iterdir())


def test_fault_of_the_program_keeps_its_traceback(monkeypatch):
    def fail(*args, **kwargs):
        raise ZeroDivisionError

    monkeypatch.setattr(solved_case, "solve_case", fail)
    assert isinstance(run("solve", LARCH).exception, ZeroDivisionError)
    assert explain_error(ZeroDivisionError()) is None


def test_check_names_the_design():
    outcome = run("check", LARCH)
    assert outcome.exit_code == 0
    assert f"OK: Larch Ridge ({LARCH}) is complete and can be solved." in outcome.stdout


def test_new_design_can_be_read_and_is_not_overwritten(tmp_path):
    target = tmp_path / "fern_hollow"
    assert run("new", str(target)).exit_code == 0
    path = target.with_suffix(".toml")
    assert read_design(path).name == "Fern hollow"
    path.write_text("mine", encoding="utf-8")
    outcome = run("new", str(path))
    assert outcome.exit_code == 2
    assert "replace it with --force" in outcome.stderr
    assert path.read_text(encoding="utf-8") == "mine"
    assert run("new", str(path), "--force").exit_code == 0
    assert read_design(path).name == "Fern hollow"


@pytest.mark.parametrize("name", ['with "quotes" and \\', "ü½"])
def test_odd_file_names_become_names(tmp_path, name):
    assert run("new", str(tmp_path / f"{name}.toml")).exit_code == 0
    assert read_design(tmp_path / f"{name}.toml").name == name.capitalize()


def test_name_that_cannot_be_printed_is_refused(tmp_path):
    outcome = run("new", str(tmp_path / "a\nb.toml"))
    assert outcome.exit_code == 2
    assert not list(tmp_path.iterdir())


def test_check_tells_a_bury_that_is_too_short_before_anything_is_solved(tmp_path):
    """60 cord diameters: the rule that the check of a solved design quotes with its source."""
    text = (HOME / "starter.toml").read_text(encoding="utf-8")
    short = tmp_path / "a.toml"
    short.write_text(text.replace('bury = "15 cm"', 'bury = "10 cm"', 1), encoding="utf-8")
    told = run("check", str(short)).stdout
    assert "FAIL: Side cord ends: the splices slip. Bury 12.0 cm (4.72 in) or more, not" in told
    assert told.count("splices slip") == 1
    for name in ("starter", "larch_ridge", "otter_creek", "heron_ford"):
        assert "splices slip" not in run("check", str(HOME / f"{name}.toml")).stdout


def test_a_new_design_in_inches_is_the_same_design_in_round_numbers(tmp_path):
    metric, us = tmp_path / "metric.toml", tmp_path / "us.toml"
    for path, units in ((metric, "metric"), (us, "imperial")):
        assert run("new", str(path), "--units", units, "--all").exit_code == 0
    texts = [path.read_text(encoding="utf-8") for path in (metric, us)]
    values = [re.findall(r'"(\d[^"]*)"', text.split("[design]")[1]) for text in texts]
    assert len(values[0]) == len(values[1]) > 80
    sized = 0
    for one, other in zip(*values, strict=True):
        for dimension in ("length", "mass", "force"):
            try:
                expected = parse_quantity(one, dimension)
            except QuantityError:
                continue
            assert re.fullmatch(r"(\d+ ft ?)?([\d./ ]+ in)?|[\d.]+ (lb|oz|lbf)", other), (one, other)
            assert parse_quantity(other, dimension) == pytest.approx(expected, rel=0.06, abs=0), (one, other)
            sized += 1
    assert sized > 60
    told = run("check", str(us))
    assert told.stdout.startswith("OK: "), told.stdout
    assert "Note" not in told.stdout
    assert read_design(us).units == "imperial"


def test_new_design_says_only_what_it_uses_unless_asked_for_all(tmp_path):
    for name, arguments in {"a": (), "b": ("--all",)}.items():
        assert run("new", str(tmp_path / f"{name}.toml"), *arguments).exit_code == 0
    short, whole = (tmp_path.joinpath(f"{name}.toml").read_text(encoding="utf-8") for name in "ab")
    tables = [tomllib.loads(text) for text in (short, whole)]
    for table in tables:
        del table["design"]["name"]
    assert tables[0] == tables[1]
    assert not re.findall(r"^# *(?:\w+ =|\[)", short, re.MULTILINE)
    assert len(short.splitlines()) < 0.65 * len(whole.splitlines())


def test_interrupted_new_leaves_nothing(tmp_path, monkeypatch):
    def interrupt(descriptor):
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", interrupt)
    assert run("new", str(tmp_path / "a.toml")).exit_code == 130
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("category", ["fabric", "cord", "webbing", "tube", "rod", "thread", "plate"])
@pytest.mark.parametrize("units", ["metric", "imperial", "both"])
def test_materials_fit_80_columns_with_status_and_sources(category, units):
    outcome = run("materials", category, "--units", units, "--sources")
    assert outcome.exit_code == 0
    lines = [
        line for line in outcome.stdout.splitlines() if not line.startswith(("Written to", "All 11 cautions"))
    ]  # a path is as long as it is
    assert max(map(len, lines)) <= 80
    head, sources = outcome.stdout.split("Sources\n")
    assert "status of the least certain value" in head
    assert sources.lstrip().startswith("1 ")


def test_a_list_of_materials_names_the_way_to_its_sources():
    listed = run("materials", "cord").stdout
    assert "Sources\n" not in listed
    single, all_of_them = re.findall(r"tautlay materials (cord [^\n]+)", listed)
    assert all_of_them == "cord --sources"
    assert "Sources\n" in run("materials", *shlex.split(single)).stdout


def test_materials_without_category_lists_categories_and_finds_in_all():
    assert "tautlay materials fabric" in run("materials").stdout
    found = run("materials", "--find", "UHMWPE").stdout
    assert found.index("fabric:") < found.index("cord:") < found.index("webbing:")


def test_a_category_goes_by_what_makers_call_it():
    texts = {CliRunner().invoke(main, ["materials", word]).output for word in ("webbing", "straps", "Webbings")}
    assert len(texts) == 1
    assert texts.pop().startswith("webbing: ")


@pytest.mark.parametrize(
    ("category", "wanted"), [("fabric", {"derived", "unverified"}), ("cord", {"derived", "unverified"})]
)
def test_least_sure_tells_materials_apart(category, wanted):
    """Over all numbers every fabric but one was from memory, because its Poisson ratio and shear are."""
    table = run("materials", category, "--units", "metric").stdout.split("Sources\n")[0]
    found = re.findall(r"(?:g/m2?|N/m|N|kN) {2,}(checked|secondary|derived|unverified)", table)
    assert set(found) == wanted


_SILICONE = ("silnylon", "sil", "silicone-coated", "Silicone coated", "PU-coated nylon")


@pytest.mark.parametrize(
    ("arguments", "first", "absent"),
    [
        # 1.1 oz/yd2 is 37.3 g/m2, 5/64 in is 1.98 mm, 1000 lbf is 4.45 kN: NIST SP 811 B.8
        (["fabric", "--find", "1.1 oz"], "ripstop nylon 37", "ripstop nylon 54"),
        (["fabric", "--find", "1.6 oz/yd2 twill"], "twill nylon 54", "ripstop"),
        (["fabric", "--find", "70 den"], "ripstop nylon 64", "ripstop nylon 37"),
        (["cord", "--find", "UHMWPE 5/64 in"], "12-strand UHMWPE 2 mm", "polyester"),
        (["cord", "--find", "2 mm"], "12-strand UHMWPE 2 mm", "UHMWPE 3.2 mm"),
        (["tube", "--find", "12 x 1 mm"], "12 x 1 mm", "16 x 1 mm"),
        (["fabric", "--find", "1.1"], "ripstop nylon 37", "ripstop nylon 54"),
        (["fabric", "--find", "1.0 oz"], "UHMWPE laminate 35", "ripstop nylon 54"),
        *((["fabric", "--find", word], "coated ripstop nylon", "ripstop nylon 37") for word in _SILICONE),
        (["fabric", "--find", "silnylon 1.3"], "coated ripstop nylon 45", "honeycomb"),
    ],
)
def test_find_understands_quantities(arguments, first, absent):
    outcome = run("materials", *arguments)
    assert outcome.exit_code == 0, outcome.output
    names = outcome.stdout.split("Sources\n")[0]
    assert first in names
    assert absent not in names


def test_single_material_shows_every_number_in_both_units():
    found = run("materials", "fabric", "--find", "nylon 37 g/m2").stdout
    # 1.1 oz/yd2 is 37.3 g/m2, and 42 lbf/in is 7355 N/m: NIST SP 811 B.8
    for words in ("37.3 g/m2", "1.10 oz/yd2", "42.0 lbf/in", "7355 N/m", "secondary", "MIL-C-7020H"):
        assert words in found
    metric = run("materials", "fabric", "--find", "nylon 37 g/m2", "--units", "metric").stdout
    assert "1.10 oz/yd2" not in metric


def test_own_materials_are_listed(tmp_path):
    file = tmp_path / "my.toml"
    file.write_text('[cord."my string [x]"]\nbase = "12-strand UHMWPE 2 mm"\n', encoding="utf-8")
    assert "my string [x]" in run("materials", "cord", "--file", str(file), "--find", "my string").stdout
    file.write_text('[cord."my string"]\nbase = "none"\n', encoding="utf-8")
    outcome = run("materials", "cord", "--file", str(file))
    assert outcome.exit_code == 2
    assert "my.toml, line 2" in outcome.stderr


@pytest.mark.parametrize("command", [(), ("solve",), ("check",), ("new",), ("materials",)])
def test_every_command_has_help(command):
    outcome = run(*command, "--help")
    assert outcome.exit_code == 0
    assert outcome.stdout.startswith("Usage:")


def test_help_tells_every_exit_code():
    text = " ".join(run("--help").stdout.split())
    assert all(f" {code} " in text for code in (0, 1, 2, 3, 130))


def test_help_loads_nothing_heavy():
    heavy = ["numpy", "scipy", "numba", "pint", "pydantic", "meshio", "matplotlib", "pyvista", "rich", "tomllib"]
    script = (
        "import sys\nfrom tautlay.cases.command.cli import main\n"
        "try:\n    main(['--help'])\nexcept SystemExit:\n    pass\n"
        f"print('loaded:', [name for name in {heavy!r} if name in sys.modules])"
    )
    outcome = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False)
    assert outcome.stdout.splitlines()[-1] == "loaded: []", outcome.stderr


def test_one_fault_is_counted_as_one():
    assert explain_error(DesignError([DesignIssue("a.toml", "it is empty.")])) == (
        2,
        "a.toml: it is empty.\n1 error.",
    )


def test_every_one_line_help_fits():
    """At most 65 characters, so that no command is cut off in the list of commands."""
    lines = run("--help").stdout.split("Commands:\n")[1].splitlines()
    assert [line.split()[0] for line in lines] == sorted(main.commands)
    assert not any("..." in line for line in lines)
    assert all(len(line.split(maxsplit=1)[1]) <= 65 for line in lines)


@pytest.mark.parametrize("name", sorted(main.commands))
def test_help_says_what_the_default_is(name):
    words = run(name, "--help").stdout
    assert "left out" not in words
    assert max(map(len, words.splitlines())) <= 80


def test_check_notes_what_can_be_solved_and_is_hardly_meant(tmp_path):
    text = (HOME / "starter.toml").read_text(encoding="utf-8")
    file = tmp_path / "low.toml"
    # 3.8 m of line and 0.7 m of leg at 30 degrees go down by 2.25 m from straps 1.8 m high
    file.write_text(text.replace('line_length = "0.80 m" ', 'line_length = "3.80 m" '), encoding="utf-8")
    assert "below the ground, as estimated" in run("check", str(file)).stdout
    assert "below the ground" not in run("check", str(HOME / "starter.toml")).stdout
