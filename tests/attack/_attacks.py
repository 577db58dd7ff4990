"""What is tried, and what has to hold."""

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

from click.testing import CliRunner

from tautlay.cases.command.cli import main

from .._start import BEGIN
from ..cases.command.test_rank_command import keep_rows, make_grid
from ._mutations import change_bytes, change_json, change_toml
from ._sane_designs import draw_design

DEMOS = ("larch_ridge", "otter_creek", "heron_ford")
OWN = """[cord."own"]
base = "12-strand UHMWPE 2 mm"
source = "own"
status = "seen"
breaking_load = { value = "3.6 kN", range = ["3 kN", "4 kN"] }

[fabric."mine"]
base = "ripstop nylon 37 g/m2"
"""
NAMES = (
    b"with space.toml", "Lärche.toml".encode(), b"bad\xff.toml", b"red\x1b[31m.toml", b"line\nbreak.toml", b"-o.toml",
    b"$(id).toml", b"=1+1.toml", b"'quote\".toml", b"%2e.toml", b"<b>.toml", b"a" * 200 + b".toml",
)  # fmt: skip
LONGEST = 60.0  # s that a command may take
BALANCED = 1e-5  # of the weight


def read_demo(name="larch_ridge"):
    return (files("tautlay.cases") / f"{name}.toml").read_text(encoding="utf-8")


def run(*arguments):
    """Return how a command ended: a word, and what broke a promise."""
    begun = time.monotonic()
    outcome = CliRunner().invoke(main, [str(each) for each in arguments])
    took, output = time.monotonic() - begun, outcome.output
    if outcome.exception is not None and not isinstance(outcome.exception, SystemExit):
        return "broken", f"{type(outcome.exception).__name__}: {outcome.exception}"
    if outcome.exit_code not in (0, 1, 2, 3):
        return "broken", f"exit code {outcome.exit_code}"
    if "\x1b" in output or "Traceback" in output:
        return "broken", f"shown raw: {output[:200]!r}"
    if took > LONGEST:
        return "broken", f"took {took:.0f} s"
    word = {0: "done", 1: "done", 2: "refused", 3: "no shape"}[outcome.exit_code]
    return word, " ".join(output.split())[-300:] if word == "no shape" else ""


def _mutate(seed, count, content, change, name, command):
    """Yield how a command ends on each of many changed files."""
    with tempfile.TemporaryDirectory() as place:
        file = Path(place) / name
        for number in range(count):
            changed = change(content, random.Random(f"{seed} {number}"))
            file.write_bytes(changed)
            word, why = run(*command(file))
            if word != "broken" and file.read_bytes() != changed:
                word, why = "broken", "the file was written over"
            yield number, word, why


def attack_designs(seed, count):
    """Mutated designs, checked."""
    yield from _mutate(seed, count, read_demo().encode(), change_toml, "a.toml", lambda file: ("check", file))


def attack_weighing(seed, count):
    """Mutated designs, weighed."""
    yield from _mutate(seed, count, read_demo("otter_creek").encode(), change_toml, "a.toml", lambda f: ("weigh", f))


def attack_materials(seed, count):
    """Mutated files of materials, listed."""
    yield from _mutate(seed, count, OWN.encode(), change_toml, "a.toml", lambda file: ("materials", "--file", file))


def attack_sweeps(seed, count):
    """Mutated sweep files, planned."""
    design = str(files("tautlay.cases") / "heron_ford.toml")
    text = read_demo("heron_ford_cloths").replace('"heron_ford.toml"', json.dumps(design))
    text = text.replace("count = 3", "count = 2").replace(
        'maximum = { areal_mass = "60 g/m2" }', 'maximum = { areal_mass = "40 g/m2" }'
    )
    with tempfile.TemporaryDirectory() as place:
        target = Path(place) / "none.sqlite"
        yield from _mutate(
            seed, count, text.encode(), change_toml, "a.toml", lambda f: ("sweep", f, "--dry-run", "-o", target)
        )


def solve_once(place):
    """Return the folder of a result."""
    folder = Path(place) / "result"
    design = str(files("tautlay.cases") / "larch_ridge.toml")
    assert run("solve", design, "--mesh-size", "20 cm", "--no-picture", "-q", "-o", folder) == ("done", "")
    return folder


def attack_results(seed, count):
    """Mutated result.json, reported."""
    yield from _attack_result(seed, count, "result.json", change_json)


def attack_shapes(seed, count):
    """Mutated shape.vtu, reported."""
    yield from _attack_result(seed, count, "shape.vtu", change_bytes)


def _attack_result(seed, count, name, change):
    with tempfile.TemporaryDirectory() as place:
        folder = solve_once(place)
        intact = (folder / name).read_bytes()
        for number in range(count):
            (folder / name).write_bytes(change(intact, random.Random(f"{seed} {number}")))
            page = Path(place) / "a.html"
            word, why = run("report", folder, "-o", page)
            if word == "done" and "\x1b" in page.read_text(encoding="utf-8"):
                word, why = "broken", "a control character on the page"
            yield number, word, why


def attack_stores(seed, count):
    """Mutated files of results of a sweep, ranked and written as tables."""
    with tempfile.TemporaryDirectory() as place:
        intact, table = Path(place) / "a.sqlite", Path(place) / "a.csv"
        keep_rows(intact, make_grid())
        content, file = intact.read_bytes(), Path(place) / "b.sqlite"
        for number in range(count):
            draw = random.Random(f"{seed} {number}")
            for beside in Path(place).glob("b.sqlite*"):
                beside.unlink()
            file.write_bytes(change_bytes(content, draw) if number % 2 else content)
            if not number % 2:
                _change_store(file, draw)
            word, why = run("rank", file, "--csv", table)
            if word == "done" and any(f",{sign}" in table.read_text(encoding="utf-8") for sign in "=@\x1b"):
                word, why = "broken", "a formula in the table"
            yield number, word, why


def _change_store(file, draw):
    """Put another value, or something that runs, into a file of results."""
    tables = {"result": ("status", "reason", "measurement"), "variant": ("labels", "number", "key"), "sweep": ("name", "text", "design", "choices", "units", "load", "file")}  # fmt: skip
    table = draw.choice(list(tables))
    column = draw.choice(tables[table])
    value = draw.choice(
        ("", "=1+1", "\x1b[31m", "[NaN]", '[{"packed_kg": 1e999}, "", [], []]', "[" * 5000, '{"a": "=1"}', "9" * 400)
    )
    more = "CREATE VIEW more AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT i FROM n"
    connection = sqlite3.connect(file)
    try:
        with connection:
            if draw.random() < 0.1:
                connection.execute(more)
            connection.execute(f"UPDATE {table} SET {column} = ? WHERE rowid % ? = 0", (value, draw.choice((1, 2, 5))))
    except sqlite3.Error:
        pass  # the tables themselves refuse some
    finally:
        connection.close()


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


def start(*arguments, prefix=()):
    line = [*prefix, sys.executable, "-c", BEGIN, *map(str, arguments)]
    return subprocess.Popen(line, stdout=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True)


def attack_by_signals(seed, count):
    """Solves and sweeps stopped or killed at random moments: whole or not there, and the next run works."""
    with tempfile.TemporaryDirectory() as place:
        home = Path(place)
        (home / "a.toml").write_text(read_demo("heron_ford"), encoding="utf-8")
        (home / "s.toml").write_text(
            '[sweep]\nname = "S"\ndesign = "a.toml"\nmesh_size = "20 cm"\nhot_spots = false\n'
            '[[vary]]\nkey = "body.arc.depth"\nfrom = "15 cm"\nto = "19 cm"\ncount = 100\n', encoding="utf-8",
        )  # fmt: skip
        kept = 0
        for number in range(count):
            draw = random.Random(f"{seed} {number}")
            what = ("solve", "sweep")[number % 2]
            arguments = {
                "solve": ("solve", home / "a.toml", "--mesh-size", "12 cm", "-q", "-o", home / "result"),
                "sweep": ("sweep", home / "s.toml", "-q", "--processes", 2, "-o", home / "s.sqlite"),
            }[what]
            process = start(*arguments)
            time.sleep(draw.uniform(0.1, 15.0))
            sent = draw.choice((signal.SIGKILL, signal.SIGTERM, signal.SIGINT))
            process.send_signal(sent)
            said = process.communicate(timeout=120)[1].decode(errors="replace")
            why, kept = _look_after(home, kept)
            if "Traceback" in said:
                why = why or said[-300:]
            yield number, "broken" if why else f"{what} survived", why
        process = start("solve", home / "a.toml", "--mesh-size", "20 cm", "-q", "--no-picture", "-o", home / "result")
        said = process.communicate()[1].decode(errors="replace")
        yield count, "broken" if process.returncode else "next run works", said[-300:]


def _look_after(home, kept):
    """Return what is not whole after a program was ended, and how many designs are kept now."""
    folder, store = home / "result", home / "s.sqlite"
    if folder.exists():
        names = {path.name for path in folder.iterdir()}
        if not {"result.json", "shape.vtu", "design.toml", "shape.png", "report.html"} <= names:
            return f"half a result: {names}", kept
        json.loads((folder / "result.json").read_text(encoding="utf-8"))
    if not store.exists() or not store.stat().st_size:
        return "", kept
    connection = sqlite3.connect(store)
    try:
        if connection.execute("PRAGMA integrity_check").fetchone() != ("ok",):
            return "the file of results is damaged", kept
        now = connection.execute("SELECT count(*) FROM sqlite_schema WHERE name = 'result'").fetchone()[0]
        now = connection.execute("SELECT count(*) FROM result").fetchone()[0] if now else 0
    finally:
        connection.close()
    return ("designs were lost" if now < kept else ""), now


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
    "design files, checked": attack_designs,
    "design files, weighed": attack_weighing,
    "files of materials": attack_materials,
    "sweep files": attack_sweeps,
    "result.json": attack_results,
    "shape.vtu": attack_shapes,
    "files of results": attack_stores,
    "sane designs": attack_sane_designs,
    "names": attack_names,
    "signals": attack_by_signals,
    "full disks": attack_full_disk,
    "compiled loops": attack_cache,
}


def count_outcomes(outcomes):
    """Return how often each outcome came, and those that say why, with their number: broken ones and no shape."""
    counted, told = Counter(), {"broken": [], "no shape": []}
    for number, word, why in outcomes:
        counted[word] += 1
        if word in told:
            told[word].append((number, why))
    return counted, told
