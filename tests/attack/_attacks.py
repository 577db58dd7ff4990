"""What is tried, and what has to hold: solved designs, hostile names, signals, full disks, damaged caches."""

import json
import os
import random
import signal
import sqlite3
import subprocess
import sys
import tempfile
import time
from collections import Counter
from importlib.resources import files
from pathlib import Path

from .._start import BEGIN
from . import _file_attacks as on_files
from ._mutations import change_bytes
from ._running import run, start
from ._samples import OPEN, read_demo
from ._sane_designs import draw_design

NAMES = (
    b"with space.toml", "Lärche.toml".encode(), b"bad\xff.toml", b"red\x1b[31m.toml", b"line\nbreak.toml", b"-o.toml",
    b"$(id).toml", b"=1+1.toml", b"'quote\".toml", b"%2e.toml", b"<b>.toml", b"a" * 200 + b".toml",
)  # fmt: skip
BALANCED = 1e-5  # of the weight


def attack_sane_designs(seed, count):
    """Random sane designs, solved: what is accepted has a shape, and it balances."""
    with tempfile.TemporaryDirectory() as place:
        file, folder = Path(place) / "a.toml", Path(place) / "o"
        for number in range(count):
            file.write_text(draw_design(random.Random(f"{seed} {number}")), encoding="utf-8")
            word, why = run("check", file)
            if word == "done":
                word, why = run("solve", file, "--no-picture", "--no-page", "-q", "-o", folder)
            if word == "done":
                word, why = _weigh_balance(json.loads((folder / "result.json").read_text(encoding="utf-8")))
            yield number, word, why


def _weigh_balance(found):
    """Return whether the trees carry what hangs between them, and nothing pulls aside."""
    mass = found["weights"]["person_kg"] + found["weights"]["hammock_kg"]
    pulls = zip(found["anchors"]["head_tree_N"], found["anchors"]["foot_tree_N"], strict=True)
    left = [sum(pull) + share for pull, share in zip(pulls, (0.0, 0.0, mass * 9.80665), strict=True)]
    worst = max(map(abs, left)) / (mass * 9.80665)
    return ("solved", "") if worst < BALANCED else ("broken", f"out of balance by {worst:.1e} of the weight")


def attack_names(seed, count):
    """Names of any bytes for designs and outputs; no output may replace the design."""
    for number, name in enumerate(NAMES[:count]):
        with tempfile.TemporaryDirectory() as place:
            home = Path(place)
            design = home / os.fsdecode(name)
            design.write_text(read_demo(), encoding="utf-8")
            before, broken = design.read_bytes(), []
            for arguments in (
                ("check", design), ("weigh", design, "--json", home / "w.json"), ("weigh", design, "--json", design),
                ("weigh", design, "--json", design, "--force"), ("pattern", design, "-o", home / "p"), ("new", design),
                ("report", design), ("rank", design), ("sweep", design, "--dry-run"), ("pattern", design, "-o", home),
                ("solve", design, "--mesh-size", "20 cm", "--no-picture", "-o", home / os.fsdecode(b"o" + name)),
            ):  # fmt: skip
                word, why = run(*arguments)
                if word == "broken" or design.read_bytes() != before:
                    broken.append(f"{arguments[0]}: {why or 'the design was written over'}")
            yield number, "broken" if broken else "done", "; ".join(broken)


def attack_by_signals(seed, count):
    """Solves and searches stopped or killed at random moments: whole or not there, and the next run works."""
    with tempfile.TemporaryDirectory() as place:
        home = Path(place)
        (home / "a.toml").write_text(read_demo("heron_ford"), encoding="utf-8")
        (home / "s.toml").write_text(
            '[sweep]\nname = "S"\ndesign = "a.toml"\nmesh_size = "20 cm"\nhot_spots = false\n'
            '[[vary]]\nkey = "body.arc.depth"\nfrom = "15 cm"\nto = "19 cm"\ncount = 100\n', encoding="utf-8",
        )  # fmt: skip
        (home / "c.toml").write_text(OPEN.replace("a design", "a.toml"), encoding="utf-8")
        many = ("-q", "--processes", 2, "-o")
        commands = {
            "solve": ("solve", home / "a.toml", "--mesh-size", "12 cm", "-q", "-o", home / "result"),
            "sweep": ("sweep", home / "s.toml", *many, home / "sweep.sqlite"),
            "lighten": ("lighten", home / "a.toml", *many, home / "lighten.sqlite"),
            "choose": ("choose", home / "c.toml", *many, home / "choose.sqlite"),
        }
        kept = Counter()
        for number in range(count):
            draw = random.Random(f"{seed} {number}")
            what = list(commands)[number % len(commands)]
            process = start(*commands[what])
            time.sleep(draw.uniform(0.1, 15.0))
            process.send_signal(draw.choice((signal.SIGKILL, signal.SIGTERM, signal.SIGINT)))
            said = process.communicate(timeout=120)[1].decode(errors="replace")
            why = _look_at_result(home / "result") if what == "solve" else _look_at_store(home, what, kept)
            if "Traceback" in said:
                why = why or said[-300:]
            yield number, "broken" if why else f"{what} survived", why
        process = start("solve", home / "a.toml", "--mesh-size", "20 cm", "-q", "--no-picture", "-o", home / "result")
        said = process.communicate()[1].decode(errors="replace")
        yield count, "broken" if process.returncode else "next run works", said[-300:]
        for number, what in enumerate(name for name, rows in kept.items() if rows):
            word, why = run("rank", home / f"{what}.sqlite")
            yield count + 1 + number, "next run works" if word == "done" else "broken", why


def _look_at_result(folder):
    """Return what is not whole after a solve was ended."""
    if folder.exists():
        names = {path.name for path in folder.iterdir()}
        if not {"result.json", "shape.vtu", "design.toml", "shape.png", "report.html"} <= names:
            return f"half a result: {names}"
        json.loads((folder / "result.json").read_text(encoding="utf-8"))
    return ""


def _look_at_store(home, what, kept):
    """Return what is not whole in a file of results after a program was ended; count the designs kept there."""
    store = home / f"{what}.sqlite"
    if not store.exists() or not store.stat().st_size:
        return ""
    connection = sqlite3.connect(store)
    try:
        if connection.execute("PRAGMA integrity_check").fetchone() != ("ok",):
            return "the file of results is damaged"
        now = connection.execute("SELECT count(*) FROM sqlite_schema WHERE name = 'result'").fetchone()[0]
        now = connection.execute("SELECT count(*) FROM result").fetchone()[0] if now else 0
    finally:
        connection.close()
    before, kept[what] = kept[what], now
    return "designs were lost" if now < before else ""


def attack_full_disk(seed, count):
    """A file system with little room, in a mount of its own: nothing half-written, and one sentence."""
    if subprocess.run(["unshare", "-rm", "true"], capture_output=True, check=False).returncode:
        yield 0, "skipped: no mounts here", ""
        return
    design = str(files("tautlay.cases") / "larch_ridge.toml")
    for number in range(count):
        size = random.Random(f"{seed} {number}").randrange(4, 400)
        script = f'mount -t tmpfs -o size={size}k tmpfs "$0" && shift 0 && "$@"; echo "code $?"; ls -A "$0"'
        for arguments in (
            ("weigh", design, "--json", "{}/w.json"), ("pattern", design, "-q", "-o", "{}/p"), ("new", "{}/n.toml"),
        ):  # fmt: skip
            with tempfile.TemporaryDirectory() as place:
                filled = [each.format(place) for each in arguments]
                done = subprocess.run(
                    ["unshare", "-rm", "sh", "-c", script, place, sys.executable, "-c", BEGIN, *filled],
                    capture_output=True, text=True, errors="replace", check=False,
                )  # fmt: skip
                code, _, left = done.stdout.rpartition("code ")[2].partition("\n")
                hidden = [name for name in left.split() if name.startswith(".")]
                fine = code in ("0", "2") and "Traceback" not in done.stderr and not hidden
                yield (
                    number,
                    ("done" if code == "0" else "refused") if fine else "broken",
                    "" if fine else f"{done.stderr[-200:]} {left}",
                )


CORD = """
from tautlay.solver import Cable, Structure, relax
cord = Cable([[0, 1], [1, 2]], ea=100e3, rest_length=1.05)
places, pulls = [[0, 0, 0], [1, 0, -0.3], [2, 0, 0]], [[0, 0, 0], [0, 0, -800], [0, 0, 0]]
print(relax(Structure(places, [cord], fixed=[True, False, True], forces=pulls))[cord].tension.round(3).tolist())
"""


def attack_cache(seed, count):
    """Compiled loops on disk, one of them cut off or changed: the answer is the same."""
    with tempfile.TemporaryDirectory() as place:
        environment = os.environ | {"XDG_CACHE_HOME": place, "NUMBA_CACHE_DIR": ""}
        first = ""
        for number in range(count + 1):
            draw = random.Random(f"{seed} {number}")
            if found := sorted(path for path in Path(place).rglob("*-*") if path.is_file()):
                file = draw.choice(found)
                content = file.read_bytes()
                file.write_bytes(draw.choice((content[: draw.randrange(len(content))], change_bytes(content, draw))))
            done = subprocess.run(
                [sys.executable, "-c", CORD], env=environment, capture_output=True, text=True, check=False
            )
            first = first or done.stdout
            fine = done.returncode == 0 and done.stdout == first and "Traceback" not in done.stderr
            yield number, "same answer" if fine else "broken", "" if fine else done.stderr[-300:]


ATTACKS = {
    "design files, checked": on_files.attack_designs,
    "design files, weighed": on_files.attack_weighing,
    "files of materials": on_files.attack_materials,
    "sweep files": on_files.attack_sweeps,
    "files of choose": on_files.attack_choices,
    "files of measurements": on_files.attack_measurements,
    "result.json": on_files.attack_results,
    "shape.vtu": on_files.attack_shapes,
    "files of results": on_files.attack_stores,
    "files cut off": on_files.attack_by_cutting,
    "sane designs": attack_sane_designs,
    "names": attack_names,
    "signals": attack_by_signals,
    "full disks": attack_full_disk,
    "compiled loops": attack_cache,
}
