"""How a command ends, what that took, and how often which end came."""

import os
import subprocess
import sys
import time
from collections import Counter
from importlib.resources import files
from pathlib import Path

from click.testing import CliRunner

from tautlay.cases.command.cli import main

from .._start import BEGIN

LONGEST = 60.0  # s of computing that a command may take


def run(*arguments):
    """Return how a command ended: a word, and what broke a promise."""
    begun = time.process_time()
    outcome = CliRunner().invoke(main, [str(each) for each in arguments])
    took, output = time.process_time() - begun, outcome.output
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


def start(*arguments, prefix=()):
    line = [*prefix, sys.executable, "-c", BEGIN, *map(str, arguments)]
    return subprocess.Popen(line, stdout=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True)


def solve_once(place):
    """Return the folder of a result."""
    folder = Path(place) / "result"
    design = str(files("tautlay.cases") / "larch_ridge.toml")
    assert run("solve", design, "--mesh-size", "20 cm", "--no-picture", "-q", "-o", folder) == ("done", "")
    return folder


def count_outcomes(outcomes):
    """Return how often each outcome came, those that say why (broken, no shape) with their number, and times of computing."""
    counted, told, times, begun = Counter(), {"broken": [], "no shape": []}, [], sum(os.times()[:4])
    for number, word, why in outcomes:
        now = sum(os.times()[:4])  # s, of processes that have ended too
        times.append((now - begun, number))
        begun = now
        counted[word] += 1
        if word in told:
            told[word].append((number, why))
    return counted, told, times
