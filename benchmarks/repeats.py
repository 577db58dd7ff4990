"""How far another mesh or another start moves a measure of the lay: five meshes, eight starts, three designs.

Run it as ``python benchmarks/repeats.py [--design NAME]``. It takes some quarter of an hour of one core a design and is
no test of the default run. Of every measure it prints the value from the flat cloth on the usual mesh, and how far the
others are from it at most; :data:`tautlay.cases.judging.comfort.measure_list.MEASURES` keeps the largest, rounded up.
"""

import argparse
from dataclasses import replace
from math import degrees
from pathlib import Path

import numpy as np

from tautlay.cases import read_design
from tautlay.cases.judging.comfort.measure_list import MEASURES
from tautlay.cases.solving.mesh_sequence import Start
from tautlay.cases.solving.solution import solve_equilibrium

HOME = Path(__file__).parent.parent / "cases"
DESIGNS = ("larch_ridge", "otter_creek", "heron_ford")
MESHES, USUAL = (0.08, 0.065, 0.05, 0.04, 0.03), 0.05  # m
LOADS = ("distributed", "sitting", "sudden")
PEOPLE = {"larger": (1.03, 1.2), "smaller": (0.97, 0.85)}  # times as tall, times as heavy
SEEDS, SWAY = (1, 2), 0.03  # m: by how much cloth and person are put aside, here more, there less


def sway(positions, seed):
    """Return a shape that is put aside in waves drawn by a seed."""
    draw = np.random.default_rng(seed)
    low, high = positions.min(axis=0), positions.max(axis=0)
    x, y, _ = ((positions - low) / np.where(high > low, high - low, 1.0)).T
    aside = np.zeros_like(positions)
    for waves in (1, 2, 3):
        for axis in range(3):
            a, b = draw.uniform(0.0, 2 * np.pi, 2)
            aside[:, axis] += draw.normal() * np.sin(np.pi * waves * x + a) * np.cos(np.pi * waves * y + b)
    return positions + SWAY * aside / np.abs(aside).max()


def list_starts(design, size):
    """Yield what each start is, and the rest that is found from it."""

    def lay(chosen, load="lying", start=None):
        return solve_equilibrium(chosen, load=load, mesh_size=size, hot_spots=False, start=start)

    def pass_on(found, positions=None):
        shape = found.state.positions if positions is None else positions
        return lay(design, start=Start(found.model, shape, keeps_trees=False))

    cold = lay(design)
    yield "flat cloth", cold
    for load in LOADS:
        yield load, pass_on(lay(design, load))
    for name, (taller, heavier) in PEOPLE.items():
        person = replace(design.person, stature=design.person.stature * taller, mass=design.person.mass * heavier)
        yield name, pass_on(lay(replace(design, person=person)))
    for seed in SEEDS:
        yield f"put aside, {seed}", pass_on(cold, sway(cold.state.positions, seed))


def show(value, dimension):
    """Return a number, angles in degrees."""
    return f"{degrees(value) if dimension == 'angle' else value:10.4g}"


def main():
    """Solve them all and print how far the measures differ."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--design", choices=DESIGNS, help="only this one")
    asked = parser.parse_args()
    for name in [asked.design] if asked.design else DESIGNS:
        design, values = read_design(HOME / f"{name}.toml"), {}
        for size in MESHES:
            for start, found in list_starts(design, size):
                values[size, start] = [each.read(found.comfort) for each in MEASURES]
            print(f"{name}, {size * 100:g} cm: {len(found.model.triangles)} triangles", flush=True)
        usual = np.array(values[USUAL, "flat cloth"])
        farthest = np.abs(np.array(list(values.values())) - usual).max(axis=0)
        for measure, value, far in zip(MEASURES, usual, farthest, strict=True):
            share = f"{far / abs(value):7.1%}" if value else ""
            print(f"{measure.title:32}{show(value, measure.dimension)}{show(far, measure.dimension)} {share}")


if __name__ == "__main__":
    main()
