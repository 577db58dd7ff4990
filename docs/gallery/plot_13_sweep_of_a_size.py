"""
Arc and hang angle, swept and plotted
=====================================

A sweep of two sizes, and two figures from its rows.

The number: how much less the head bar bears at 35 degrees than at 25.
"""

from importlib.resources import files
from pathlib import Path
from tempfile import TemporaryDirectory

import matplotlib.pyplot as plt

from tautlay.cases import rank_rows, read_sweep, run_sweep
from tautlay.materials import parse_quantity

SWEEP = f"""
[sweep]
name = "Arc and hang angle"
design = "{(files("tautlay.cases") / "larch_ridge.toml").as_posix()}"
mesh_size = "12 cm"
hot_spots = false

[[set]]
key = "load.case"
value = "distributed"

[[vary]]
key = "body.arc.depth"
from = "12 cm"
to = "20 cm"
count = 3

[[vary]]
key = "suspension.hang_angle"
values = ["25 deg", "35 deg"]
"""

with TemporaryDirectory() as folder:
    file = Path(folder) / "sweep.toml"
    file.write_text(SWEEP, encoding="utf-8")
    rows = run_sweep(read_sweep(file), Path(folder) / "sweep.sqlite", processes=1)  # more: under __name__ == "__main__"

# What a design does not state enough about was not checked: a row that holds may have such parts. Cloth, seams and
# channels are among them here, since hot_spots is off; nothing that differs from row to row may be.
assert len({row.unchecked for row in rows}) == 1, "some designs were checked less than others"

# A list for each column, in the order of the ranking. What was varied is text, as the sweep file has it; the
# end of each other name is its SI unit. pandas.DataFrame(columns) makes a table of them.
columns = rank_rows(rows).to_columns()
depth = [100 * parse_quantity(text, "length") for text in columns["body.arc.depth"]]
angle = columns["suspension.hang_angle"]
means = [
    sum(t for t, a in zip(columns["head_bar_thrust_N"], angle, strict=True) if a == each) / 3
    for each in sorted(set(angle))
]
print(f"the head bar bears {means[0] - means[1]:.0f} N less at 35 degrees")

# %%
# The first figure: the head bar.


def plot_against_depth(name, label):
    _, axes = plt.subplots(figsize=(6, 3.2), layout="constrained")
    for each, mark in zip(sorted(set(angle)), "os", strict=True):
        points = sorted((d, v) for d, v, a in zip(depth, columns[name], angle, strict=True) if a == each)
        axes.plot(*zip(*points, strict=True), mark, linestyle="-", label=each)
    axes.set(xlabel="depth of the arc, cm", ylabel=label)
    axes.legend()
    plt.show()


plot_against_depth("head_bar_thrust_N", "thrust of the head bar, N")

# %%
# The second: the side cord.
plot_against_depth("side_cord_N", "tension of the side cord, N")
