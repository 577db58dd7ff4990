"""Many people in many hammocks: how many find their rest, and why the others do not.

Run it as ``python benchmarks/people.py [--mesh-size MM]``: 60 people from the 2nd to the 98th percentile of both
sexes, each in three designs and three positions. It takes some ten minutes and is no test of the default run.
"""

import argparse
import time
from collections import Counter
from dataclasses import replace
from importlib.resources import as_file, files

import numpy as np

from tautlay.cases import NoEquilibriumError, read_design
from tautlay.cases.solving.solution import solve_equilibrium
from tautlay.hammock import Arms, LyingSide, Person, Posture, Sex, find_percentile

DESIGNS = ("larch_ridge.toml", "otter_creek.toml", "starter.toml")
POSITIONS = {
    "back, arms at the sides": Posture(),
    "back, arms folded, knees over a pad": Posture(arms=Arms.FOLDED, knee_pad=0.1),
    "right side": Posture(lie=LyingSide.SIDE, arms=Arms.FOLDED),
}
PEOPLE = [(sex, p) for sex in Sex for p in np.linspace(2, 98, 30)]


def lay(design, sex, percentile, posture, size):
    """Return the result of one person in one design, as long in it as there is room."""
    stature, mass = find_percentile(sex, percentile)
    room = design.hammock.body.length - stature
    person = Person(stature, mass, sex, max(room * 0.55, 0.0), posture)
    return solve_equilibrium(replace(design, person=person), load="lying", mesh_size=size, hot_spots=False)


def find_deepest(result, who):
    """Return by which share of a limb's smaller radius its flesh gives at most, and where."""
    frame = result.model.frame
    shares = result.state[result.model.elements["contact"]].depth / frame.radii.min(axis=1)
    part = int(shares.argmax())
    return float(shares[part]), f"{who}: {frame.flesh[part]}"


def main():
    """Solve them all and print what came of it."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--mesh-size", type=float, default=80.0, help="mm")
    size = parser.parse_args().mesh_size / 1000
    begun = time.perf_counter()
    found, reasons, steps = Counter(), Counter(), []
    deepest = dict.fromkeys(POSITIONS, (0.0, ""))
    for name in DESIGNS:
        with as_file(files("tautlay.cases") / name) as path:
            design = read_design(path)
        for position, posture in POSITIONS.items():
            for sex, percentile in PEOPLE:
                key = (name, position)
                try:
                    result = lay(design, sex, percentile, posture, size)
                except (NoEquilibriumError, ValueError) as error:
                    reasons[f"{name}, {position}, {sex} {percentile:.0f}: {error}"] += 1
                    found[(*key, "no rest")] += 1
                    continue
                steps.append(result.iterations)
                deepest[position] = max(deepest[position], find_deepest(result, f"{name}, {sex} {percentile:.0f}"))
                found[(*key, "rest")] += 1
            print(f"{name:18} {position:38} {found[(*key, 'rest')]:3} of {len(PEOPLE)}", flush=True)
    for reason in reasons:
        print(reason)
    for position, (share, where) in deepest.items():
        print(f"{position}: flesh gives by {share:.3f} of its smaller radius at most ({where})")
    print(f"{len(steps)} solved, {np.median(steps):.0f} steps in the middle, {max(steps)} at most, "
          f"{time.perf_counter() - begun:.0f} s")  # fmt: skip


if __name__ == "__main__":
    main()
