"""Designs whose patterns are looked at: the demonstrations, the starter, and unlike ones made from them."""

import re
from importlib.resources import files
from pathlib import Path

HOME = Path(str(files("tautlay.cases")))
DEMONSTRATIONS = ("heron_ford", "larch_ridge", "otter_creek", "starter")
TEXTS = {name: (HOME / f"{name}.toml").read_text(encoding="utf-8") for name in DEMONSTRATIONS}


def change(text, *pairs):
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new, 1)
    return text


def _cut_table(text, name):
    start = text.index(f"[{name}]")
    return text[start : text.index("\n[", start + 1) + 1]


def _write_uneven():
    """Grain 30 deg, a circle on the left and a catenary on the right, folded once, two layers, imperial."""
    text = change(
        TEXTS["larch_ridge"],
        ('grain = "0 deg"', 'grain = "30 deg"'),
        ("layers = 1", "layers = 2"),
        ("folds = 2", "folds = 1"),
        ('units = "both"', 'units = "imperial"'),
    )
    arcs = '[body.left_arc]\ndepth = "5 1/2 in"\nshape = "circle"\n\n[body.right_arc]\ndepth = "6 1/2 in"\nshape = "catenary"\n'
    return re.sub(r'\[body\.arc\].*?shape = "parabola"\n', arcs, text, count=1, flags=re.DOTALL)


TEXTS["uneven"] = _write_uneven()
TEXTS["narrow cloth"] = TEXTS["larch_ridge"] + '\n[cutting]\ncloth_width = "1.10 m"\n'
TEXTS["cut hot"] = change(TEXTS["larch_ridge"], ("folds = 2", "folds = 1")) + "\n[cutting]\nhot_cut = true\n"
TEXTS["strip folded once"] = change(
    TEXTS["heron_ford"], ("folds = 2\n", 'folds = 1\nfinished_width = "42 mm"\n'), ('stitching_width = "9 mm"', "")
)
TEXTS["across the warp"] = change(TEXTS["larch_ridge"], ('grain = "0 deg"', 'grain = "90 deg"'))
_BEYOND = """[head_extension]
made = "sewn on"
opening = "8 in"
close = true
cap = "shaped"

[foot_extension]
made = "sewn on"

"""
TEXTS["sewn on"] = change(
    TEXTS["uneven"],
    ('length = "90 cm"', 'length = "90 cm"\nset_in = "22 cm"'),
    ('length = "70 cm"', 'length = "70 cm"\nset_in = "18 cm"'),
    ("[suspension]", _BEYOND + "[suspension]"),
)
TEXTS["runs on"] = change(
    TEXTS["sewn on"], ('made = "sewn on"', 'made = "runs on"\ndarts = 4'), ('made = "sewn on"', 'made = "runs on"')
)
TEXTS["no extensions"] = change(
    TEXTS["heron_ford"],
    ('set_in = "20 cm"\n', ""),
    ('set_in = "15 cm"\n', ""),
    *((_cut_table(TEXTS["heron_ford"], f"{end}_extension"), "") for end in ("head", "foot")),
)
NAMES = tuple(TEXTS)


def write_design(folder, name):
    """Write a design into a folder; return its file."""
    path = folder / f"{name.replace(' ', '_')}.toml"
    path.write_text(TEXTS[name], encoding="utf-8")
    return path
