"""A sweep worked off: what is kept, what is done anew, what stands where it did not go well."""

import sqlite3

import numpy as np
import pytest
from click.testing import CliRunner

from tautlay.cases import read_sweep, run_sweep, solve_case, weigh_design
from tautlay.cases.command.cli import main
from tautlay.cases.studies.sweep import run, task
from tautlay.cases.studies.sweep.plan import plan_jobs
from tautlay.cases.studies.sweep.store import StoreError, open_store
from tautlay.cases.studies.sweep.sweep_row import RowStatus
from tautlay.cases.studies.sweep.worker_pool import ProcessPool

from ._quick import COUNT, DEMO, VARY, read_results, write_sweep

FORCES = ("side_cord_N", "head_bar_thrust_N", "foot_bar_thrust_N", "line_N", "tree_pull_N")
LYING = '\n[[set]]\nkey = "load.case"\nvalue = "lying"\n'


def run_quick(folder, text):
    """Return a quick sweep, its file of results and its rows."""
    sweep = read_sweep(write_sweep(folder, text))
    return sweep, folder / "quick.sqlite", run_sweep(sweep, folder / "quick.sqlite", processes=1)


@pytest.fixture(scope="module")
def lying(tmp_path_factory):
    """Return a sweep with a person lying in every design, its file of results and its rows."""
    return run_quick(tmp_path_factory.mktemp("lying"), LYING + VARY)


@pytest.fixture(scope="module")
def spread(tmp_path_factory):
    """Return one under the spread weight, which is solved sooner."""
    return run_quick(tmp_path_factory.mktemp("spread"), VARY)


def test_every_design_is_a_row_in_the_order_of_the_file(spread):
    sweep, _, rows = spread
    assert [row.number for row in rows] == list(range(1, COUNT + 1))
    assert [row.status for row in rows] == [RowStatus.SOLVED] * COUNT
    assert rows[1].choices == {"cloth": "ripstop nylon 37 g/m2", "legs": "12-strand UHMWPE 2.5 mm"}
    assert len(sweep.variants) == COUNT


@pytest.mark.slow
def test_a_row_says_what_a_single_solve_of_its_design_says(lying):
    sweep, _, rows = lying
    for place in (0, COUNT - 1):
        design = sweep.make_design(sweep.variants[place])
        result = solve_case(design, hot_spots=False)
        assert rows[place].figures["head_bar_thrust_N"] == pytest.approx(result.forces.head_bar_thrust, rel=1e-5)
        assert rows[place].figures["packed_kg"] == weigh_design(design).add(carried=False).mass
        assert rows[place].figures["least_margin"] == pytest.approx(result.findings.checks[0].margin, rel=1e-5)
        assert rows[place].figures["back_sag_m"] == pytest.approx(result.comfort.back_sag, abs=1e-6)


@pytest.mark.slow
def test_starts_from_another_shape_and_from_the_flat_cloth_give_the_same_forces(lying, tmp_path):
    sweep, _, warm = lying
    cold = run_sweep(sweep, tmp_path / "cold.sqlite", processes=1, cold=True)
    started = {row[4] for row in read_results(tmp_path / "cold.sqlite")}
    assert started == {"cold"}
    for one, other in zip(warm, cold, strict=True):
        for key in FORCES:
            assert one.figures[key] == pytest.approx(other.figures[key], rel=2e-5), (one.title, key)


def test_all_but_the_first_of_a_body_start_from_another_shape(spread):
    _, store, _ = spread
    assert sorted(row[4] for row in read_results(store)) == ["cold"] + ["warm"] * (COUNT - 1)


def test_a_sweep_that_is_done_costs_nothing(spread, monkeypatch):
    sweep, store, rows = spread
    before = read_results(store)
    monkeypatch.setattr(ProcessPool, "start", lambda self: pytest.fail("a worker was started"))
    assert run_sweep(sweep, store, processes=2) == rows
    assert read_results(store) == before


@pytest.mark.slow
def test_a_sweep_that_grew_solves_what_is_new_only(lying):
    sweep, store, rows = lying
    grown = VARY.replace('"coated ripstop', '"ripstop nylon 64 g/m2", "coated ripstop')
    told = []
    found = run_sweep(
        read_sweep(write_sweep(sweep.path.parent, LYING + grown)), store, processes=1, progress=told.append
    )
    assert len(told) == 2
    assert {row.title: row.figures for row in rows}.items() <= {row.title: row.figures for row in found}.items()
    assert len(sweep.variants) == COUNT < len(found)


def test_what_a_person_weighs_or_what_cloth_is_made_of_makes_another_key(tmp_path):
    keys = set()
    for text in (
        "",
        '\n[[set]]\nkey = "person.mass"\nvalue = "81 kg"\n',
        '\n[[set]]\nkey = "load.case"\nvalue = "lying"\n',
        '\n[[set]]\nkey = "body.layers"\nvalue = 2\n',
    ):
        keys |= {job.key for job in plan_jobs(read_sweep(write_sweep(tmp_path, text + VARY)))}
    assert len(keys) == 4 * COUNT


def test_the_name_of_a_design_and_the_units_of_reports_do_not(tmp_path):
    text = DEMO.read_text(encoding="utf-8")
    other = tmp_path / "other.toml"
    other.write_text(text.replace('name = "Heron Ford"', 'name = "Another"'), encoding="utf-8")
    assert other.read_text(encoding="utf-8") != text
    first, second = (
        [job.key for job in plan_jobs(read_sweep(write_sweep(tmp_path, design=path)))] for path in (DEMO, other)
    )
    assert first == second


def test_a_file_of_materials_with_another_number_makes_another_key(tmp_path):
    cloth = '[fabric."own cloth"]\nbase = "ripstop nylon 37 g/m2"\nsource = "own scales"\nstatus = "seen"\nareal_mass = "{} g/m2"\n'
    text = DEMO.read_text(encoding="utf-8") + '\n[materials]\nfiles = ["own.toml"]\n'
    design = tmp_path / "own_design.toml"
    design.write_text(text, encoding="utf-8")
    vary = VARY.replace('"ripstop nylon 37 g/m2"', '"own cloth"')
    keys = []
    for mass in (40, 41):
        (tmp_path / "own.toml").write_text(cloth.format(mass), encoding="utf-8")
        keys.append([job.key for job in plan_jobs(read_sweep(write_sweep(tmp_path, vary, design=design)))])
    assert not set(keys[0]) & set(keys[1])


def test_a_design_that_cannot_be_made_or_held_is_a_row_with_its_reason(tmp_path):
    text = """
[[vary]]
name = "sleeper"
key = "person.head_from_bar"
values = ["10 cm", "90 cm"]
"""
    rows = run_sweep(read_sweep(write_sweep(tmp_path, text)), tmp_path / "a.sqlite", processes=1)
    assert [row.status for row in rows] == [RowStatus.SOLVED, RowStatus.REFUSED]
    assert "head_from_bar" in rows[1].reason
    assert not rows[1].figures


@pytest.mark.slow
def test_a_design_without_rest_is_a_row_with_its_reason_and_its_kin_are_solved(tmp_path):
    text = """
[[set]]
key = "load.case"
value = "lying"

[[set]]
key = "body.grain"
value = "45 deg"

[[vary]]
name = "crown"
key = "person.head_from_bar"
values = ["0 cm", "20 cm"]
"""  # cloth cut on the bias draws back from under a head at its end
    design = tmp_path / "narrow.toml"
    source = (DEMO.parent / "starter.toml").read_text(encoding="utf-8")
    design.write_text(source, encoding="utf-8")
    rows = run_sweep(read_sweep(write_sweep(tmp_path, text, design=design)), tmp_path / "a.sqlite", processes=1)
    assert [row.status for row in rows] == [RowStatus.NO_REST, RowStatus.SOLVED]
    assert rows[0].reason.startswith("The person hangs out over the head end")


def test_designs_none_of_which_can_be_made_are_refused_before_any_is_solved(tmp_path):
    text = '\n[[vary]]\nkey = "person.head_from_bar"\nvalues = ["90 cm", "95 cm"]\n'
    sweep = read_sweep(write_sweep(tmp_path, text))
    with pytest.raises(Exception, match="none of the 2 designs can be made"):
        plan_jobs(sweep)


@pytest.mark.slow
def test_a_full_disk_ends_in_a_sentence_and_loses_no_row(tmp_path, monkeypatch):
    sweep = read_sweep(write_sweep(tmp_path))
    store, saved = tmp_path / "full.sqlite", []
    save = run.SweepStore.save_outcome

    def save_until_full(self, outcome):
        if len(saved) == 2:
            (pages,) = self.connection.execute("PRAGMA page_count").fetchone()
            self.connection.execute(f"PRAGMA max_page_count = {pages}")
        save(self, outcome)
        saved.append(outcome.key)

    monkeypatch.setattr(run.SweepStore, "save_outcome", save_until_full)
    with pytest.raises(StoreError, match="full"):
        run_sweep(sweep, store, processes=1)
    monkeypatch.undo()
    assert {row[0] for row in read_results(store)} == set(saved)
    rows = run_sweep(sweep, store, processes=1)
    assert [row.status for row in rows] == [RowStatus.SOLVED] * COUNT


def test_a_disk_without_room_is_told_before_anything_is_solved(tmp_path, monkeypatch):
    from tautlay.cases.studies.sweep import forecast

    monkeypatch.setattr(forecast.shutil, "disk_usage", lambda place: type("Usage", (), {"free": 1_000_000})())
    with pytest.raises(StoreError, match="1 MB are free"):
        forecast.check_room(read_sweep(write_sweep(tmp_path)), COUNT, tmp_path / "a.sqlite")


def test_a_fault_of_the_program_is_told_with_its_traceback_and_tried_anew(tmp_path, monkeypatch):
    sweep = read_sweep(write_sweep(tmp_path))
    job = plan_jobs(sweep)[0]
    monkeypatch.setattr(task, "measure_cases", lambda design, solved: 1 / 0)
    outcome = task.solve_task(task.Task(job.key, run.find_engine(), job.design, False, None, job.cases))
    assert outcome.status is RowStatus.BROKEN
    assert "ZeroDivisionError" in outcome.detail
    with open_store(tmp_path / "a.sqlite", make=True) as store:
        store.save_outcome(outcome)
        assert store.list_keys() == set()


def test_a_worker_with_another_version_refuses(tmp_path):
    job = plan_jobs(read_sweep(write_sweep(tmp_path)))[0]
    with pytest.raises(task.EngineError, match="Install the same"):
        task.solve_task(task.Task(job.key, "another", job.design, False, None, job.cases))


def test_the_hang_angle_is_met_whatever_the_start(spread):
    sweep, _, rows = spread
    asked = sweep.base.hammock.suspension.hang_angle
    assert asked is not None
    spread = [solve_case(sweep.make_design(v), load="distributed", hot_spots=False) for v in sweep.variants[:1]]
    assert rows[0].figures["tree_distance_m"] == pytest.approx(spread[0].model.tree_distance, abs=0.02)
    assert np.ptp([row.figures["tree_distance_m"] for row in rows]) > 1e-4  # softer cloth hangs elsewhere


def test_a_foreign_or_missing_file_is_refused(tmp_path):
    foreign = tmp_path / "notes.sqlite"
    foreign.write_text("not a database " * 100)
    with pytest.raises(StoreError, match=r"notes\.sqlite"), open_store(foreign, make=True):
        pass
    with pytest.raises(StoreError, match="no such file"), open_store(tmp_path / "none.sqlite"):
        pass


def test_a_name_that_another_sweep_has_in_the_file_is_refused(spread, tmp_path):
    sweep, store, rows = spread
    with pytest.raises(StoreError, match=r"already has a sweep Quick, .* Rename the sweep of"):
        run_sweep(read_sweep(write_sweep(tmp_path)), store, processes=1)
    assert run_sweep(sweep, store, processes=1) == rows


def test_a_file_of_results_that_goes_during_a_run_is_told(tmp_path):
    store = tmp_path / "a.sqlite"
    sweep = read_sweep(write_sweep(tmp_path))
    with pytest.raises(StoreError, match="removed or replaced meanwhile"):
        run_sweep(sweep, store, processes=1, progress=lambda news: store.unlink(missing_ok=True))


DAMAGES = (
    "UPDATE result SET measurement = '{'",
    "UPDATE result SET measurement = '[1, 2]'",
    "UPDATE result SET measurement = '[[], 1, 2, 3]'",
    "UPDATE result SET status = 'happy'",
    "UPDATE variant SET labels = '[1, 2]'",
    "UPDATE variant SET labels = '{\"cloth\": 1}'",
    "UPDATE sweep SET choices = '3'",
)


@pytest.mark.parametrize("damage", DAMAGES)
def test_a_damaged_file_of_results_is_told(spread, tmp_path, damage):
    copy = tmp_path / "damaged.sqlite"
    copy.write_bytes(spread[1].read_bytes())
    connection = sqlite3.connect(copy)
    with connection:
        connection.execute(damage)
    connection.close()
    outcome = CliRunner().invoke(main, ["rank", str(copy)])
    assert outcome.exit_code == 2
    assert "damaged.sqlite: the file is damaged" in outcome.stderr
    assert len(outcome.stderr.splitlines()) == 1


def test_a_file_cut_short_is_told(spread, tmp_path):
    short = tmp_path / "short.sqlite"
    short.write_bytes(spread[1].read_bytes()[:5000])
    with pytest.raises(StoreError, match="the file is damaged"), open_store(short) as store:
        store.list_sweeps()


def test_an_empty_file_stays_empty_where_nothing_is_to_be_written(tmp_path):
    empty = tmp_path / "empty.sqlite"
    empty.touch()
    path = write_sweep(tmp_path)
    assert CliRunner().invoke(main, ["rank", str(empty)]).exit_code == 2
    assert CliRunner().invoke(main, ["sweep", str(path), "--dry-run", "--output", str(empty)]).exit_code == 0
    assert empty.stat().st_size == 0


def test_what_cannot_be_a_file_of_results_is_told(tmp_path):
    path, loop = write_sweep(tmp_path), tmp_path / "loop.sqlite"
    loop.symlink_to(loop)
    for place in (tmp_path, loop, path / "a.sqlite"):
        outcome = CliRunner().invoke(main, ["sweep", str(path), "--quiet", "--output", str(place)])
        assert outcome.exit_code == 2
        assert str(place) in outcome.stderr


def test_a_file_whose_tables_found_no_room_is_filled_by_the_next_run(tmp_path):
    file = tmp_path / "a.sqlite"
    connection = sqlite3.connect(file)
    connection.execute("PRAGMA journal_mode = WAL")
    connection.close()
    outcome = CliRunner().invoke(main, ["sweep", str(write_sweep(tmp_path)), "--dry-run", "--output", str(file)])
    assert outcome.exit_code == 0, outcome.stderr


def test_results_are_read_where_nothing_can_be_written(spread, monkeypatch):
    sweep, store, _ = spread
    monkeypatch.setattr("os.access", lambda place, mode: False)
    with open_store(store) as kept:
        assert kept.list_rows(sweep.name)
        with pytest.raises(sqlite3.OperationalError, match="readonly"):
            kept.connection.execute("DELETE FROM result")
