"""A sweep that is stopped at the keyboard ends as every command does, and goes on where it was."""

import os
import signal
import subprocess
import sys
import time

import pytest

from tautlay.cases.studies.sweep.store import open_store
from tautlay.cases.studies.sweep.store_file import StoreError

from ...._start import BEGIN
from ._quick import write_sweep

pytestmark = pytest.mark.slow
DESIGNS = """
[[vary]]
key = "body.arc.depth"
from = "15 cm"
to = "19 cm"
count = 200
"""


@pytest.mark.skipif(os.name == "nt", reason="groups of processes")
def test_stopped_at_the_keyboard(tmp_path):
    store = tmp_path / "a.sqlite"
    line = [
        sys.executable,
        "-c",
        BEGIN,
        "sweep",
        str(write_sweep(tmp_path, DESIGNS)),
        "-o",
        str(store),
        "--processes",
        "2",
    ]
    process = subprocess.Popen(line, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, start_new_session=True)
    until = time.monotonic() + 120
    while not count_kept(store) and time.monotonic() < until:
        time.sleep(0.05)
    os.killpg(process.pid, signal.SIGINT)  # as a terminal does: to the workers too
    _, told = process.communicate(timeout=60)
    assert process.returncode == 130
    assert told.splitlines() == [
        f"Finished designs are kept in {store}. Run the same command again to resume.",
        "Stopped; no file was left half-written.",
    ]
    kept = count_kept(store)
    assert 0 < kept < 200
    again = subprocess.run([*line, "--dry-run"], capture_output=True, text=True, check=True)
    assert f"To solve: {200 - kept} of 200" in again.stdout


def count_kept(store):
    if not store.exists():
        return 0
    try:
        with open_store(store) as file:
            return len(file.list_keys())
    except StoreError:  # begun a moment ago: a file without its tables yet
        return 0
