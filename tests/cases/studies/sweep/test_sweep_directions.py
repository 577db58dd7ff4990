"""What makers know of weight and strength comes out of a sweep: common practice, no source."""

import pytest

from tautlay.cases import read_sweep, run_sweep

from ._quick import write_sweep

HEAD = """[sweep]
name = "From a sturdy build to a light one"
design = "{design}"
combine = "one at a time"
mesh_size = "15 cm"
"""
# INVENTED: ten feet of webbing from each apex to its tree, bars of their own, cloth of 64 g/m2
STURDY = """
[[set]]
key = "body.fabric"
value = "ripstop nylon 64 g/m2"

[[set]]
key = "head_bar"
value = { length = "90 cm", set_in = "20 cm", section = "6061-T6 5/8 in x 0.035 in" }

[[set]]
key = "foot_bar"
value = { length = "70 cm", set_in = "15 cm", section = "6061-T6 5/8 in x 0.035 in" }

[[set]]
key = "suspension.line"
value = "polyester 1 in, 33 g/m"

[[set]]
key = "suspension.line_length"
value = "3.0 m"

[[set]]
key = "suspension.strap_height"
value = "2.9 m"

[[set]]
key = "ends.line_at_apex"
value = { made = "sewn loop", tail = "14 cm" }

[[set]]
key = "ends.line_at_tree"
value = { made = "girth hitch", tail = "19 cm" }
"""
LIGHT = """
[[vary]]
name = "line"
keys = ["suspension.line", "ends.line_at_apex", "ends.line_at_tree"]
values = [[
    "12-strand UHMWPE 2 mm",
    { made = "spliced eye", bury = "15 cm", coated = true, locked = true, tail = "3 cm" },
    { made = "spliced eye", bury = "15 cm", coated = true, locked = true, tail = "3 cm" },
]]
labels = ["cord"]

[[vary]]
name = "bars"
keys = ["head_bar", "foot_bar"]
labels = ["poles that are carried anyway, with rods"]
values = [[
    { length = "90 cm", set_in = "20 cm", part = [
        { section = "walking-pole section 7075-T6 18 x 1 mm", length = "84 cm", carried = true },
        { section = "yellow birch dowel 5/8 in", length = "12 cm", overlap = "6 cm", play = "0 mm", rests_on = "rim" },
    ] },
    { length = "70 cm", set_in = "15 cm", part = [
        { section = "walking-pole section 7075-T6 16 x 0.9 mm", length = "64 cm", carried = true },
        { like = "yellow birch dowel 1/2 in", diameter = "14 mm", length = "12 cm", overlap = "6 cm", play = "0 mm", rests_on = "rim" },
    ] },
]]

[[vary]]
name = "cloth"
key = "body.fabric"
values = ["ripstop nylon 37 g/m2"]
"""


@pytest.fixture(scope="module")
def rows(tmp_path_factory):
    folder = tmp_path_factory.mktemp("light")
    rows = run_sweep(read_sweep(write_sweep(folder, STURDY + LIGHT, HEAD)), folder / "a.sqlite", processes=1)
    assert [row.status for row in rows] == ["solved"] * 4, [row.reason for row in rows]
    return dict(zip(("sturdy", "line", "bars", "cloth"), rows, strict=True))


@pytest.mark.slow
def test_cord_for_webbing_saves_most_then_carried_poles_then_lighter_cloth(rows):
    saved = {name: rows["sturdy"].figures["packed_kg"] - row.figures["packed_kg"] for name, row in rows.items()}
    assert saved["line"] > saved["bars"] > saved["cloth"] > 0.05


@pytest.mark.slow
def test_lighter_cloth_has_less_margin_and_the_cords_keep_theirs(rows):
    heavy, light = rows["sturdy"].figures, rows["cloth"].figures
    assert light["factor_cloth"] < 0.9 * heavy["factor_cloth"]
    assert light["factor_cord"] == pytest.approx(heavy["factor_cord"], rel=0.02)


@pytest.mark.slow
def test_cord_for_webbing_leaves_the_cloth_alone(rows):
    assert rows["line"].figures["factor_cloth"] == pytest.approx(rows["sturdy"].figures["factor_cloth"], rel=0.05)
