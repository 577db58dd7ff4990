"""Solves and searches ended by a signal once something is kept: nothing kept is lost, and the same end is reached."""

import json
import random
import signal
import sqlite3
import tempfile
import time
from pathlib import Path

from ._running import start
from ._samples import SWEPT, VARIED, read_demo

SIGNALS = (signal.SIGKILL, signal.SIGKILL, signal.SIGTERM, signal.SIGINT)
WHOLE = {"result.json", "shape.vtu", "design.toml", "shape.png", "report.html"}
MOST_NEW = 4  # designs that are kept before the signal comes
LONGEST_WAIT = 300.0  # s, for them
KEPT = "key, status, reason, measurement, started, tree_distance_m, positions"


def attack_by_signals(seed, numbers):
    """Every fourth number a solve, a sweep, lighten or choose: killed, and at last run to the end of an undisturbed one."""
    with tempfile.TemporaryDirectory() as place:
        home = Path(place)
        _write_designs(home)
        many = ("-q", "--processes", 2)
        searches = {
            "sweep": ("sweep", home / "sweep.toml", *many),
            "lighten": ("lighten", home / "a.toml", "--part", "head_bar.section", *many),
            "choose": ("choose", home / "choose.toml", *many),
        }
        yield from _kill_solves(seed, [number for number in numbers if number % 4 == 0], home)
        for turn, (what, command) in enumerate(searches.items(), start=1):
            if mine := [number for number in numbers if number % 4 == turn]:
                yield from _kill_search(seed, mine, home / what, what, command)


def _write_designs(home):
    """Write a design that is solved in a second, alone under the spread weight, and what varies it."""
    plan = read_demo().replace('size = "40 mm"', 'size = "20 cm"')
    (home / "a.toml").write_text(f'{plan}\n[judge]\nloads = ["distributed"]\n', encoding="utf-8")
    (home / "sweep.toml").write_text(SWEPT, encoding="utf-8")
    (home / "choose.toml").write_text(VARIED, encoding="utf-8")


def _kill_solves(seed, numbers, home):
    """End solves at random moments: the folder of results is whole or not there, and the next solve works."""
    folder = home / "result"
    command = ("solve", home / "a.toml", "--mesh-size", "12 cm", "-q", "-o", folder)
    for number in numbers:
        draw = random.Random(f"{seed} {number}")
        process = start(*command)
        time.sleep(draw.uniform(0.1, 15.0))
        said = _end(process, draw)
        yield number, *_tell(_look_at_result(folder) or _find_traceback(said), "solve survived")
    if numbers:
        process = start(*command)
        said = process.communicate()[1].decode(errors="replace")
        yield "next solve", *_tell(said if process.returncode else _look_at_result(folder), "next run works")


def _kill_search(seed, numbers, home, what, command):
    """End a search again and again, each time once it kept some more; begun anew before it would be done."""
    home.mkdir()
    whole, store = home / "whole.sqlite", home / "killed.sqlite"
    end, reference = _run_to_end(command, whole), read_kept(whole)
    yield f"{what} undisturbed", *_tell("" if reference else end, "undisturbed")
    for number in numbers:
        draw = random.Random(f"{seed} {number}")
        before = read_kept(store)
        if len(before) + MOST_NEW >= len(reference):
            yield f"{what} to {number}", *_tell(_compare(command, store, end, reference), "the same end")
            store.unlink()
            before = set()
        process = start(*command, "-o", store)
        _wait_for(process, store, len(before) + draw.randint(1, MOST_NEW))
        time.sleep(draw.uniform(0.0, 0.5))
        kept = read_kept(store)
        alive = process.poll() is None
        said = _end(process, draw)
        why = "" if alive else "ended before the signal"
        why = why or ("" if len(before) < len(kept) else "kept nothing more")
        why = why or ("" if before <= kept <= read_kept(store) <= reference else "designs were lost or changed")
        yield number, *_tell(why or _find_traceback(said), f"{what} survived, kept {len(kept)}")
    yield f"{what} at last", *_tell(_compare(command, store, end, reference), "the same end")


def _wait_for(process, store, wanted):
    until = time.monotonic() + LONGEST_WAIT
    while process.poll() is None and len(read_kept(store)) < wanted and time.monotonic() < until:
        time.sleep(0.1)


def _end(process, draw):
    """Send one signal of several to the command alone; return what it said on standard error."""
    process.send_signal(draw.choice(SIGNALS))
    return process.communicate(timeout=120)[1].decode(errors="replace")


def _run_to_end(command, store):
    """Return what a search says at its end, the name of its file left out."""
    process = start(*command, "-o", store)
    said, told = process.communicate()
    words = said.decode() if process.returncode in (0, 1) else told.decode(errors="replace")
    return " ".join(words.replace(str(store), "").split())


def _compare(command, store, end, reference):
    """Return how a search that was ended before differs at its end from one that was not."""
    found = _run_to_end(command, store)
    if found != end:
        return f"another end: {found[-300:]}"
    return "" if read_kept(store) == reference else "the same words, but other results"


def _tell(why, fine):
    return ("broken", why[-300:]) if why else (fine, "")


def _find_traceback(said):
    return said[-300:] if "Traceback" in said else ""


def _look_at_result(folder):
    """Return what is not whole after a solve was ended."""
    if folder.exists():
        names = {path.name for path in folder.iterdir()}
        if not names >= WHOLE:
            return f"half a result: {names}"
        json.loads((folder / "result.json").read_text(encoding="utf-8"))
    return ""


def read_kept(store):
    """Return all that a file of results keeps, but the time that it took."""
    if not store.exists() or not store.stat().st_size:
        return set()
    connection = sqlite3.connect(store)
    try:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        there = connection.execute("SELECT count(*) FROM sqlite_schema WHERE name = 'result'").fetchone()[0]
        return set(connection.execute(f"SELECT {KEPT} FROM result")) if there else set()
    finally:
        connection.close()
