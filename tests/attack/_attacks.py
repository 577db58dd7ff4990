"""What is tried, and what has to hold: solved designs, hostile names, signals, full disks, damaged caches."""

import json
import os
import random
import subprocess
import sys
import tempfile
from importlib.resources import files
from pathlib import Path

from .._start import BEGIN
from . import _file_attacks as on_files
from ._kill_attacks import attack_by_signals
from ._mutations import change_bytes
from ._running import run
from ._samples import read_demo
from ._sane_designs import draw_design
from ._surroundings import attack_surroundings

NAMES = (
    b"with space.toml", "Lärche.toml".encode(), b"bad\xff.toml", b"red\x1b[31m.toml", b"line\nbreak.toml", b"-o.toml",
    b"$(id).toml", b"=1+1.toml", b"'quote\".toml", b"%2e.toml", b"<b>.toml", b"a" * 200 + b".toml",
)  # fmt: skip
DAMAGED = "is damaged. It is thrown away and compiled anew."
BALANCED = 1e-5  # of the weight


def attack_sane_designs(seed, numbers):
    """Random sane designs, solved: what is accepted has a shape, and it balances."""
    with tempfile.TemporaryDirectory() as place:
        file, folder = Path(place) / "a.toml", Path(place) / "o"
        for number in numbers:
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


def attack_names(seed, numbers):
    """Names of any bytes for designs and outputs; no output may replace the design."""
    for number, name in [(number, NAMES[number]) for number in numbers if number < len(NAMES)]:
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


def attack_full_disk(seed, numbers):
    """A file system with little room, in a mount of its own: nothing half-written, and one sentence."""
    if subprocess.run(["unshare", "-rm", "true"], capture_output=True, check=False).returncode:
        yield 0, "skipped: no mounts here", ""
        return
    design = str(files("tautlay.cases") / "larch_ridge.toml")
    for number in numbers:
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


def attack_cache(seed, numbers):
    """Compiled loops on disk, all of them cut off or one of them changed: the same answer, and one line that says so."""
    with tempfile.TemporaryDirectory() as place:
        first, _ = begun = _solve_cord(place)
        yield "first", *_compare_cords(begun, first, (0,))
        for number in numbers:
            draw = random.Random(f"{seed} {number}")
            found = sorted(path for path in Path(place).rglob("*-*") if path.is_file())
            if number % 2:
                file = draw.choice(found)
                file.write_bytes(change_bytes(file.read_bytes(), draw))
            else:
                for file in found:
                    os.truncate(file, draw.randrange(file.stat().st_size))
            # A loop that only others call is read where those are compiled anew, and some changes change nothing.
            yield number, *_compare_cords(_solve_cord(place), first, (0, 1) if number % 2 else (1,))


def _solve_cord(place):
    """Return what a cord under load answers in a process of its own, and the lines that it says."""
    done = subprocess.run(
        [sys.executable, "-c", CORD], env=os.environ | {"XDG_CACHE_HOME": place, "NUMBA_CACHE_DIR": ""},
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    return done.stdout, done.stderr.splitlines()


def _compare_cords(found, first, lines):
    """Return whether the answer is the first one, and as many lines say that something was damaged as may."""
    answer, said = found
    fine = answer == first != "" and len(said) in lines and all(line.endswith(DAMAGED) for line in said)
    return ("same answer", "") if fine else ("broken", f"{answer} {said}"[-300:])


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
    "surroundings": attack_surroundings,
    "compiled loops": attack_cache,
}
