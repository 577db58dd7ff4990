"""Files that are attacked."""

from importlib.resources import files

from .._strips import STRIPS

OWN = """[cord."own"]
base = "12-strand UHMWPE 2 mm"
source = "own"
status = "seen"
breaking_load = { value = "3.6 kN", range = ["3 kN", "4 kN"] }

[fabric."mine"]
base = "ripstop nylon 37 g/m2"
"""
OPEN = """[choose]
name = "Lightest"
design = "a design"
mesh_size = "20 cm"
most = 6
starts = 2

[[set]]
key = "head_bar.length"
value = "90 cm"

[[vary]]
key = "body.fabric"
find = { text = "ripstop", maximum = { areal_mass = "60 g/m2" } }

[[vary]]
key = "suspension.leg"
values = ["12-strand UHMWPE 1.75 mm", "12-strand UHMWPE 2 mm"]

[[vary]]
key = "suspension.strap_height"
from = "1.6 m"
to = "2 m"
"""
SWEPT = """[sweep]
name = "Depths"
design = "a.toml"
mesh_size = "20 cm"
hot_spots = false

[[vary]]
key = "body.arc.depth"
from = "15 cm"
to = "19 cm"
count = 16
"""
VARIED = """[choose]
name = "Lightest"
design = "a.toml"
mesh_size = "20 cm"

[[vary]]
key = "body.fabric"
find = { text = "ripstop", maximum = { areal_mass = "60 g/m2" } }

[[vary]]
key = "suspension.leg"
values = ["12-strand UHMWPE 1.75 mm", "12-strand UHMWPE 2 mm", "12-strand UHMWPE 2.5 mm"]
"""
MEASURED = f"""[hung]
tree_distance = "4.27 m"

[accuracy]
length = "2 mm"
longer = "1 mm"
{STRIPS}"""


def read_demo(name="larch_ridge"):
    return (files("tautlay.cases") / f"{name}.toml").read_text(encoding="utf-8")
