"""A design that is strong and no place to lie, and one that only a sudden load breaks: the same verdict everywhere.

Both are the demonstration, made worse: smooth clothing in a hammock hung too flat, in which nobody stays in the
middle, light enough that nothing else fails, and a sudden load of 2.7 times the weight.
"""

from importlib.resources import files

import pytest
from click.testing import CliRunner

from tautlay.cases import judge_design, read_design, read_sweep, run_sweep, solve_case
from tautlay.cases.command.cli import main
from tautlay.cases.studies.compare.ranking import rank_rows
from tautlay.cases.studies.compare.row_verdict import format_verdict

LARCH = (files("tautlay.cases") / "larch_ridge.toml").read_text(encoding="utf-8")
MESH = "15 cm"
FLAT = LARCH.replace('hang_angle = "30 deg"', 'hang_angle = "25 deg"').replace('mass = "64 kg"', 'mass = "50 kg"')
ROLLS = FLAT.replace("[person]\n", "[person]\nfriction = 0.0\n")
STRIKES = LARCH.replace("[load]\n", "[load]\nsudden_factor = 2.7\n")
UNDER = {"lying": '[[set]]\nkey = "load.case"\nvalue = "lying"\n', "": ""}


def write(folder, text, load):
    """Write a design and a sweep of two of its depths; return both."""
    coarse = text[: text.index("[mesh]")] + f'[mesh]\nsize = "{MESH}"\n' + text[text.index("\n[report]") :]
    (folder / "own.toml").write_text(coarse, encoding="utf-8")
    sweep = f'[sweep]\nname = "a"\ndesign = "own.toml"\n{UNDER[load]}\n[[vary]]\nkey = "person.head_from_bar"\n'
    (folder / "sweep.toml").write_text(f'{sweep}values = ["15 cm", "14 cm"]\n', encoding="utf-8")
    return folder / "own.toml", folder / "sweep.toml"


def write_open(design):
    """Write a file that leaves the depth of a design open, as in its sweep; return it."""
    path = design.with_name("open.toml")
    vary = '[[vary]]\nkey = "person.head_from_bar"\nvalues = ["15 cm", "14 cm"]\n'
    path.write_text(f'[choose]\nname = "a"\ndesign = "own.toml"\n\n{vary}', encoding="utf-8")
    return path


def run(*words):
    found = CliRunner().invoke(main, [str(word) for word in words], catch_exceptions=False)
    return found.exit_code, " ".join(found.output.split())


@pytest.fixture(scope="module", params=["lying", ""], ids=["one load", "all loads"])
def rolling(request, tmp_path_factory):
    """Return the design nobody can lie in, a sweep of it, and whether that names a load."""
    return *write(tmp_path_factory.mktemp("rolls"), ROLLS, request.param), request.param


@pytest.mark.slow
def test_a_design_nobody_can_lie_in_is_red_in_sweep_rank_and_on_their_page(rolling, tmp_path):
    _, sweep, load = rolling
    store, page = tmp_path / "a.sqlite", tmp_path / "a.html"
    code, words = run("sweep", sweep, "-o", store, "--processes", "1")
    assert code == 0
    assert "2 solved, 0 pass" in words
    assert "Lightest" not in words
    code, words = run("rank", store, "--page", page)
    assert "0 pass" in words
    assert words.count("FAIL: UNSTABLE sideways") == 2
    assert ("NOT JUDGED: sitting, sudden" in words) == (load == "lying")
    html = page.read_text(encoding="utf-8")
    assert 'class="verdict bad"' in html
    assert html.count("UNSTABLE sideways") >= 2


@pytest.mark.slow
def test_a_design_nobody_can_lie_in_is_red_in_solve_and_judge_with_the_same_words(tmp_path):
    design, _ = write(tmp_path, ROLLS, "")
    code, words = run("solve", design, "--load", "lying", "--strict", "-o", tmp_path / "out", "--no-picture")
    assert code == 1
    assert "FAIL: UNSTABLE sideways." in words
    report = (tmp_path / "out" / "report.html").read_text(encoding="utf-8")
    assert 'class="verdict bad"' in report
    assert "UNSTABLE sideways" in report
    code, words = run("judge", design, "--strict", "--page", tmp_path / "judge.html", "--json", tmp_path / "judge.json")
    assert code == 1
    assert "Does not lie well: UNSTABLE sideways (lying)." in words
    assert 'class="verdict bad"' in (tmp_path / "judge.html").read_text(encoding="utf-8")
    code, words = run("lighten", design, "--part", "suspension.leg", "-o", tmp_path / "a.sqlite", "--processes", "1")
    assert "THE CURRENT DESIGN FAILS: UNSTABLE sideways (lying)" in words
    assert "No lighter combination passes." in words
    code, words = run("choose", write_open(design), "-o", tmp_path / "b.sqlite", "--processes", "1")
    assert "Nothing passes." in words
    assert "which fails UNSTABLE sideways (lying)" in words
    assert "Lightest" not in words


@pytest.mark.slow
def test_what_only_the_sudden_load_breaks_is_told_by_lighten_and_choose_as_by_judge(tmp_path):
    path, _ = write(tmp_path, STRIKES, "")
    first = next(f"{each.words} ({each.case})" for each in judge_design(read_design(path)).verdict.failed)
    assert first.endswith("(sudden)")
    command = ("lighten", path, "--part", "suspension.leg", "--processes", "1", "-o")
    _, words = run(*command, tmp_path / "a.sqlite")
    assert f"THE CURRENT DESIGN FAILS: {first}, used" in words
    assert "passes under" not in words
    _, words = run(*command, tmp_path / "b.sqlite", "--load", "lying")
    assert "NOT JUDGED: sitting, sudden. What passes here may fail there." in words
    assert "The current design passes under lying." in words
    assert "design passes." not in words
    assert "that passes:" not in words
    _, words = run("choose", write_open(path), "-o", tmp_path / "c.sqlite", "--processes", "1")
    assert "Nothing passes." in words
    assert "Nearest: " in words
    assert first in words


@pytest.mark.slow
def test_what_only_the_sudden_load_breaks_is_never_green_where_that_was_not_looked_at(tmp_path):
    path, sweep = write(tmp_path, STRIKES, "lying")
    code, words = run("solve", path, "--load", "lying", "--strict", "-o", tmp_path / "out", "--no-picture")
    assert code == 0
    assert "PASS: all 50 checks." in words
    assert "NOT JUDGED: sitting, sudden." in words
    report = (tmp_path / "out" / "report.html").read_text(encoding="utf-8")
    assert 'class="verdict open"' in report
    verdict = judge_design(read_design(path)).verdict
    assert verdict.kind == "bad"
    assert {each.load for each in verdict.failed} == {"sudden"}
    store, page = tmp_path / "a.sqlite", tmp_path / "a.html"
    _, words = run("sweep", sweep, "-o", store, "--processes", "1")
    assert "2 pass under lying. NOT JUDGED: sitting, sudden." in words
    assert "Lightest that passes under lying:" in words
    _, words = run("rank", store, "--page", page)
    assert "2 pass under lying." in words
    html = page.read_text(encoding="utf-8")
    assert 'class="verdict open"' in html
    assert 'class="verdict good"' not in html
    assert html.count('<tr class="partly">') == 2


@pytest.mark.slow
def test_a_sweep_that_names_no_load_judges_all_of_them_as_judge_does(tmp_path):
    path, sweep = write(tmp_path, STRIKES, "")
    first, _ = run_sweep(read_sweep(sweep), tmp_path / "a.sqlite", processes=1)
    judged = judge_design(read_design(path))
    assert first.judged == ("sitting", "sudden", "lying")
    assert first.unjudged == ()
    assert not first.holds
    assert list(first.failed) == [f"{each.words} ({each.case})" for each in judged.verdict.failed]
    assert format_verdict(first).startswith(f"FAIL: {first.failed[0]}")
    assert rank_rows([first]).held == 0
    worst = {}
    for case in judged.cases:
        worst["head_bar_thrust_N"] = max(worst.get("head_bar_thrust_N", 0.0), case.result.forces.head_bar_thrust)
    assert first.figures["head_bar_thrust_N"] == pytest.approx(worst["head_bar_thrust_N"], rel=1e-5)


@pytest.mark.slow
def test_judge_finds_for_each_load_what_solve_finds(tmp_path):
    path, _ = write(tmp_path, LARCH, "")
    design, told = read_design(path), []
    judged = judge_design(design, progress=told.append)
    assert [line.partition(", about")[0] for line in told] == ["sitting", "sudden", "lying"]  # each once
    assert judged.verdict.kind == "good"
    for case in judged.cases:
        alone = solve_case(design, load=case.case.load)
        margins = [each.margin for each in alone.findings.checks]
        assert [each.margin for each in case.result.findings.checks] == pytest.approx(margins, rel=2e-3)
        assert case.result.model.tree_distance == pytest.approx(alone.model.tree_distance, abs=1e-3)
