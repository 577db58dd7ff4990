"""
Sitting down is not lying
=========================

A weight let go while it just touches the cloth pulls twice as hard as one at rest. The number: the factor of safety
left.
"""

from dataclasses import replace
from importlib.resources import files

import matplotlib.pyplot as plt

from tautlay.cases import read_design, solve_case

design = read_design(files("tautlay.cases") / "larch_ridge.toml")
factors, found = [1.0, 1.5, 2.0, 2.5], []
for factor in factors:
    other = replace(design, sudden_factor=factor)
    checks = solve_case(other, load="sudden", mesh_size=0.12).findings.checks
    found.append(min(check.found for check in checks))
print(f"smallest factor {found[0]:.1f} at rest, {found[-1]:.1f} at 2.5 times the weight")

figure, axes = plt.subplots(figsize=(6, 3.5), layout="constrained")
axes.plot(factors, found, "o-")
axes.axhline(1.0, color="black", linewidth=0.8)
axes.set(xlabel="times the weight", ylabel="smallest factor of safety", ylim=(0, None))
plt.show()
