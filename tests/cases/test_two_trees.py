"""Two unlike trees: a thick one with slings at its strap, a thin one with the strap through its own loop."""

import csv
import io
import json
from importlib.resources import files
from math import asin, cos, pi, sqrt
from pathlib import Path
from textwrap import dedent

import pytest
from click.testing import CliRunner
from rich.console import Console

from tautlay.cases import DesignError, draft_pattern, find_trim, read_design, solve_case
from tautlay.cases.command import cli as command
from tautlay.cases.command.printing.hang_table import print_sling_spans
from tautlay.cases.command.printing.trim_table import print_trim
from tautlay.cases.judging.weighing import weigh_design
from tautlay.cases.patterns.cut_list import write_cut_list
from tautlay.cases.studies.hang.other_trees import set_girth
from tautlay.cases.studies.sweep.setting import apply_settings
from tautlay.materials.toml_file import read_toml

from .._pages import read_pages

HERON = Path(str(files("tautlay.cases"))) / "heron_ford.toml"
SPLICE = 'made = "spliced eye"\nbury = "15 cm"\ncoated = true\nlocked = true\nover = "4 mm"\ntail = "4 cm"\n'
ADJUSTABLE = 'made = "adjustable splice"\nbury = "20 cm"\ncoated = true\nover = "8 mm"\ntail = "20 cm"\n'
SLING_ENDS = f"[ends.sling_at_strap]\n{SPLICE}\n[ends.sling_at_joint]\n{ADJUSTABLE}"
TREES = f"""[trees]
strap = "UHMWPE/polyester 1 in"
hitch = "slings"
sling = "12-strand UHMWPE 2 mm"
sling_reach = "30 cm"
sling_shortest = "35 cm"
sling_longest = "80 cm"
toggle_mass = "2.6 g"

[head_tree]
diameter = "60 cm"
strap_length = "1.30 m"
height = "1.75 m"

[foot_tree]
diameter = "18 cm"
strap_length = "1.00 m"
height = "1.85 m"

{SLING_ENDS}
"""


def write_text(changes=()):
    """Return the text of the design, with parts of it replaced."""
    text = HERON.read_text(encoding="utf-8")
    first, last = text.index("[trees]"), text.index("[corner]")
    text = text[:first] + TREES + text[last:]
    swaps = [
        ('line_length = "0.75 m"', 'head_line_length = "75 cm"\nfoot_line_length = "80 cm"'),
        ('strap_height = "1.80 m"\n', ""),
        ('hang_angle = "30 deg"', 'tree_distance = "4.3 m"'),
        *changes,
    ]
    for old, new in swaps:
        assert old in text, old
        text = text.replace(old, new, 1)
    return text


def read(folder, *changes):
    file = folder / "two_trees.toml"
    file.write_text(write_text(changes), encoding="utf-8")
    return read_design(file)


@pytest.fixture(scope="module")
def design(tmp_path_factory):
    return read(tmp_path_factory.mktemp("two_trees"))


@pytest.fixture(scope="module")
def result(design):
    return solve_case(design, mesh_size=0.1)


def test_each_end_has_its_own(design):
    suspension = design.hammock.suspension
    assert (suspension.head.line_length, suspension.foot.line_length) == (0.75, 0.8)
    assert (suspension.head.strap_height, suspension.foot.strap_height) == (1.75, 1.85)
    assert suspension.head.tree.girth == pytest.approx(0.6 * pi)
    assert suspension.foot.tree.diameter == pytest.approx(0.18)
    assert (suspension.head.wrap.strands, suspension.foot.wrap.strands) == (2, 1)


def test_slings_bear_what_a_hand_calculation_says(result):
    """Tangents from the joint to the trunk, 2 S cos(spread) = T, p = S / (r b): by hand."""
    tree, line = result.record.trees.head, result.forces.head_line
    radius, joint = 0.3, 0.3 + 0.3
    spread = asin(radius / joint)  # 30 deg
    each = line / 2 / cos(spread)
    round_the_trunk = 2 * sqrt(joint**2 - radius**2) + radius * (pi + 2 * spread)
    assert tree.slings.angle == pytest.approx(pi / 3, rel=5e-3)
    assert tree.slings.tension == pytest.approx(each, rel=5e-3)
    assert tree.slings.length == pytest.approx((round_the_trunk - 1.30) / 2, rel=5e-3)
    assert tree.bark_pressure == pytest.approx(each / (radius * 0.0254), rel=5e-3)
    assert tree.slings.on_bark == 0.0  # the strap covers 1.30 m of 1.26 m
    assert result.record.trees.foot.slings is None
    assert result.record.trees.foot.bark_pressure == pytest.approx(result.forces.foot_line / (0.09 * 0.0254), rel=5e-3)


def test_every_part_of_both_ends_is_checked_with_its_force(result):
    """Strap and both ends of the slings see the strand, the choked strap the whole line."""
    checks = {(check.part, check.mechanism, str(check.place)): check for check in result.findings.checks}
    each = result.forces.head_line / 2 / cos(pi / 6)
    for key in (
        ("head strap", "breaks", "behind the trunk"),
        ("head strap", "sewn loop breaks", "at the slings"),
        ("head sling", "splice breaks", "at the strap"),
        ("head sling", "splice breaks", "at the joint"),
    ):
        assert checks[key].demand == pytest.approx(each, rel=5e-3)
    assert checks["head sling", "splice breaks", "at the joint"].capacity.value == pytest.approx(0.6 * 4448.2, rel=1e-3)
    assert checks["foot strap", "hitch breaks", ""].demand == result.forces.foot_line
    assert not [check for check in result.findings.checks if check.part == "foot sling"]  # idle
    assert [each.part for each in result.findings.unchecked] == ["head toggle", "apex rings", "bar tips"]


def test_forces_are_those_of_the_same_lines_with_nothing_smuggled_in(result, design):
    """All weight is carried, the trees stand 4.3 m apart, and every gram has its row."""
    summary = result.summary
    assert summary["shape"]["tree_distance_m"] == pytest.approx(4.3)
    down = sum(-summary["anchors"][f"{end}_tree_N"][2] for end in ("head", "foot"))
    weight = 9.80665 * (summary["weights"]["person_kg"] + result.model.mass)
    assert down == pytest.approx(weight, rel=1e-3)
    scales = weigh_design(design)
    assert not [row for row in scales.weights if row.part.startswith("apex ring") and row.count != 2]
    parts = {row.part: row for row in scales.weights}
    for end in ("head", "foot"):
        assert parts[f"{end} toggle"].mass == pytest.approx(0.0026)
        for side in ("left", "right"):
            cord = 0.80 + (0.15 + 0.04) + (0.20 + 0.20)  # longest, both ends
            assert parts[f"{side} {end} sling"].amount.value == pytest.approx(cord)
    assert parts["head strap"].amount.value == pytest.approx(1.30 + 2 * 0.13)
    assert parts["foot strap"].amount.value == pytest.approx(1.00 + 2 * 0.13)
    assert not scales.unweighed


def test_cord_on_thick_bark_is_told_with_its_pressure(tmp_path):
    short = read(tmp_path, ('strap_length = "1.30 m"', 'strap_length = "0.95 m"'))
    found = solve_case(short, mesh_size=0.15, hot_spots=False)
    slings = found.record.trees.head.slings
    arc = 0.3 * (pi + pi / 3)
    assert slings.on_bark == pytest.approx((arc - 0.95) / 2)
    assert slings.bark_pressure == pytest.approx(slings.tension / (0.3 * 0.002))
    assert any("sling cord lies on the bark" in note for note in found.record.notes)


@pytest.mark.slow
def test_one_hang_sheet_tells_both_trees_and_the_way_of_the_slings(tmp_path):
    file, sheet = tmp_path / "two.toml", tmp_path / "sheet.json"
    file.write_text(write_text(), encoding="utf-8")
    words = ("hang", str(file), "--distance", "4.3 m", "--units", "metric", "--json", str(sheet), "--quiet")
    outcome = CliRunner().invoke(command.main, [*words])
    assert outcome.exit_code == 0, outcome.output
    assert "line 75 cm (head), 80 cm (foot)" in outcome.output
    assert "through its own loop" in outcome.output
    assert "behind the trunk" in outcome.output
    assert "Head slings: set to 49.8 cm each; 35.0 cm to 80.0 cm are possible." in " ".join(outcome.output.split())
    assert max(map(len, outcome.output.splitlines()[:-1])) <= 80
    (found,) = json.loads(sheet.read_text(encoding="utf-8"))["sheets"]
    assert found["trees"]["head"]["slings"]["angle_rad"] == pytest.approx(pi / 3)
    assert (found["girth_m"], found["foot_girth_m"]) == pytest.approx((0.6 * pi, 0.18 * pi))


def test_way_of_the_slings_from_the_thinnest_to_the_thickest_tree(design):
    """Loop of tangents and arc round each trunk, less the strap, half on each side: by hand."""
    lengths = []
    for girth in (1.7, 2.0):
        radius = girth / 2 / pi
        joint = radius + 0.3
        whole = 2 * sqrt(joint**2 - radius**2) + radius * (pi + 2 * asin(radius / joint))
        lengths.append((whole - 1.30) / 2)
    console = Console(record=True, width=80, file=io.StringIO())
    print_sling_spans([set_girth(design, girth) for girth in (0.5, 1.7, 2.0)], "metric", console)
    told = " ".join(console.export_text().split())
    by = 100 * (lengths[1] - lengths[0])
    assert f"Head slings: {100 * lengths[0]:.1f} cm to {100 * lengths[1]:.1f} cm for these trees" in told
    assert f"so they must adjust by {by:.1f} cm" in told
    assert "Round thinner trees the strap goes without them." in told
    with pytest.raises(ValueError, match="can be set to"):
        set_girth(design, 2.8)


def test_slings_are_bought_and_cut(design):
    pattern = draft_pattern(design)
    cuts = {cut.part: cut for cut in pattern.shopping.lengths}
    assert (cuts["head sling"].number, cuts["foot sling"].number) == (2, 2)
    assert cuts["head sling"].length == pytest.approx(1.39)
    assert {"head toggle", "foot toggle"} <= {item.part for item in pattern.shopping.items}
    rows = list(csv.DictReader(io.StringIO(write_cut_list(pattern.pieces, pattern.shopping))))
    assert {row["name"] for row in rows} >= {"head sling", "foot sling", "head strap", "foot strap", "head toggle"}


def test_trim_names_the_key_of_the_design(tmp_path):
    found = find_trim(read(tmp_path), "trunk 7 deg", vary="foot_strap_height", mesh_size=0.15)
    console = Console(record=True, width=80, file=io.StringIO())
    print_trim(found, "metric", console)
    words = console.export_text()
    assert "set foot_tree.height to" in words
    assert "head line length" in words


def test_pair_of_split_straps_weighs_what_makers_say(tmp_path):
    """2 ft of strap and two slings each, 41 g the pair, where two straps of 6 ft come to 72 g: common practice, no source."""
    (tmp_path / "own.toml").write_text(
        '[webbing."six"]\nbase = "polyester 1 in, 17.7 g/m"\nsource = "a scale"\nstatus = "seen"\nlinear_mass = "6 g/ft"\n',
        encoding="utf-8",
    )
    split = read(
        tmp_path,
        ('strap = "UHMWPE/polyester 1 in"', 'strap = "six"'),
        ('strap_length = "1.30 m"', 'strap_length = "2 ft"'),
        ('strap_length = "1.00 m"', 'strap_length = "2 ft"'),
        ('diameter = "60 cm"', 'diameter = "35 cm"'),
        ('diameter = "18 cm"', 'diameter = "17 cm"'),
        ('made = "sewn loop"\n# A loop of 5 cm, both legs, and 3 cm sewn.\ntail = "13 cm"', 'made = "sewn loop"\ntail = "0 cm"'),
        ("[body]", '[materials]\nfiles = ["own.toml"]\n\n[body]'),
    )  # fmt: skip
    scales = weigh_design(split)
    pair = sum(row.mass for row in scales.weights if row.part.endswith(("strap", "sling", "toggle")))
    assert pair == pytest.approx(0.041, rel=0.1)
    straps = [row.mass for row in scales.weights if row.part.endswith("strap")]
    assert straps == pytest.approx([0.012, 0.012])


def refuse(folder, *changes):
    with pytest.raises(DesignError) as caught:
        read(folder, *changes)
    faults = caught.value.faults
    assert len(faults) == 1, caught.value
    return str(faults[0])


@pytest.mark.parametrize(
    ("changes", "key", "words"),
    [
        ([('diameter = "60 cm"', 'diameter = "0 cm"')], "head_tree.diameter", "below the smallest plausible trunk"),
        ([('diameter = "60 cm"', 'diameter = "60 m"')], "head_tree.diameter", "the largest plausible trunk diameter"),
        ([('diameter = "60 cm"', 'girth = "60 cm"\ndiameter = "60 cm"')], "head_tree.diameter", "conflicts with girth"),
        ([('diameter = "60 cm"', "")], "head_tree.diameter", "is missing: the same for the head"),
        ([('diameter = "60 cm"', 'diametre = "60 cm"')], "head_tree.diametre", "Did you mean diameter?"),
        ([('hitch = "slings"', 'hitch = "slings"\ngirth = "1 m"')], "foot_tree.diameter", "conflicts with trees.girth"),
        ([('height = "1.85 m"', "")], "foot_tree.height", "is missing: the same for the foot"),
        ([('[head_tree]', '[head_tre]')], "head_tre", "Did you mean head_tree?"),
        ([('sling_longest = "80 cm"\n', "")], "trees.sling_longest", "is missing: longest length to which a sling"),
        ([('sling_longest = "80 cm"', 'sling_longest = "30 cm"')], "trees.sling_longest", "no room to adjust"),
        ([('sling_longest = "80 cm"', 'sling_longest = "40 cm"')], "trees.sling_longest", "must be 49.79 cm"),
        ([('sling_shortest = "35 cm"', 'sling_shortest = "60 cm"')], "trees.sling_shortest", "can be set to 60.00 cm"),
        ([('sling_reach = "30 cm"', 'sling_reach = "3 cm"')], "trees.sling_reach", "at least 5.00 cm"),
        ([('sling_reach = "30 cm"', 'sling_reach = "80 cm"'), ('"80 cm"\ntoggle', '"1.8 m"\ntoggle')],
         "trees.sling_reach", "more than the whole line"),
        ([('strap_length = "1.30 m"', 'strap_length = "1.93 m"'), ('"30 cm"', '"5 cm"'), ('"35 cm"', '"2 cm"')],
         "head_tree.strap_length", "too long for slings"),
        ([('strap_length = "1.00 m"', 'strap_length = "1.40 m"')], "foot_tree.strap_length", "reaches 83.45 cm"),
        ([('hitch = "slings"', 'hitch = "girth hitch"'), (SLING_ENDS, "")], "trees.sling", 'has no effect without hitch = "slings"'),
        ([('head_line_length = "75 cm"', 'line_length = "75 cm"')], "suspension.foot_line_length", "conflicts with line"),
        ([('foot_line_length = "80 cm"', "")], "suspension.foot_line_length", "Give both head_line_length and foot_"),
        ([("[ends.sling_at_strap]", "[head_ends.sling_at_strap]\nmade = \"other way\"\nkeeps = \"80 %\"\n\n[ends.sling_at_strap]")],
         "head_ends.sling_at_strap", "conflicts with ends.sling_at_strap"),
        ([('foot_line_length = "80 cm"', 'foot_line_length = "60 cm"')], "suspension.foot_line_length",
         "but both buries together take"),
    ],
)  # fmt: skip
def test_each_slip_is_one_sentence_about_its_key(tmp_path, changes, key, words):
    sentence = refuse(tmp_path, *changes)
    assert key in sentence
    assert words in sentence
    assert "Traceback" not in sentence


def test_ends_of_cords_may_differ_by_end(tmp_path):
    old = '[ends.line_at_tree]\nmade = "spliced eye"\nbury = "15 cm"\ncoated = true\nlocked = true\n'
    assert old in HERON.read_text(encoding="utf-8")
    foot = old.replace("[ends.", "[foot_ends.").replace("15 cm", "18 cm")
    mixed = read(
        tmp_path,
        (old, f'{foot}over = "4 mm"\ntail = "5 cm"\n\n{old.replace("[ends.", "[head_ends.")}'),
    )
    work = mixed.workmanship
    assert (work.head_rigging.line_at_tree.bury, work.foot_rigging.line_at_tree.bury) == (0.15, 0.18)
    parts = {row.part: row for row in weigh_design(mixed).weights}
    assert parts["foot line"].amount.value - parts["head line"].amount.value == pytest.approx(
        (0.8 - (1.0 - 0.18 * pi) + 0.18) - (0.75 - 0.3 + 0.15)
    )


def test_sweep_of_one_end_leaves_the_other_as_it_was():
    raw = read_toml(HERON).data
    changed = apply_settings(raw, [(("suspension", "head_line_length"), "1 m"), (("head_tree", "girth"), "2 m")])
    assert changed["suspension"]["foot_line_length"] == raw["suspension"]["line_length"]
    assert "line_length" not in changed["suspension"]
    assert changed["foot_tree"] == {"girth": raw["trees"]["girth"]}
    back = apply_settings(changed, [(("trees", "diameter"), "40 cm"), (("suspension", "line_length"), "90 cm")])
    assert back["trees"]["diameter"] == "40 cm"
    assert back["head_tree"] == back["foot_tree"] == {}
    assert not {"head_line_length", "foot_line_length"} & set(back["suspension"])


def test_slings_that_creep_and_spread_wide_are_noted(tmp_path):
    """6 cm from the bark of a trunk 1 m thick the cords meet at 126 deg; UHMWPE creeps above 15 %: fibre literature."""
    near = read(
        tmp_path,
        ('diameter = "60 cm"', 'diameter = "1 m"'),
        ('sling_reach = "30 cm"', 'sling_reach = "6 cm"'),
        ('strap_length = "1.30 m"', 'strap_length = "1.90 m"'),
        ('sling = "12-strand UHMWPE 2 mm"', 'sling = "12-strand UHMWPE 1.75 mm"'),
    )
    notes = solve_case(near, mesh_size=0.15, hot_spots=False).record.notes
    share = 1 / 2 / cos(asin(0.5 / 0.56))
    assert any(f"slings meet at 126 deg, so that each bears {share:.2f} times" in note for note in notes)
    assert any(note.startswith("Creep") and "head slings" in note for note in notes)


def test_table_of_the_guide_can_be_hung(tmp_path):
    readme = read_pages()
    block = dedent(readme[readme.index("    [head_tree]") :].split("\n\n")[0])
    text = HERON.read_text(encoding="utf-8").replace("[trees]", f"{block}\n\n[foot_tree]", 1)
    text = text.replace('strap_height = "1.80 m"', 'foot_strap_height = "1.80 m"', 1)
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    head = read_design(tmp_path / "a.toml").hammock.suspension.head
    assert head.strap_height == pytest.approx(1.7)
    assert 0.30 < head.wrap.sling < 0.75
    assert head.wrap.cord_on_bark == 0.0
