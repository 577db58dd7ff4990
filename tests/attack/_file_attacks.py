"""Files of every kind changed at random or cut off."""

import json
import random
import sqlite3
import tempfile
from importlib.resources import files
from itertools import product
from pathlib import Path

from ..cases.command.test_rank_command import keep_rows, make_grid
from ._mutations import change_bytes, change_json, change_toml
from ._running import run, solve_once
from ._samples import MEASURED, OPEN, OWN, read_demo


def _mutate(seed, numbers, content, change, name, command):
    """Yield how a command ends on each of many changed files."""
    with tempfile.TemporaryDirectory() as place:
        file = Path(place) / name
        for number in numbers:
            changed = change(content, random.Random(f"{seed} {number}"))
            file.write_bytes(changed)
            word, why = run(*command(file))
            if word != "broken" and file.read_bytes() != changed:
                word, why = "broken", "the file was written over"
            yield number, word, why


def attack_designs(seed, numbers):
    """Mutated designs, checked."""
    yield from _mutate(seed, numbers, read_demo().encode(), change_toml, "a.toml", lambda file: ("check", file))


def attack_weighing(seed, numbers):
    """Mutated designs, weighed."""
    yield from _mutate(seed, numbers, read_demo("otter_creek").encode(), change_toml, "a.toml", lambda f: ("weigh", f))


def attack_materials(seed, numbers):
    """Mutated files of materials, listed."""
    yield from _mutate(seed, numbers, OWN.encode(), change_toml, "a.toml", lambda file: ("materials", "--file", file))


def attack_sweeps(seed, numbers):
    """Mutated sweep files, planned."""
    design = str(files("tautlay.cases") / "heron_ford.toml")
    text = read_demo("heron_ford_cloths").replace('"heron_ford.toml"', json.dumps(design))
    text = text.replace("count = 3", "count = 2").replace(
        'maximum = { areal_mass = "60 g/m2" }', 'maximum = { areal_mass = "40 g/m2" }'
    )
    with tempfile.TemporaryDirectory() as place:
        target = Path(place) / "none.sqlite"
        yield from _mutate(
            seed, numbers, text.encode(), change_toml, "a.toml", lambda f: ("sweep", f, "--dry-run", "-o", target)
        )


def attack_choices(seed, numbers):
    """Mutated files that leave something of a design open, read: where one would be written over nothing is solved."""
    content = OPEN.replace('"a design"', json.dumps(str(files("tautlay.cases") / "heron_ford.toml"))).encode()
    yield from _mutate(seed, numbers, content, change_toml, "a.toml", lambda f: ("choose", f, "--write-design", f))


def attack_measurements(seed, numbers):
    """Mutated files of measurements, fitted: strips and cords are fitted without a solve, a loaded hammock is not asked."""
    design = str(files("tautlay.cases") / "larch_ridge.toml")
    with tempfile.TemporaryDirectory() as place:
        target, told = Path(place) / "fitted.toml", Path(place) / "fitted.json"
        command = ("fit", design, "-o", target, "--json", told, "--force")
        for number, word, why in _mutate(
            seed, numbers, MEASURED.encode(), change_toml, "a.toml", lambda f: (*command, f)
        ):
            if word == "done":
                word, why = _check_fitted(target, told)
            yield number, word, why
            for file in (target, told):
                file.unlink(missing_ok=True)


def _check_fitted(target, told):
    """Return what is wrong with the files of a fit: numbers, and materials that are read again."""
    text = told.read_text(encoding="utf-8")
    if "NaN" in text or "Infinity" in text:
        return "broken", "a number that is none in the file of a fit"
    return run("materials", "--file", target) if target.exists() else ("done", "")


def attack_results(seed, numbers):
    """Mutated result.json, reported."""
    yield from _attack_result(seed, numbers, "result.json", change_json)


def attack_shapes(seed, numbers):
    """Mutated shape.vtu, reported."""
    yield from _attack_result(seed, numbers, "shape.vtu", change_bytes)


def _attack_result(seed, numbers, name, change):
    with tempfile.TemporaryDirectory() as place:
        folder = solve_once(place)
        intact = (folder / name).read_bytes()
        for number in numbers:
            (folder / name).write_bytes(change(intact, random.Random(f"{seed} {number}")))
            page = Path(place) / "a.html"
            word, why = run("report", folder, "-o", page)
            if word == "done" and "\x1b" in page.read_text(encoding="utf-8"):
                word, why = "broken", "a control character on the page"
            yield number, word, why


def attack_stores(seed, numbers):
    """Mutated files of results of a sweep, ranked and written as tables."""
    with tempfile.TemporaryDirectory() as place:
        intact, table = Path(place) / "a.sqlite", Path(place) / "a.csv"
        keep_rows(intact, make_grid())
        content, file = intact.read_bytes(), Path(place) / "b.sqlite"
        for number in numbers:
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


def attack_by_cutting(seed, numbers):
    """Every kind of file cut off at random places."""
    with tempfile.TemporaryDirectory() as place:
        home = Path(place)
        folder, design, out = solve_once(place), str(files("tautlay.cases") / "heron_ford.toml"), home / "out"
        store, table, page = home / "a.sqlite", home / "a.csv", home / "a.html"
        keep_rows(store, make_grid())
        sweep = read_demo("heron_ford_cloths").replace('"heron_ford.toml"', json.dumps(design))
        written = {
            "design.toml": read_demo(), "own.toml": OWN, "sweep.toml": sweep, "measured.toml": MEASURED,
            "open.toml": OPEN.replace('"a design"', json.dumps(design)),
        }  # fmt: skip
        for name, text in written.items():
            (home / name).write_text(text, encoding="utf-8")
        larch = str(files("tautlay.cases") / "larch_ridge.toml")
        kinds = {
            home / "design.toml": ("check", home / "design.toml"),
            home / "own.toml": ("materials", "--file", home / "own.toml"),
            home / "sweep.toml": ("sweep", home / "sweep.toml", "--dry-run", "-o", out),
            home / "open.toml": ("choose", home / "open.toml", "--write-design", home / "open.toml"),
            home / "measured.toml": ("fit", larch, home / "measured.toml", "-o", out, "--force"),
            folder / "result.json": ("report", folder, "-o", page),
            folder / "shape.vtu": ("report", folder, "-o", page),
            folder / "design.toml": ("report", folder, "-o", page),
            store: ("rank", store, "--csv", table),
        }
        for (file, command), number in product(kinds.items(), numbers):
            content = file.read_bytes()
            draw = random.Random(f"{seed} {file.name} {number}")
            file.write_bytes(content[: draw.randrange(len(content))])
            word, why = run(*command)
            yield f"{file.name} {number}", word, why
            file.write_bytes(content)


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
