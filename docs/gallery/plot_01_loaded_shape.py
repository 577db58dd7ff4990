"""
The loaded shape
================

A person lies in the demonstration hammock. The number: how far the lowest point is above the ground.
"""

from importlib.resources import files
from pathlib import Path
from tempfile import TemporaryDirectory

import matplotlib.pyplot as plt

from tautlay.cases import read_design, solve_case
from tautlay.viewer import draw_shape

design = read_design(files("tautlay.cases") / "larch_ridge.toml")
result = solve_case(design, load="lying", mesh_size=0.06)
print(f"lowest point {100 * result.shape.ground_clearance:.0f} cm above the ground")

with TemporaryDirectory() as folder:
    picture = Path(folder) / "shape.png"
    result.save(Path(folder) / "result")
    draw_shape(Path(folder) / "result", picture, units="metric")
    pixels = plt.imread(picture)
figure, axes = plt.subplots(figsize=(9, 9 * pixels.shape[0] / pixels.shape[1]), layout="constrained")
axes.imshow(pixels)
axes.axis("off")
plt.show()
