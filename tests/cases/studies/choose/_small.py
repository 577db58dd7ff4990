"""Small searches on a coarse mesh: an invented design of which something is open."""

from importlib.resources import files

from .._light_materials import LIBRARY

HEAD = '[choose]\nname = "Small"\ndesign = "design.toml"\n{more}'
DEMO = files("tautlay.cases") / "heron_ford.toml"
LOADS = '\n[judge]\nloads = ["distributed"]\n'
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
