"""How long ``tautlay pattern`` works beside its solve: a body in one piece, and one with both bars set in.

Run it as ``python benchmarks/patterns.py``. Each design is solved once, then its pattern is drafted and all its files
are written several times in one process. It prints CPU seconds, which do not count other programs: of the first time,
with what is loaded for it, and the least and the most of those after.
"""

import tempfile
import time
from functools import partial
from pathlib import Path

from tautlay.cases import draft_pattern, read_design
from tautlay.cases.command.pattern_page import draw_page
from tautlay.cases.solving.solution import solve_equilibrium

HOME = Path(__file__).parent.parent
DESIGNS = ("larch_ridge", "heron_ford")
REPEATS = 7


def write_pattern(path, result, folder):
    """Do what the command does with a design, once solved; return CPU seconds."""
    begun = time.process_time()
    drafted = draft_pattern(read_design(path), result)
    drafted.save(folder, draw=partial(draw_page, drafted))
    return time.process_time() - begun


def measure_design(name, folder):
    """Return the CPU seconds of the first time, and of each after, beside the solve."""
    path = HOME / "cases" / f"{name}.toml"
    design = read_design(path)
    result = solve_equilibrium(design, hot_spots=False) if design.hammock.is_estimated else None
    times = [write_pattern(path, result, folder / name) for _ in range(1 + REPEATS)]
    return times[0], times[1:]


def main():
    """Measure and print."""
    with tempfile.TemporaryDirectory() as folder:
        for name in DESIGNS:
            first, later = measure_design(name, Path(folder))
            print(f"{name:>12}  first {first:.2f} s  then {min(later):.2f} to {max(later):.2f} s")


if __name__ == "__main__":
    main()
