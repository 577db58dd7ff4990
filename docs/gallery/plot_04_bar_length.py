"""
A longer bar squeezes less
==========================

The head bar holds the cloth apart at the shoulders. The number: by how much the squeeze falls.
"""

from dataclasses import replace
from importlib.resources import files

import matplotlib.pyplot as plt

from tautlay.cases import read_design, solve_case

design = read_design(files("tautlay.cases") / "larch_ridge.toml")
lengths, squeeze, thrust = [0.82, 0.90, 0.98], [], []
for length in lengths:
    bar = replace(design.hammock.head_bar, length=length)
    other = replace(design, hammock=replace(design.hammock, head_bar=bar))
    result = solve_case(other, load="lying", mesh_size=0.12)
    squeeze.append(result.comfort.shoulder_squeeze)
    thrust.append(result.forces.head_bar_thrust)
print(f"squeeze {squeeze[0]:.0f} N with 82 cm, {squeeze[-1]:.0f} N with 98 cm")

figure, axes = plt.subplots(figsize=(6, 3.5), layout="constrained")
axes.plot([100 * length for length in lengths], squeeze, "o-", label="shoulder squeeze")
axes.plot([100 * length for length in lengths], thrust, "s-", label="bar thrust")
axes.set(xlabel="length of the head bar, cm", ylabel="N", ylim=(0, None))
axes.legend()
plt.show()
