"""
How deep to cut the arc
=======================

A deeper arc lets the side cords carry at a steeper angle. The number: what that does to the tension of the side cord.
"""

from dataclasses import replace
from importlib.resources import files

import matplotlib.pyplot as plt

from tautlay.cases import read_design, solve_case

design = read_design(files("tautlay.cases") / "larch_ridge.toml")
depths, cords, bars = [0.11, 0.14, 0.17, 0.20], [], []
for depth in depths:
    body = design.hammock.body
    cut = replace(body, left_arc=replace(body.left_arc, depth=depth), right_arc=replace(body.right_arc, depth=depth))
    other = replace(design, hammock=replace(design.hammock, body=cut))
    forces = solve_case(other, load="distributed", mesh_size=0.12).forces
    cords.append(forces.side_cord_left_max)
    bars.append(forces.head_bar_thrust)
print(f"side cord {cords[0]:.0f} N at 11 cm, {cords[-1]:.0f} N at 20 cm")

figure, axes = plt.subplots(figsize=(6, 3.5), layout="constrained")
axes.plot([100 * depth for depth in depths], cords, "o-", label="side cord")
axes.plot([100 * depth for depth in depths], bars, "s-", label="head bar")
axes.set(xlabel="depth of the arc, cm", ylabel="N", ylim=(0, None))
axes.legend()
plt.show()
