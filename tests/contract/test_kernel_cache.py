"""Compiled loops on disk: damaged, shared by two programs, in a place that cannot be written, or nowhere at all."""

import json
import os
import random
import subprocess
import sys

import pytest

from tautlay.solver import kernel_cache

USE = """
import json
from tautlay.solver import Cable, Structure, relax
from tautlay.solver.line_kernel import *
from tautlay.solver import line_kernel
from numba.core.dispatcher import Dispatcher

cord = Cable([[0, 1], [1, 2]], ea=100e3, rest_length=1.05)
held = [True, False, True]
places = [[0, 0, 0], [1, 0, -0.3], [2, 0, 0]]
state = relax(Structure(places, [cord], fixed=held, forces=[[0, 0, 0], [0, 0, -800], [0, 0, 0]]))
loops = [loop for loop in vars(line_kernel).values() if isinstance(loop, Dispatcher)]
found = {"tension": state[cord].tension.round(6).tolist()}
found["hits"] = sum(sum(loop.stats.cache_hits.values()) for loop in loops)
found["misses"] = sum(sum(loop.stats.cache_misses.values()) for loop in loops)
print(json.dumps(found))
"""
DAMAGES = {
    "empty": lambda content: b"",
    "cut off": lambda content: content[: len(content) // 2],
    "head only": lambda content: content[:49],
    "random": lambda content: random.Random(1).randbytes(len(content)),
    "one bit": lambda content: content[:-9] + bytes([content[-9] ^ 1]) + content[-8:],
    "other text": lambda content: b"<html>",
}


def begin(**environment):
    """Return a process that solves a cord, with nothing of this one's environment that names a cache."""
    kept = {name: value for name, value in os.environ.items() if name not in ("NUMBA_CACHE_DIR", "XDG_CACHE_HOME")}
    return subprocess.Popen(
        [sys.executable, "-c", USE],
        env=kept | environment,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


def end(process):
    out, said = process.communicate(timeout=300)
    assert process.returncode == 0, said
    return json.loads(out), said


@pytest.fixture(scope="module")
def filled(tmp_path_factory):
    base = tmp_path_factory.mktemp("cache")
    found, said = end(begin(XDG_CACHE_HOME=str(base)))
    assert (found["hits"], said) == (0, "")
    return base, found["tension"]


def list_files(base):
    return sorted(path for path in base.rglob("*-*") if path.is_file())


@pytest.mark.slow
def test_second_start_compiles_nothing(filled):
    base, tension = filled
    assert list_files(base)
    found, said = end(begin(XDG_CACHE_HOME=str(base)))
    assert (found["tension"], found["misses"], said) == (tension, 0, "")


@pytest.mark.slow
@pytest.mark.parametrize(
    "damage", [name if name in ("empty", "random") else pytest.param(name, marks=pytest.mark.slow) for name in DAMAGES]
)
def test_damaged_file_is_thrown_away_and_told_of_in_one_line(filled, damage):
    base, tension = filled
    files = list_files(base)
    for file in files:
        file.write_bytes(DAMAGES[damage](file.read_bytes()))
    found, said = end(begin(XDG_CACHE_HOME=str(base)))
    assert found["tension"] == tension
    assert said.splitlines() == [
        f"A compiled loop in {files[0].parent} is damaged. It is thrown away and compiled anew."
    ]
    again, said = end(begin(XDG_CACHE_HOME=str(base)))
    assert (again["tension"], again["misses"], said) == (tension, 0, "")


@pytest.mark.slow
def test_two_programs_that_start_at_once_do_not_break_each_other(filled, tmp_path):
    both = [begin(XDG_CACHE_HOME=str(tmp_path)) for _ in range(2)]
    assert [end(each)[0]["tension"] for each in both] == [filled[1]] * 2
    assert end(begin(XDG_CACHE_HOME=str(tmp_path)))[0]["misses"] == 0


@pytest.mark.slow
def test_without_a_place_it_works_and_says_so(filled):
    found, said = end(begin(HOME="/proc/nobody", XDG_CACHE_HOME="/proc/nobody"))
    assert found["tension"] == filled[1]
    assert said.splitlines() == [
        "There is no folder in which compiled loops can be kept: every start takes half a minute longer. Set "
        "XDG_CACHE_HOME to a folder of your own."
    ]


@pytest.mark.slow
def test_folder_that_others_can_write_is_not_read(filled, tmp_path):
    """Whoever can put a file there could let this program run it."""
    (tmp_path / "tautlay").mkdir()
    (tmp_path / "tautlay").chmod(0o777)
    end(begin(HOME="/proc/nobody", XDG_CACHE_HOME=str(tmp_path)))
    assert list_files(tmp_path) == []


@pytest.mark.parametrize(("name", "value"), [("NUMBA_NUM_THREADS", "0"), ("NUMBA_OPT", "most")])
def test_setting_of_numba_that_is_wrong_is_named(name, value):
    process = begin(**{name: value})
    said = process.communicate(timeout=60)[1].splitlines()[-1]
    assert process.returncode == 1
    assert said.startswith("OSError")
    assert f"does not start with {name}={value} in the environment" in said


def test_only_the_folders_used_last_stay(tmp_path):
    for number in range(20):
        (tmp_path / f"{number}").mkdir()
        os.utime(tmp_path / f"{number}", (number, number))
    kernel_cache._remove_old(tmp_path)
    assert sorted(int(path.name) for path in tmp_path.iterdir()) == list(range(4, 20))


def test_stamp_follows_sources_and_settings(tmp_path, monkeypatch):
    (tmp_path / "loop.py").write_text("a = 1\n")
    first = kernel_cache._stamp_sources(tmp_path)
    assert kernel_cache._stamp_sources(tmp_path) == first
    monkeypatch.setenv("NUMBA_BOUNDSCHECK", "1")
    assert kernel_cache._stamp_sources(tmp_path) != first
    monkeypatch.delenv("NUMBA_BOUNDSCHECK")
    (tmp_path / "loop.py").write_text("a = 2\n")
    assert kernel_cache._stamp_sources(tmp_path) != first
