"""Processes killed at random moments: nothing that was told as done is lost, and the end is as if nothing had been."""

import os
import random
import signal
import sqlite3
import subprocess
import sys
import time
from importlib.resources import files
from pathlib import Path

import psutil
import pytest

from tautlay.cases import read_sweep, run_sweep
from tautlay.cases.studies.sweep.store import open_store

from ...._start import BEGIN
from ._quick import read_results, write_sweep

pytestmark = pytest.mark.slow
LARCH = files("tautlay.cases") / "larch_ridge.toml"  # without cloth beyond its bars, which takes longer
DRIVER = Path(__file__).with_name("_driver.py")
SEED = 20
KILLS = 10
DESIGNS = """
[[vary]]
name = "cloth"
key = "body.fabric"
find = { maximum = { areal_mass = "70 g/m2" } }

[[vary]]
name = "cord"
key = "channel.cord"
values = ["12-strand UHMWPE 2 mm", "12-strand UHMWPE 1.75 mm"]

[[vary]]
name = "legs"
key = "suspension.leg"
find = { text = "UHMWPE", minimum = { diameter = "1.7 mm" } }
"""


@pytest.fixture(scope="module")
def undisturbed(tmp_path_factory):
    folder = tmp_path_factory.mktemp("undisturbed")
    path = write_sweep(folder, DESIGNS, design=LARCH)
    run_sweep(read_sweep(path), folder / "a.sqlite", processes=2)
    return path, read_results(folder / "a.sqlite")


def start(path, store, told):
    return subprocess.Popen([sys.executable, str(DRIVER), str(path), str(store), str(told)])


def list_workers(parent):
    """Return the processes that solve, without the one that watches over shared memory."""
    try:
        children = psutil.Process(parent.pid).children(recursive=True)
        return [child for child in children if "spawn_main" in " ".join(child.cmdline())]
    except psutil.NoSuchProcess:
        return []


def count_told(told):
    return len(told.read_text().splitlines()) if told.exists() else 0


def check_store(store, told, first):
    """Assert that the file is whole, and holds at least what was told; return how many rows there are."""
    if not store.exists():
        return 0
    connection = sqlite3.connect(store)
    assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    connection.close()
    rows = read_results(store)
    assert len(rows) >= count_told(told) - first
    return len(rows)


def test_parent_killed_at_ten_moments(undisturbed, tmp_path):
    path, reference = undisturbed
    store, told, draw = tmp_path / "b.sqlite", tmp_path / "told.txt", random.Random(SEED)
    most = 0
    for _ in range(KILLS):
        told.unlink(missing_ok=True)
        parent = start(path, store, told)
        wanted, until = draw.randrange(len(reference) // KILLS + 2), time.monotonic() + 60
        while parent.poll() is None and count_told(told) < wanted and time.monotonic() < until:
            time.sleep(0.01)
        time.sleep(draw.random() * 0.3)
        workers = list_workers(parent)
        parent.send_signal(signal.SIGKILL)
        parent.wait()
        gone, alive = psutil.wait_procs(workers, timeout=10)
        assert not alive, "workers outlive the sweep they work for"
        kept = check_store(store, told, 0)
        assert kept >= most
        most = kept
        assert len(gone) == len(workers)
    told.unlink(missing_ok=True)
    assert start(path, store, told).wait() == 0
    assert read_results(store) == reference


def test_worker_killed_at_ten_moments(undisturbed, tmp_path):
    path, reference = undisturbed
    store, told, draw = tmp_path / "c.sqlite", tmp_path / "told.txt", random.Random(SEED + 1)
    killed, wanted, known = 0, draw.randrange(4), set()
    parent = start(path, store, told)
    while parent.poll() is None:
        time.sleep(0.02)
        workers = [worker for worker in list_workers(parent) if worker.pid not in known]
        if killed < KILLS and workers and count_told(told) >= wanted:
            time.sleep(draw.random() * 0.5)
            known |= {worker.pid for worker in workers}
            draw.choice(workers).kill()
            killed, wanted = killed + 1, count_told(told) + draw.randrange(8)
    assert killed == KILLS
    if parent.returncode == 0:
        again = start(path, store, told)  # designs given up after three losses are tried anew
        assert again.wait() == 0
    assert read_results(store) == reference
    with open_store(store) as kept:
        assert all(row.status == "solved" for row in kept.list_rows("Quick"))


@pytest.mark.parametrize("number", [signal.SIGHUP, signal.SIGTERM, signal.SIGINT])
def test_a_signal_to_all_processes_at_once_ends_the_command_in_a_sentence(undisturbed, tmp_path, number):
    parent = subprocess.Popen(
        [sys.executable, "-c", BEGIN, "sweep", str(undisturbed[0]), "--quiet", "--processes", "2", "-o", "a.sqlite"],
        cwd=tmp_path, stderr=subprocess.PIPE, text=True, start_new_session=True,
    )  # fmt: skip
    until = time.monotonic() + 60
    while len(list_workers(parent)) < 2 and time.monotonic() < until:
        time.sleep(0.01)
    time.sleep(3.0)
    workers = list_workers(parent)
    assert parent.poll() is None
    os.killpg(parent.pid, number)
    assert parent.communicate(timeout=60)[1].splitlines() == [
        "Finished designs are kept in a.sqlite. Run the same command again to resume.",
        "Stopped; no file was left half-written.",
    ]
    assert parent.returncode == 128 + number
    _, alive = psutil.wait_procs(workers, timeout=10)
    assert not alive
