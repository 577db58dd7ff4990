"""
A flat hang pulls harder
========================

The same hammock between trees farther and farther apart. The number: how much harder the lines pull at 20 than at 35
degrees.
"""

from dataclasses import replace
from importlib.resources import files
from math import radians

import matplotlib.pyplot as plt
import numpy as np

from tautlay.cases import read_design, solve_case

design = read_design(files("tautlay.cases") / "larch_ridge.toml")
angles, pulls = [20, 25, 30, 35], []
for angle in angles:
    ropes = replace(design.hammock.suspension, hang_angle=radians(angle), tree_distance=None)
    pulls.append(solve_case(design.hang(ropes), load="distributed", mesh_size=0.12).forces.head_line)
print(f"at 20 degrees {pulls[0] / pulls[-1]:.2f} times the pull at 35")

figure, axes = plt.subplots(figsize=(6, 3.5), layout="constrained")
axes.plot(angles, pulls, "o-", label="head line, computed")
weight = 9.80665 * design.person.mass
fine = np.linspace(18, 37)
axes.plot(fine, weight / (2 * np.sin(np.radians(fine))), "0.6", label="weight / (2 sin angle)")
axes.set(xlabel="line angle, deg", ylabel="N", ylim=(0, None))
axes.legend()
plt.show()
