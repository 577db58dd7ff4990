"""Many people in many hammocks: how many find their rest, and why the others do not.

Run it as ``python benchmarks/people.py [--mesh-size MM] [--design NAME]``: 60 people from the 2nd to the 98th
percentile of both sexes, each in three designs and four positions. It takes some forty minutes of one core and is no
test of the default run.
"""

import argparse
import time
from collections import Counter
from dataclasses import replace
from importlib.resources import as_file, files
from typing import NamedTuple

import numpy as np

from tautlay.cases import NoEquilibriumError, read_design
from tautlay.cases.judging.comfort.swing import measure_roll_axis
from tautlay.cases.solving.solution import solve_equilibrium
from tautlay.cases.studies.lying.seated_equilibrium import balance_sitter
from tautlay.hammock import Arms, LyingSide, Person, Posture, Sex, find_percentile
from tautlay.meshing import HammockModel
from tautlay.meshing.sitting_across import seat_person
from tautlay.solver import State

DESIGNS = ("larch_ridge.toml", "otter_creek.toml", "starter.toml")
POSITIONS = {
    "back, arms at the sides": Posture(),
    "back, arms folded, knees over a pad": Posture(arms=Arms.FOLDED, knee_pad=0.1),
    "right side": Posture(lie=LyingSide.SIDE, arms=Arms.FOLDED),
    "sitting across": None,
}
PEOPLE = [(sex, p) for sex in Sex for p in np.linspace(2, 98, 30)]


class Rest(NamedTuple):
    """Somebody who has come to rest: model, state, steps of the solver."""

    model: HammockModel
    state: State
    steps: int


def lay(design, sex, percentile, posture, size):
    """Return the rest of one person in one design, as long in it as there is room, or seated across in its middle."""
    stature, mass = find_percentile(sex, percentile)
    room = design.hammock.body.length - stature
    person = Person(stature, mass, sex, max(room * 0.55, 0.0), posture or Posture())
    design, load = replace(design, person=person), "lying" if posture else "sitting"
    result = solve_equilibrium(design, load=load, mesh_size=size, hot_spots=False)
    return Rest(result.model, result.state, result.iterations) if posture else seat(result)


def seat(hung):
    """Return the rest of a person who sits across, where a hammock hangs under that person's spread weight."""
    model, start, middle = seat_person(hung.model, hung.state.positions)
    found, end = balance_sitter(model, start, middle, measure_roll_axis(hung.model, hung.state))
    if found is None:
        raise NoEquilibriumError(f"The person {end}.")
    return Rest(found.model, found.state, hung.iterations + found.state.iterations)


def find_deepest(rest, who):
    """Return by which share of a limb's smaller radius its flesh gives at most, and where."""
    frame = rest.model.frame
    shares = rest.state[rest.model.elements["contact"]].depth / frame.radii.min(axis=1)
    part = int(shares.argmax())
    return float(shares[part]), f"{who}: {frame.flesh[part]}"


def main():
    """Solve them all and print what came of it."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--mesh-size", type=float, default=80.0, help="mm")
    parser.add_argument("--design", choices=DESIGNS, help="only this one")
    asked = parser.parse_args()
    size = asked.mesh_size / 1000
    begun = time.perf_counter()
    found, reasons, steps = Counter(), Counter(), []
    deepest = dict.fromkeys(POSITIONS, (0.0, ""))
    for name in [asked.design] if asked.design else DESIGNS:
        with as_file(files("tautlay.cases") / name) as path:
            design = read_design(path)
        for position, posture in POSITIONS.items():
            for sex, percentile in PEOPLE:
                key = (name, position)
                try:
                    rest = lay(design, sex, percentile, posture, size)
                except (NoEquilibriumError, ValueError) as error:
                    reasons[f"{name}, {position}, {sex} {percentile:.0f}: {error}"] += 1
                    found[(*key, "no rest")] += 1
                    continue
                steps.append(rest.steps)
                deepest[position] = max(deepest[position], find_deepest(rest, f"{name}, {sex} {percentile:.0f}"))
                found[(*key, "rest")] += 1
            print(f"{name:18} {position:38} {found[(*key, 'rest')]:3} of {len(PEOPLE)}, "
                  f"{time.perf_counter() - begun:.0f} s so far", flush=True)  # fmt: skip
    for reason in reasons:
        print(reason)
    for position, (share, where) in deepest.items():
        print(f"{position}: flesh gives by {share:.3f} of its smaller radius at most ({where})")
    print(f"{len(steps)} solved, {np.median(steps):.0f} steps in the middle, {max(steps)} at most, "
          f"{time.perf_counter() - begun:.0f} s")  # fmt: skip


if __name__ == "__main__":
    main()
