"""
Cloth cut off the warp draws in
===============================

Cloth is soft in shear: cut at an angle to the warp and pulled lengthwise, it draws in sideways, and the trough gets
shallower. The number: by how much.
"""

from dataclasses import replace
from importlib.resources import files
from math import radians

import matplotlib.pyplot as plt

from tautlay.cases import read_design, solve_case

design = read_design(files("tautlay.cases") / "larch_ridge.toml")
angles, sags = [0, 15, 30, 45], []
for angle in angles:
    body = replace(design.hammock.body, grain=radians(angle))
    other = replace(design, hammock=replace(design.hammock, body=body))
    sags.append(solve_case(other, load="distributed", mesh_size=0.12).shape.sag)
print(f"sag {100 * sags[0]:.1f} cm along the warp, {100 * sags[-1]:.1f} cm at 45 degrees")

figure, axes = plt.subplots(figsize=(6, 3.5), layout="constrained")
axes.plot(angles, [100 * sag for sag in sags], "o-")
axes.set(xlabel="length of the body to the warp, deg", ylabel="sag below the bars, cm")
plt.show()
