"""
Which part is closest to its limit
==================================

Every check of a design, sorted. The number: the share of its limit that the first one uses.
"""

from importlib.resources import files

import matplotlib.pyplot as plt

from tautlay.cases import read_design, solve_case

design = read_design(files("tautlay.cases") / "larch_ridge.toml")
checks = solve_case(design, load="lying", mesh_size=0.08).findings.checks
worst = {}
for check in checks:
    worst.setdefault(check.part.replace("left ", "").replace("right ", ""), check)
rows = list(worst.values())[::-1]
print(f"{rows[-1].title}: {1 / rows[-1].margin:.0%} used")

figure, axes = plt.subplots(figsize=(7, 4), layout="constrained")
axes.barh([f"{check.part}, {check.mechanism}" for check in rows], [100 / check.margin for check in rows], color="0.6")
axes.axvline(100, color="black", linewidth=0.8)
axes.set(xlabel="used, % of the limit")
plt.show()
