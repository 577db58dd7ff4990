"""
Which cloth, which line
=======================

A sweep over choices of the library. The number: the lightest of them that passes.
"""

from importlib.resources import files
from pathlib import Path
from tempfile import TemporaryDirectory

import matplotlib.pyplot as plt

from tautlay.cases import read_sweep, run_sweep

SWEEP = f"""
[sweep]
name = "Cloth and line"
design = "{(files("tautlay.cases") / "heron_ford.toml").as_posix()}"
mesh_size = "12 cm"
hot_spots = false

[[vary]]
name = "cloth"
key = "body.fabric"
values = ["ripstop nylon 37 g/m2", "ripstop nylon 54 g/m2", "ripstop nylon 64 g/m2"]

[[vary]]
name = "line"
key = "suspension.line"
values = ["12-strand UHMWPE 1.75 mm", "12-strand UHMWPE 2.5 mm"]
"""

with TemporaryDirectory() as folder:
    file = Path(folder) / "sweep.toml"
    file.write_text(SWEEP, encoding="utf-8")
    rows = run_sweep(read_sweep(file), Path(folder) / "sweep.sqlite", processes=1)

# A row holds if all that was checked is enough. What was not checked is in `unchecked`: here cloth, seams and channels,
# since hot_spots is off. A row with more than the first is no lighter design, but one that was checked less.
known = frozenset(rows[0].unchecked)
passing = [row for row in rows if row.holds and not row.list_lost(known)]
lightest = 1000 * min(row.figures["packed_kg"] for row in passing)
print(f"{len(passing)} of {len(rows)} pass; the lightest has {lightest:.0f} g")

figure, axes = plt.subplots(figsize=(6, 3.5), layout="constrained")
for row in rows:
    mark = "o" if row.holds else "x"
    axes.plot(1000 * row.figures["packed_kg"], 100 / row.figures["least_margin"], mark, color="black")
axes.axhline(100, color="0.5", linewidth=0.8)
axes.set(xlabel="weight that is carried, g", ylabel="used by the part closest to its limit, %")
plt.show()
