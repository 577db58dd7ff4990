"""
One hammock, many people
========================

From a small woman to a large man. The number: how much more the head leg carries.
"""

from dataclasses import replace
from importlib.resources import files

import matplotlib.pyplot as plt

from tautlay.cases import read_design, solve_case
from tautlay.hammock import Sex, find_percentile

design = read_design(files("tautlay.cases") / "larch_ridge.toml")
masses, legs = [], []
for sex, percentile in ((Sex.FEMALE, 5), (Sex.FEMALE, 50), (Sex.FEMALE, 95), (Sex.MALE, 50)):
    stature, mass = find_percentile(sex, percentile)
    person = replace(design.person, stature=stature, mass=mass, sex=sex, head_from_bar=0.1)
    forces = solve_case(replace(design, person=person), load="distributed", mesh_size=0.12).forces
    masses.append(mass)
    legs.append(forces.head_leg_left)
print(f"{legs[0]:.0f} to {legs[-1]:.0f} N from {masses[0]:.0f} to {masses[-1]:.0f} kg")

figure, axes = plt.subplots(figsize=(6, 3.5), layout="constrained")
axes.plot(masses, legs, "o")
axes.set(xlabel="mass of the person, kg", ylabel="head leg, each side, N", xlim=(0, None), ylim=(0, None))
plt.show()
