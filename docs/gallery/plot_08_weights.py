"""
Where the grams are
===================

No solve is needed to weigh a design. The number: what is carried.
"""

from importlib.resources import files

import matplotlib.pyplot as plt

from tautlay.cases import read_design, weigh_design
from tautlay.making import WeightGroup

scales = weigh_design(read_design(files("tautlay.cases") / "larch_ridge.toml"))
groups = {str(group): 1000 * scales.add(group).mass for group in WeightGroup}
print(f"{sum(groups.values()):.0f} g")

figure, axes = plt.subplots(figsize=(6, 2.5), layout="constrained")
axes.barh(list(groups), list(groups.values()), color="0.6")
axes.set(xlabel="g")
plt.show()
