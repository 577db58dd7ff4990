"""Small searches on a coarse mesh: an invented design of which something is open."""

from importlib.resources import files

HEAD = '[choose]\nname = "Small"\ndesign = "design.toml"\n{more}'
DEMO = files("tautlay.cases") / "heron_ford.toml"
LOADS = '\n[judge]\nloads = ["distributed"]\n'
# INVENTED: cloths and cords, some too weak, so that the lightest are not the answer
LIBRARY = """
[fabric."cobweb"]
base = "ripstop nylon 22 g/m2"
source = "invented for a test"
status = "memory"
areal_mass = "12 g/m2"
strength_warp = "1.2 N/mm"
strength_weft = "1.2 N/mm"

[fabric."filmy"]
base = "ripstop nylon 30 g/m2"
source = "invented for a test"
status = "memory"
areal_mass = "26 g/m2"

[cord."hair"]
base = "12-strand UHMWPE 1.75 mm"
source = "invented for a test"
status = "memory"
linear_mass = "0.9 g/m"
breaking_load = "900 N"

[cord."thin"]
base = "12-strand UHMWPE 2 mm"
source = "invented for a test"
status = "memory"
linear_mass = "1.6 g/m"
"""
CLOTHS = '["cobweb", "filmy", "ripstop nylon 30 g/m2", "ripstop nylon 37 g/m2", "ripstop nylon 54 g/m2"]'
CORDS = '["hair", "thin", "12-strand UHMWPE 1.75 mm", "12-strand UHMWPE 2 mm", "12-strand UHMWPE 2.5 mm"]'


def vary(key, values):
    return f'\n[[vary]]\nkey = "{key}"\nvalues = {values}\n'


def write_open(folder, text, *, more="", judge=LOADS, size="20 cm"):
    """Write a design with its library and a file that leaves something of it open; return that file."""
    (folder / "own.toml").write_text(LIBRARY, encoding="utf-8")
    plan = DEMO.read_text(encoding="utf-8").replace('size = "40 mm"', f'size = "{size}"')
    (folder / "design.toml").write_text(f'{plan}\n[materials]\nfiles = ["own.toml"]\n{judge}', encoding="utf-8")
    path = folder / "open.toml"
    path.write_text(HEAD.format(more=more) + text, encoding="utf-8")
    return path
