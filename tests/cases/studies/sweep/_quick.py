"""A sweep that is quick to solve: an invented design on a coarse mesh, without hot spots."""

import sqlite3
from importlib.resources import files

HEAD = """[sweep]
name = "Quick"
design = "{design}"
mesh_size = "20 cm"
hot_spots = false
"""
VARY = """
[[vary]]
name = "cloth"
key = "body.fabric"
values = ["ripstop nylon 37 g/m2", "ripstop nylon 54 g/m2", "coated ripstop nylon 45 g/m2"]

[[vary]]
name = "legs"
key = "suspension.leg"
values = ["12-strand UHMWPE 2 mm", "12-strand UHMWPE 2.5 mm"]
"""
SPREAD = '\n[[set]]\nkey = "load.case"\nvalue = "distributed"\n'  # one load, and the quickest
COUNT = 6
DEMO = files("tautlay.cases") / "heron_ford.toml"


def write_sweep(folder, text=VARY, head=HEAD, design=DEMO):
    """Write a sweep file of that text into a folder and return it; under the spread weight if it names no load."""
    path = folder / "quick.toml"
    load = "" if "load.case" in text else SPREAD
    path.write_text(head.format(design=design) + text + load, encoding="utf-8")
    return path


def read_results(path):
    """Return all that is kept of every result but the time it took."""
    columns = "key, status, reason, measurement, started, tree_distance_m, positions"
    connection = sqlite3.connect(path)
    try:
        return connection.execute(f"SELECT {columns} FROM result ORDER BY key").fetchall()
    finally:
        connection.close()
