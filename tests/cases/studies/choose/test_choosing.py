"""The lightest of a finite set against a search through all of it; exclusion, two people, a kill, and what is written."""

import os
import signal
import subprocess
import sys
import time
from dataclasses import replace

import pytest
from click.testing import CliRunner

from tautlay.cases import read_design, weigh_design
from tautlay.cases.command.cli import main
from tautlay.cases.studies.choose.candidate import weigh_jobs
from tautlay.cases.studies.choose.choosing import choose_design, find_unchecked
from tautlay.cases.studies.choose.evaluator import DesignEvaluator
from tautlay.cases.studies.choose.open_design import read_open_design
from tautlay.cases.studies.choose.proven_search import SHAPE, WEAK, ProvenSearch
from tautlay.cases.studies.sweep.plan import StartFrom, plan_jobs
from tautlay.cases.studies.sweep.run import open_runner
from tautlay.cases.studies.sweep.store import open_store
from tautlay.cases.studies.sweep.worker_pool import PoolSettings

from ...._start import BEGIN
from ._small import CLOTHS, CORDS, LOADS, vary, write_open

pytestmark = pytest.mark.slow
LARGE = (
    vary("body.fabric", '["cobweb", "ripstop nylon 37 g/m2"]')
    + vary("suspension.leg", CORDS)
    + vary("suspension.strap_height", '["1.40 m", "1.80 m"]')
    + vary("ends.leg_at_corner.bury", '["14 cm", "15 cm"]')
)
SMALL = (
    vary("body.fabric", '["cobweb", "ripstop nylon 37 g/m2"]')
    + vary("suspension.leg", '["hair", "12-strand UHMWPE 2 mm"]')
    + vary("suspension.strap_height", '["1.40 m", "1.80 m"]')
    + vary("ends.leg_at_corner.bury", '["14 cm", "15 cm"]')
)
LEGS = '["12-strand UHMWPE 1.75 mm", "12-strand UHMWPE 2 mm"]'
FEW = vary("suspension.leg", CORDS) + vary("ends.leg_at_apex.bury", '["28 cm", "30 cm"]')
TWO = """
[[person]]
name = "light"
stature = "1.60 m"
mass = "{light}"
sex = "female"
head_from_bar = "14 cm"

[[person]]
name = "heavy"
stature = "1.75 m"
mass = "{heavy}"
sex = "male"
head_from_bar = "14 cm"
"""


def search(asked, runner):
    """Return a finished search, and whether it is a proof."""
    sweep = replace(asked.sweep, thorough=-1)
    jobs = plan_jobs(sweep, start_from=StartFrom.FIRST)
    evaluator = DesignEvaluator(sweep, runner, find_unchecked(sweep.base))
    found = ProvenSearch(weigh_jobs(jobs), evaluator, lambda tried: None, 4000)
    return found, found.run()


@pytest.mark.parametrize(("text", "count"), [(SMALL, 16), (LARGE, 40)], ids=["small", "large"])
def test_the_proven_lightest_is_that_of_all_and_nothing_excluded_passes(tmp_path, text, count):
    asked = read_open_design(write_open(tmp_path, text, size="25 cm"))
    assert len(asked.sweep.variants) == count
    with open_runner(tmp_path / "a.sqlite", PoolSettings(2)) as runner:
        found, proven = search(asked, runner)
        solved = found.evaluator.solved
        starts = {each.job.key: each.job for each in found.candidates}
        every = found.evaluator.solve([each.job for each in found.candidates], list(starts.values()))
    passing = {tried.job.variant.number for tried in every if found.evaluator.passes(tried.row)}
    assert proven
    assert 0 < len(passing) < count
    lightest = min(passing, key=lambda number: found.by_number[number].packed)
    assert found.ceiling == found.by_number[lightest].packed
    assert not passing & set(found.excluded)
    assert found.counts[WEAK] > 0
    assert found.counts[SHAPE] > 0
    assert solved < count


def write_two(folder, people):
    """Write a search for some people, of the two that there are."""
    path = write_open(folder, vary("suspension.leg", LEGS))
    design = folder / "design.toml"
    text = design.read_text(encoding="utf-8")
    head, _, rest = text.partition("[person]")
    design.write_text(head + people + rest[rest.index("[load]") :], encoding="utf-8")
    return path


def test_two_people_need_what_the_one_needs_who_needs_more(tmp_path):
    both = TWO.format(light="45 kg", heavy="70 kg")
    light, heavy = (f"[[person]]{part}" for part in both.split("[[person]]")[1:])
    found = {}
    for name, people in (("light", light), ("heavy", heavy), ("both", both)):
        (tmp_path / name).mkdir()
        found[name] = choose_design(
            write_two(tmp_path / name, people), tmp_path / name / "a.sqlite", settings=PoolSettings(1)
        )
    masses = {name: result.chosen.packed for name, result in found.items()}
    assert masses["light"] < masses["heavy"] == masses["both"]
    assert all(result.proven for result in found.values())


def test_a_killed_search_ends_as_one_that_was_not(tmp_path):
    path = write_open(tmp_path, FEW + vary("body.fabric", CLOTHS))
    command = [sys.executable, "-c", BEGIN, "choose", str(path), "--quiet", "--processes", "2", "-o"]
    whole = subprocess.run([*command, "a.sqlite"], cwd=tmp_path, capture_output=True, text=True, check=True).stdout
    for wait in (4.0, 6.0):
        parent = subprocess.Popen([*command, "b.sqlite"], cwd=tmp_path, stdout=subprocess.PIPE)
        time.sleep(wait)
        os.kill(parent.pid, signal.SIGKILL)
        parent.communicate()
    again = subprocess.run([*command, "b.sqlite"], cwd=tmp_path, capture_output=True, text=True, check=True).stdout
    assert again.replace("b.sqlite", "a.sqlite") == whole
    assert "Proven" in whole


def test_where_everything_is_too_heavy_that_is_what_the_nearest_fails(tmp_path):
    judge = '\n[judge]\nloads = ["distributed"]\n[judge.least]\nground_clearance_m = "60 cm"\n[judge.most]\npacked_kg = "100 g"\n'
    path = write_open(tmp_path, vary("suspension.strap_height", '["1.40 m", "1.80 m", "2.10 m"]'), judge=judge)
    found = choose_design(path, tmp_path / "a.sqlite", settings=PoolSettings(1))
    assert found.chosen is None
    assert found.proven
    assert found.excluded == {"heavier than the limit": 3}
    assert found.exclusion.startswith("Nearest: ")
    assert "added pack weight" in found.exclusion


@pytest.mark.parametrize("thin", ["12-strand UHMWPE 1.75 mm", "hair"], ids=["solved", "excluded by statics"])
def test_two_requirements_that_exclude_each_other_are_named_with_the_nearest(tmp_path, thin):
    judge = f'{LOADS}[judge.most]\npacked_kg = "295 g"\n'
    path = write_open(tmp_path, vary("suspension.leg", f'["{thin}", "12-strand UHMWPE 2.5 mm"]'), judge=judge)
    found = choose_design(path, tmp_path / "a.sqlite", settings=PoolSettings(1))
    assert found.chosen is None
    assert "meets both" in found.exclusion
    assert "added pack weight" in found.exclusion
    assert "leg" in found.exclusion
    assert "Nearest: 12-strand UHMWPE" in found.exclusion


def test_what_nothing_beats_is_told_with_its_values_and_the_first_is_written(tmp_path):
    text = vary("suspension.leg", f'["hair", {LEGS[1:-1]}, "12-strand UHMWPE 2.5 mm"]')
    path = write_open(tmp_path, text, more='goal = ["least_margin", "packed_kg"]\n', size="25 cm")
    store, written = tmp_path / "a.sqlite", tmp_path / "best.toml"
    command = ["choose", str(path), "--processes", "1", "-o", str(store), "--write-design", str(written)]
    run = CliRunner().invoke(main, command)
    assert run.exit_code == 0, run.output
    with open_store(store) as kept:
        rows = kept.list_rows(kept.list_sweeps()[0].name)
    passing = [row for row in rows if row.earned]
    assert 0 < len(passing) < 4
    words = " ".join(run.output.split())
    assert f"Of {len(passing)} that pass nothing beats these" in words
    assert "Proven: every combination was solved" in words
    best = max(passing, key=lambda row: row.figures["least_margin"])
    assert f'leg = "{best.title}"' in written.read_text(encoding="utf-8")
    assert weigh_design(read_design(written)).packed.mass == pytest.approx(best.figures["packed_kg"])


def test_the_command_writes_the_design_and_says_why_not_lighter(tmp_path):
    path, written = write_open(tmp_path, FEW), tmp_path / "chosen.toml"
    run = CliRunner().invoke(
        main,
        ["choose", str(path), "--processes", "1", "-o", str(tmp_path / "a.sqlite"), "--write-design", str(written)],
    )
    assert run.exit_code == 0, run.output
    assert "Proven: everything lighter was solved and fails, or is excluded" in " ".join(run.output.split())
    assert "Why not lighter" in run.output
    lines = written.read_text(encoding="utf-8").splitlines()
    assert "# The cord of the channel once more." in lines
    mass = weigh_design(read_design(written)).add(carried=False).mass
    assert f"{mass * 1000:.0f} g" in run.output
