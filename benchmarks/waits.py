"""How long somebody waits at the terminal: wall and CPU time of whole commands on the demonstration.

Run it as ``python benchmarks/waits.py [--turns N] [NAME ...]``. Each command is a process of its own, after a first run
that compiles and keeps loops and modules; the least of its turns is told, which on a busy machine says most. Prints a
table and writes ``benchmarks/results/waits.json``.
"""

import argparse
import json
import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from run import print_table

HERE = Path(__file__).parent
DESIGN = HERE.parent / "cases" / "larch_ridge.toml"
SOLVE = ["solve", DESIGN, "--load", "lying", "--output"]
COMMANDS = {  # by name; the folder of results is put for FOLDER
    "help": ["--help"],
    "check": ["check", DESIGN],
    "solve": [*SOLVE, "FOLDER"],
    "solve, no page": [*SOLVE, "FOLDER", "--no-page"],
    "solve, no page, no picture": [*SOLVE, "FOLDER", "--no-page", "--no-picture"],
    "tip": ["tip", DESIGN],
    "hang": ["hang", DESIGN],
    "judge": ["judge", DESIGN],
}
PROGRAM = [sys.executable, "-c", "from tautlay.cases.command.main import main; main()"]


def run_command(words):
    """Run a command in an empty folder; return its wall and its CPU time, s."""
    with tempfile.TemporaryDirectory() as folder:
        command = [*PROGRAM, *(str(Path(folder) / "result") if word == "FOLDER" else str(word) for word in words)]
        kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
        before, begun = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
        subprocess.run(command, check=True, capture_output=True, cwd=folder, env=kept)
        wall, after = time.perf_counter() - begun, resource.getrusage(resource.RUSAGE_CHILDREN)
    return wall, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def measure_wait(words, turns):
    """Return the least wall and CPU time of some turns after a first one, s."""
    run_command(words)
    walls, spent = zip(*(run_command(words) for _ in range(turns)), strict=True)
    return {"wall_s": min(walls), "cpu_s": min(spent)}


def read_options():
    """Return how many turns, and which commands."""
    parser = argparse.ArgumentParser(description="Time whole commands.")
    parser.add_argument("names", nargs="*", metavar="NAME", help=f"of {', '.join(COMMANDS)}; default: all")
    parser.add_argument("--turns", type=int, default=3, metavar="N")
    options = parser.parse_args()
    if unknown := [name for name in options.names if name not in COMMANDS]:
        parser.error(f"unknown command {unknown[0]!r}. Choose from {', '.join(COMMANDS)}.")
    return options.turns, options.names or list(COMMANDS)


def main():
    """Measure, print, write."""
    turns, names = read_options()
    found = {name: measure_wait(COMMANDS[name], turns) for name in names}
    rows = [("command", "wall (s)", "CPU (s)")]
    rows += [(name, f"{wait['wall_s']:.2f}", f"{wait['cpu_s']:.2f}") for name, wait in found.items()]
    print_table(rows)
    target = HERE / "results" / "waits.json"
    target.parent.mkdir(exist_ok=True)
    target.write_text(json.dumps({"cores": os.cpu_count(), "turns": turns, "waits": found}, indent=2) + "\n")
    print(f"\nwritten to {target}")


if __name__ == "__main__":
    main()
