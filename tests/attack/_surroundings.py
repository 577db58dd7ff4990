"""The demonstration where nobody prepared anything: no home, an installation that cannot be written, names of any bytes."""

import os
import subprocess
import sys
import tempfile
from importlib.resources import files
from pathlib import Path

from .._start import BEGIN
from ._samples import read_demo

FOLDERS = (b"bad \xff\xfe", b"with space", "L\u00e4rche".encode())
SEALED = 'mount --bind "$0" "$0" && mount -o remount,ro,bind "$0" && touch "$0/_" 2>/dev/null && exit 9; exec "$@"'
LONGEST = 1800.0  # s; two of the commands compile all loops


def attack_surroundings(seed, numbers):
    """Every command of the demonstration, in the locale C: each ends well, writes what it says and shows no traceback."""
    if subprocess.run(["unshare", "-rm", "true"], capture_output=True, check=False).returncode:
        yield 0, "skipped: no mounts here", ""
        return
    for number in [number for number in numbers if number < len(FOLDERS)]:
        with tempfile.TemporaryDirectory() as place:
            home = Path(place) / os.fsdecode(FOLDERS[number])
            home.mkdir()
            design, out = home / "design.toml", home / "out"
            design.write_text(read_demo(), encoding="utf-8")
            coarse = ("--mesh-size", "20 cm")
            for arguments, written in (
                (("check", design), ()),
                (("weigh", design, "--json", home / "w.json"), ("w.json",)),
                (("pattern", design, "-q", "-o", home / "pieces"), ("pieces/pieces.dxf", "pieces/pattern.html")),
                (("solve", design, "--load", "lying", *coarse, "-o", out), ("out/result.json", "out/report.html")),
                (("report", out, "-o", home / "r.html"), ("r.html",)),
                (("judge", design, *coarse, "--json", home / "j.json"), ("j.json",)),
            ):
                missing = "; ".join(_run_bare(arguments, home, written))
                yield f"{number} {arguments[0]}", "broken" if missing else "done", missing


def _run_bare(arguments, folder, written):
    """Yield what is wrong with a command that has nothing but a path to programs and a place for short-lived files."""
    installed = Path(str(files("tautlay.cases"))).resolve().parent
    done = subprocess.run(
        ["unshare", "-rm", "sh", "-c", SEALED, installed, sys.executable, "-c", BEGIN, *map(str, arguments)],
        env={"PATH": os.environ["PATH"], "LANG": "C", "HOME": "/proc/nobody"},
        cwd=folder, capture_output=True, text=True, errors="replace", check=False, timeout=LONGEST,
    )  # fmt: skip
    if done.returncode or "Traceback" in done.stderr:
        yield f"code {done.returncode}: {done.stderr[-200:]}"
    yield from (f"{name} is not written" for name in written if not (folder / name).exists())
