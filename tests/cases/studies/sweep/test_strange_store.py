"""A file of results from somebody else: nothing in it runs, nothing in it is believed, reading it ends soon."""

import csv
import json
import os
import signal
import sqlite3
import subprocess
import sys
import time

import pytest
from click.testing import CliRunner

from tautlay.cases.command.cli import main
from tautlay.cases.studies.sweep import store_file
from tautlay.cases.studies.sweep.store import StoreError, open_store

from ...._rows import make_grid
from ...._start import BEGIN
from ...command.test_rank_command import keep_rows

ENDLESS = "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT i FROM n"
RED = "\x1b[31m"


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "cloths.sqlite"
    keep_rows(path, make_grid())
    return path


def change(file, *statements):
    connection = sqlite3.connect(file)
    with connection:
        for statement in statements:
            connection.execute(*statement) if isinstance(statement, tuple) else connection.execute(statement)
    connection.close()


def rank(file, *options, code=2):
    outcome = CliRunner().invoke(main, ["rank", str(file), *map(str, options)])
    assert outcome.exit_code == code, outcome.output
    assert outcome.exception is None or isinstance(outcome.exception, SystemExit)
    assert RED not in outcome.output
    return outcome.output


@pytest.mark.parametrize(
    "statement",
    [
        f"CREATE VIEW more AS {ENDLESS}",
        "CREATE TRIGGER spoil AFTER INSERT ON result BEGIN DELETE FROM result; END",
        "CREATE TABLE notes (text)",
        "CREATE INDEX by_status ON result (status)",
        "ALTER TABLE variant ADD COLUMN more TEXT GENERATED ALWAYS AS (hex(labels)) VIRTUAL",
    ],
    ids=lambda statement: " ".join(statement.split()[:3]),
)
def test_file_with_other_tables_is_not_read(file, statement):
    change(file, statement)
    assert "its tables are not those that tautlay makes" in rank(file)
    with pytest.raises(StoreError, match="its tables are not"), open_store(file, make=True):
        pass


def test_view_in_place_of_a_table_is_not_read(file):
    """It wrote 17 GB of temporary files and could not be stopped."""
    change(
        file, "ALTER TABLE variant RENAME TO real",
        f"CREATE VIEW variant AS SELECT 'a' AS sweep, i AS number, '{{}}' AS labels, 'k' AS key FROM ({ENDLESS})",
    )  # fmt: skip
    assert "its tables are not those that tautlay makes" in rank(file)


def test_rank_opens_for_reading_only(file):
    with open_store(file) as store, pytest.raises(sqlite3.OperationalError, match="readonly"):
        store.connection.execute("DELETE FROM result")


def test_question_that_takes_too_long_ends(file, monkeypatch):
    monkeypatch.setattr(store_file, "_MOST_STEPS", 50)
    with pytest.raises(StoreError, match="takes too long"), open_store(file) as store:
        store._ask(f"SELECT count(*) FROM ({ENDLESS})")


@pytest.mark.slow
@pytest.mark.parametrize(("name", "code"), [("SIGINT", 130), ("SIGTERM", 143)])
def test_signal_stops_a_question_that_takes_long(file, name, code):
    script = (
        "from tautlay.cases.studies.sweep import store\nfrom tautlay.cases.command.main import main\n"
        f"def ask(self, *_): return self.connection.execute('SELECT count(*) FROM ({ENDLESS})').fetchall()\n"
        "store.SweepStore.list_sweeps = ask\nprint('asking', flush=True)\nmain()\n"
    )
    process = subprocess.Popen(
        [sys.executable, "-c", BEGIN.rsplit("from", 1)[0] + script, "rank", str(file)],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    process.stdout.readline()
    time.sleep(2.0)
    process.send_signal(getattr(signal, name))
    assert process.communicate(timeout=30)[1] == "Stopped; no file was left half-written.\n"
    assert process.returncode == code


@pytest.mark.parametrize("number", ["NaN", "1e999", "-Infinity"])
def test_number_that_is_not_finite_is_told_with_its_design(file, number):
    measured = f'[{{"packed_kg": {number}}}, "", [], []]'
    change(file, ("UPDATE result SET measurement = ? WHERE key LIKE '% 3'", (measured,)))
    assert "the file is damaged: design 3: packed_kg is not a finite number." in rank(file)


@pytest.mark.parametrize(
    "statement",
    [
        ("UPDATE result SET measurement = '[]'",),
        ("UPDATE result SET measurement = '[[1], 2, 3, 4]'",),
        ("UPDATE result SET measurement = ?", ("[" * 100_000,)),
        ("UPDATE result SET status = 'splendid'",),
        ("UPDATE variant SET labels = '[1, 2]'",),
        ("""UPDATE variant SET labels = '{"other": "1"}' WHERE number = 5""",),
        ("UPDATE variant SET number = -number",),
        ("UPDATE sweep SET units = 'cubits'",),
        ("UPDATE sweep SET load = 'dancing'",),
        ("UPDATE sweep SET choices = '7'",),
        ("UPDATE sweep SET name = ?", (f"{RED}red",)),
        ("UPDATE sweep SET design = ?", ("a = [",)),
        ("UPDATE sweep SET design = ?", ('[mesh]\nsize = "7 kg"',)),
        ("UPDATE sweep SET text = ?", ("[sweep]",)),
    ],
    ids=lambda statement: str(statement)[:60],
)
def test_tampered_value_is_one_sentence(file, statement):
    change(file, statement)
    assert len(rank(file).splitlines()[-1]) < 1000


def test_codes_of_a_terminal_and_formulas_are_shown_and_do_nothing(file, tmp_path):
    labels = {"cloth": f"{RED}=cmd|' /C calc'!A0", "cord": "=1+1", "body.arc.depth": "-5"}
    change(
        file,
        ("UPDATE variant SET labels = ? WHERE number = 2", (json.dumps(labels),)),
        ("UPDATE result SET reason = ? WHERE status = 'refused'", (f"{RED}@SUM(A1)",)),
        ("UPDATE result SET reason = '+1' WHERE key LIKE '% 1'",),
    )
    assert r"\x1b[31m" in rank(file, "--csv", tmp_path / "a.csv", "--page", tmp_path / "a.html", code=0)
    text = (tmp_path / "a.csv").read_text(encoding="utf-8")
    assert RED not in text + (tmp_path / "a.html").read_text(encoding="utf-8")
    rows = list(csv.DictReader(text.splitlines()))
    cells = [cell for row in rows for cell in row.values()]
    assert "'=1+1" in cells
    assert "'+1" not in cells  # a number
    assert "-5" in cells
    assert not [cell for cell in cells if cell.startswith(("=", "@"))]


@pytest.mark.parametrize("share", [0.0, 0.5])
def test_file_cut_off_while_it_is_filled_is_told(file, share):
    with pytest.raises(StoreError, match=r"cut off meanwhile|damaged"), open_store(file, make=True) as store:
        cut(file, share, store)


def cut(file, share, store):
    os.truncate(file, int(share * file.stat().st_size))
    store.verify()


def test_intact_file_is_verified(file):
    with open_store(file, make=True) as store:
        store.verify()


def test_time_that_is_not_finite_is_told(file):
    change(file, "UPDATE result SET seconds_s = 9e999")
    with pytest.raises(StoreError, match="no finite number"), open_store(file, make=True) as store:
        store.find_seconds()
