"""The command, what it refuses, and what hostile names and sizes come to."""

import csv
import json
import re
from pathlib import Path

import pypdf
import pytest
from click.testing import CliRunner

from tautlay.cases import draft_pattern, read_design, solve_case
from tautlay.cases.command.cli import main
from tautlay.cases.patterns.cut_list import write_cut_list
from tautlay.cases.patterns.pattern_error import PatternError
from tautlay.cases.patterns.sewing_steps import list_steps
from tautlay.cases.solving import solution
from tautlay.cases.solving.no_equilibrium import NoEquilibriumError
from tautlay.cutting import BODY, Treatment

from ..._patterns import HOME, NAMES, TEXTS, change, write_design

LARCH, HERON = HOME / "larch_ridge.toml", HOME / "heron_ford.toml"
FILES = {
    "pieces.dxf",
    "pieces.svg",
    "whole.pdf",
    "sheets.pdf",
    "lay.svg",
    "cut_list.csv",
    "pattern.json",
    "pattern.html",
}
NASTY = 'Zürich \\"x\\" <script>alert(1)</script> %d %%c (((\\\\'


def run(*words):
    return CliRunner().invoke(main, ["pattern", *map(str, words)])


def test_command_writes_everything_and_tells_where(tmp_path):
    outcome = run(LARCH, "--output", tmp_path / "p")
    assert outcome.exit_code == 0, outcome.output
    assert {path.name for path in (tmp_path / "p").iterdir()} == FILES
    assert "Larch Ridge: 1 piece of cloth to cut" in outcome.output
    assert "2.2 m or 2.50 yd" in outcome.output
    assert outcome.output.splitlines()[-1].endswith("pattern.html")
    assert all(len(line) <= 80 for line in outcome.output.splitlines()[:-1])
    again = run(LARCH, "--output", tmp_path / "p", "--no-page", "--quiet")
    assert (again.exit_code, again.output) == (0, "")
    assert {path.name for path in (tmp_path / "p").iterdir()} == FILES - {"pattern.html"}


def test_units_of_words(tmp_path):
    assert "cm" not in run(HERON, "-o", tmp_path / "p", "--estimate", "--units", "imperial", "--no-page").output
    assert " in" not in run(HERON, "-o", tmp_path / "p", "--estimate", "--units", "metric", "--no-page").output.replace(
        " in ", " "
    )


def test_an_extension_without_room_for_the_tips_of_its_bar_is_said(tmp_path):
    text = HERON.read_text(encoding="utf-8")
    start, end = text.index("[head_extension]"), text.index("[foot_bar]")
    (tmp_path / "a.toml").write_text(text[:start] + text[end:], encoding="utf-8")
    output = " ".join(run(tmp_path / "a.toml", "-o", tmp_path / "p", "--no-page", "--estimate").output.split())
    assert "The head extension has no opening at its corners for the tips of the bar. Add opening" in output
    assert "foot extension has" not in output


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--paper", "b7"], "unknown paper 'b7'"),
        (["--paper", "3 mm roll"], "a roll must be between"),
        (["--paper", "roll"], "Write a length such as"),
        (["--cloth-width", "2 mm"], "cloth must be between 50 cm and 5 m wide"),
        (["--cloth-width", "wide"], "wide"),
        (["--estimate", "--solved", "."], "--estimate and --solved exclude each other"),
        (["--only", "sleeve"], "there is no piece 'sleeve'. Choose body, head extension,"),
    ],
)
def test_what_cannot_be_done_ends_in_a_sentence(tmp_path, words, said):
    outcome = run(HERON, "-o", tmp_path / "p", *words)
    assert outcome.exit_code == 2
    assert said in outcome.output
    assert "Traceback" not in outcome.output
    assert list(tmp_path.iterdir()) == []


def test_a_folder_with_anything_else_is_left_alone(tmp_path):
    (tmp_path / "p").mkdir()
    (tmp_path / "p" / "mine.txt").write_text("mine", encoding="utf-8")
    outcome = run(LARCH, "-o", tmp_path / "p")
    assert outcome.exit_code == 2
    assert "mine.txt, which is not part of a pattern" in outcome.output
    assert [path.name for path in (tmp_path / "p").iterdir()] == ["mine.txt"]


def test_a_page_that_cannot_be_drawn_leaves_nothing(tmp_path):
    def fail(place):
        raise RuntimeError("no page")

    with pytest.raises(RuntimeError, match="no page"):
        draft_pattern(read_design(LARCH)).save(tmp_path / "p", draw=fail)
    assert list(tmp_path.iterdir()) == []


def test_paper_and_pieces_are_chosen(tmp_path):
    for name, *words in (("half",), ("full", "--full"), ("strip", "--only", "channel strip")):
        run(HERON, "-o", tmp_path / name, "--no-page", "--estimate", "--paper", "a0", *words)
    counts = {name: len(pypdf.PdfReader(tmp_path / name / "sheets.pdf").pages) for name in ("half", "full", "strip")}
    assert counts["full"] > counts["half"]
    covers = {name: pypdf.PdfReader(tmp_path / name / "sheets.pdf").pages[0].extract_text() for name in counts}
    assert {name: "turn the paper over" in cover for name, cover in covers.items()} == {
        "half": True,
        "full": False,
        "strip": False,
    }
    assert "channel strip" in pypdf.PdfReader(tmp_path / "strip" / "sheets.pdf").pages[1].extract_text()


def test_hostile_names_come_out_as_text(tmp_path):
    text = change(TEXTS["heron_ford"], ('name = "Heron Ford"', f'name = "{NASTY[:70]}"'))
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    design = read_design(tmp_path / "a.toml")
    outcome = run(tmp_path / "a.toml", "-o", tmp_path / "p", "--estimate")
    assert outcome.exit_code == 0, outcome.output
    assert json.loads((tmp_path / "p" / "pattern.json").read_text(encoding="utf-8"))["design"]["name"] == design.name
    page = (tmp_path / "p" / "pattern.html").read_text(encoding="utf-8")
    assert "<script>alert" not in page
    assert "&lt;script&gt;alert" in page
    assert "<script>" not in (tmp_path / "p" / "pieces.svg").read_text(encoding="utf-8")
    cover = pypdf.PdfReader(tmp_path / "p" / "sheets.pdf").pages[0].extract_text()
    assert "Zürich" in cover
    assert "<script>alert(1)</script>" in cover
    import ezdxf

    document = ezdxf.readfile(tmp_path / "p" / "pieces.dxf")
    assert document.audit().errors == []
    texts = [each.dxf.text for each in document.modelspace().query("TEXT")]
    assert any(text.startswith("STYLE NAME: Zürich") for text in texts)
    assert not any("%%" in text for text in texts)


def test_a_cell_is_never_a_formula(tmp_path):
    own = '[fabric."=1+1"]\nbase = "ripstop nylon 37 g/m2"\nsource = "own"\nstatus = "seen"\n'
    (tmp_path / "own.toml").write_text(own, encoding="utf-8")
    text = change(
        TEXTS["larch_ridge"],
        ('fabric = "ripstop nylon 37 g/m2"', 'fabric = "=1+1"'),
        ("[body]", '[materials]\nfiles = ["own.toml"]\n\n[body]'),
    )
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    draft_pattern(read_design(tmp_path / "a.toml")).save(tmp_path / "p")
    rows = list(csv.reader((tmp_path / "p" / "cut_list.csv").read_text(encoding="utf-8").splitlines()))
    assert not any(cell.startswith(("=", "+", "@")) for row in rows for cell in row)
    assert any("'=1+1" in row for row in rows)


@pytest.mark.parametrize(("units", "added"), [("imperial", ["length_in", "width_in"]), ("metric", []), ("both", [])])
def test_cut_list_of_a_design_in_inches_has_them_too(tmp_path, units, added):
    text = re.sub(r'(?m)^units = "\w+"', f'units = "{units}"', TEXTS["larch_ridge"])
    assert f'units = "{units}"' in text
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    pattern = draft_pattern(read_design(tmp_path / "a.toml"))
    rows = list(csv.DictReader(write_cut_list(pattern.pieces, pattern.shopping, units).splitlines()))
    assert list(rows[0])[9:] == added
    for row in rows if added else ():
        for size in ("length", "width"):
            metres, inches = row[f"{size}_m"], row[f"{size}_in"]
            assert (metres == "") == (inches == "")
            assert not metres or float(inches) == pytest.approx(
                float(metres) / 0.0254, abs=0.006
            )  # in: NIST SP 811 B.8


def test_the_step_that_sews_the_cord_says_how_much_counts_at_a_corner(tmp_path):
    assert 'corner_length = "4 cm"' in TEXTS["larch_ridge"]
    (tmp_path / "a.toml").write_text(TEXTS["larch_ridge"], encoding="utf-8")
    pattern = draft_pattern(read_design(tmp_path / "a.toml"))
    steps = list_steps(pattern.design, pattern.draft)
    told = " ".join(str(sentence) for step in steps for sentence in step.sentences)
    assert "first 4.00 cm from a corner" in told


def test_cloth_too_narrow_for_the_channels_is_an_issue_of_the_design(tmp_path):
    text = change(
        TEXTS["narrow cloth"],
        ('cloth_width = "1.10 m"', 'cloth_width = "50 cm"'),
        ('finished_width = "20 mm"', 'finished_width = "12 cm"'),
    )
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    outcome = run(tmp_path / "a.toml", "-o", tmp_path / "p")
    assert outcome.exit_code == 2
    assert "between the allowances of a panel" in outcome.output
    wide = change(TEXTS["larch_ridge"], ('finished_width = "20 mm"', 'finished_width = "12 cm"'))
    (tmp_path / "b.toml").write_text(wide, encoding="utf-8")
    with pytest.raises(PatternError, match="between the allowances of a panel"):
        draft_pattern(read_design(tmp_path / "b.toml"), cloth_width=0.5)


def test_an_extension_that_is_all_allowance_is_a_sentence(tmp_path):
    """Set in nearly as far as the legs reach, its far edge is shorter than what is turned in there."""
    (tmp_path / "a.toml").write_text(change(TEXTS["heron_ford"], ('"20 cm"', '"53 cm"')), encoding="utf-8")
    with pytest.raises(PatternError, match=r"head extension crosses itself: .* Reduce set_in of the bar"):
        draft_pattern(read_design(tmp_path / "a.toml"))


def test_a_channel_too_wide_for_its_arc_fails_and_counts_for_strict(tmp_path):
    text = change(
        TEXTS["larch_ridge"],
        ('depth = "17 cm"', 'depth = "34 cm"'),
        ('finished_width = "20 mm"', 'finished_width = "5 cm"'),
    )
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    outcome = run(tmp_path / "a.toml", "-o", tmp_path / "p", "--strict", "--no-page")
    assert outcome.exit_code == 1
    assert "FAIL: The left channel" in outcome.output
    mild = change(TEXTS["larch_ridge"], ('finished_width = "20 mm"', 'finished_width = "25 mm"'))
    (tmp_path / "b.toml").write_text(mild, encoding="utf-8")
    notes = draft_pattern(read_design(tmp_path / "b.toml")).check()
    assert [note.fails for note in notes] == [False, False]
    assert "hard to sew" in notes[0].sentence


def test_without_channels_and_hems_the_pattern_says_so(tmp_path):
    text = TEXTS["larch_ridge"]
    for table in ("[body.hem]", "[channel.fold]", "[channel.lock]"):
        start = text.index(table)
        text = text[:start] + text[text.index("\n[", start + 1) + 1 :]
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    pattern = draft_pattern(read_design(tmp_path / "a.toml"))
    assert [note.fails for note in pattern.check()] == [True, False]
    assert "Add [channel.fold]" in pattern.check()[0].sentence
    assert pattern.pieces[0].measure_allowances(Treatment.CHANNEL) == pytest.approx(0.0)
    pattern.save(tmp_path / "p")
    assert [step.title for step in list_steps(pattern.design, pattern.draft)][1] == "Hem the ends"


@pytest.mark.parametrize("name", NAMES)
def test_steps_name_every_join_and_end_with_a_trial(patterns, name):
    pattern = patterns[name]
    steps = list_steps(pattern.design, pattern.draft)
    words = " ".join(sentence for step in steps for sentence in step.sentences)
    assert all(join.name.capitalize() in words for join in pattern.joins)
    assert all(step.trial and step.sentences for step in steps)
    assert "not described" not in words


def test_a_result_says_where_a_wide_body_is_seamed(tmp_path):
    design = read_design(write_design(tmp_path, "narrow cloth"))
    result = solve_case(design, mesh_size=0.15, hot_spots=False)
    pattern = draft_pattern(design, result)
    assert len(pattern.draft.list_panels(BODY)) == len(draft_pattern(design).draft.list_panels(BODY))
    other = read_design(HERON)
    with pytest.raises(PatternError, match="another design"):
        draft_pattern(other, result)
    result.save(tmp_path / "r")
    outcome = run(tmp_path / "narrow_cloth.toml", "-o", tmp_path / "p", "--solved", tmp_path / "r", "--no-page")
    assert outcome.exit_code == 0, outcome.output
    refused = run(HERON, "-o", tmp_path / "q", "--solved", tmp_path / "r")
    assert (refused.exit_code, "another design" in refused.output) == (2, True)
    assert not Path(tmp_path / "q").exists()


def test_extensions_are_cut_to_a_solved_line_and_the_command_says_so(tmp_path):
    """Solved by itself, or from a folder of the same solve: the same bytes. Estimated on request, and never unsaid."""
    (tmp_path / "a.toml").write_text(change(TEXTS["heron_ford"], ('"40 mm"', '"10 cm"')), encoding="utf-8")
    solve_case(read_design(tmp_path / "a.toml"), hot_spots=False).save(tmp_path / "r")
    said = {}
    for name, words in {"itself": (), "folder": ("--solved", tmp_path / "r"), "estimate": ("--estimate",)}.items():
        outcome = run(tmp_path / "a.toml", "-o", tmp_path / name, "--no-page", *words)
        assert outcome.exit_code == 0, outcome.output
        said[name] = " ".join(outcome.output.split())
    pieces = {name: (tmp_path / name / "pieces.dxf").read_bytes() for name in said}
    assert pieces["itself"] == pieces["folder"] != pieces["estimate"]
    assert {name: "Solving Heron Ford" in words for name, words in said.items()} == {
        "itself": True,
        "folder": False,
        "estimate": False,
    }
    for name in ("itself", "folder"):
        assert "Both extensions are cut to the solved line of the loaded cloth under the bar." in said[name]
    assert "Both extensions are cut to an estimate of the line of the cloth under the bar, up to" in said["estimate"]
    notes = json.loads((tmp_path / "itself" / "pattern.json").read_text(encoding="utf-8"))["notes"]
    assert sum("cut to the solved line" in note for note in notes) == 1


def test_a_design_that_finds_no_rest_is_a_sentence_that_names_the_estimate(tmp_path, monkeypatch):
    def fail(*_, **__):
        raise NoEquilibriumError("it does not come to rest.")

    monkeypatch.setattr(solution, "solve_equilibrium", fail)
    outcome = run(HERON, "-o", tmp_path / "p")
    assert outcome.exit_code == 3
    assert "heron_ford.toml: it does not come to rest. With --estimate nothing is solved." in outcome.output
    assert list(tmp_path.iterdir()) == []
