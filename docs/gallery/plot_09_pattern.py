"""
The pieces to cut
=================

The pattern of a design without a solve. The number: the area of cloth.
"""

from importlib.resources import files

import matplotlib.pyplot as plt

from tautlay.cases import draft_pattern, read_design

pattern = draft_pattern(read_design(files("tautlay.cases") / "larch_ridge.toml"))
print(f"{sum(piece.number * piece.cut_area for piece in pattern.pieces):.2f} m2 as cut")

figure, axes = plt.subplots(figsize=(7, 4), layout="constrained")
below = 0.0
for piece in pattern.pieces:
    cut = piece.boundary
    axes.fill(
        cut[:, 0] - cut[:, 0].min(), cut[:, 1] - cut[:, 1].max() - below, "0.85", edgecolor="black", linewidth=0.8
    )
    below += cut[:, 1].max() - cut[:, 1].min() + 0.1
axes.set(aspect="equal", xlabel="m")
plt.show()
