"""What a design weighs: parts by hand, sums, ranges, what is not told, and what makers say of such hammocks."""

import json
import re
import subprocess
import sys
from dataclasses import replace
from importlib.resources import files
from math import atan, cos, pi, sin, sqrt, tan
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner

from tautlay.cases import read_design, weigh_design
from tautlay.cases.command.cli import main
from tautlay.cases.judging.weighing import record_scales
from tautlay.cases.storage.codec import encode
from tautlay.cutting import Treatment, draft_pieces
from tautlay.hammock import list_parts
from tautlay.hammock.hammock import Attachment
from tautlay.hammock.outline import draw_outline
from tautlay.hammock.part import title_part
from tautlay.making import WeightGroup, cut_fold
from tautlay.materials import Webbing, read_library

FOOT, OUNCE = 0.3048, 0.028349523125  # exact, NIST SP 811 B.8
HOME = Path(str(files("tautlay.cases")))
NAMES = ("larch_ridge", "otter_creek", "heron_ford", "starter")
LARCH = (HOME / "larch_ridge.toml").read_text(encoding="utf-8")
HERON = (HOME / "heron_ford.toml").read_text(encoding="utf-8")
THIN = HERON.replace("ripstop nylon 40 g/m2, low permeability", "ripstop nylon 37 g/m2", 1)
LIBRARY = read_library()


def read_text(folder, text):
    (folder / "a.toml").write_text(text, encoding="utf-8")
    return read_design(folder / "a.toml")


def change(text, *pairs):
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new, 1)
    return text


def drop_table(text, name):
    start = text.index(f"[{name}]")
    return text[:start] + text[text.index("\n[", start + 1) + 1 :]


def list_masses(scales):
    return {weight.part: weight.mass for weight in scales.weights}


def find_corner_angles(edge):
    """Return by how much a long side turns inward at the head and at the foot, rad."""
    head, foot = (float(edge.curve.slope(np.array(x))) for x in (0.0, edge.span))
    return atan(-head), atan(foot)


def list_untold(scales):
    return {each.part: each.reason for each in scales.unweighed}


@pytest.fixture(scope="module")
def designs():
    return {name: read_design(HOME / f"{name}.toml") for name in NAMES}


@pytest.fixture(scope="module")
def scales(designs):
    return {name: weigh_design(design) for name, design in designs.items()}


def test_careful_light_build_weighs_what_makers_say(tmp_path):
    """223 g with its suspension, 264.5 g with two light straps, 281 g with the rods. Common practice, no source."""
    heron = weigh_design(read_text(tmp_path, THIN))
    hung = heron.add(WeightGroup.HAMMOCK, WeightGroup.SUSPENSION)
    strapped = heron.add(WeightGroup.HAMMOCK, WeightGroup.SUSPENSION, WeightGroup.STRAPS)
    packed = heron.add(carried=False)
    for total, said in ((hung, 0.223), (strapped, 0.2645), (packed, 0.281)):
        assert total.mass == pytest.approx(said, rel=0.15)
    assert packed.mass < 10 * OUNCE
    assert not heron.unweighed


def test_two_straps_of_six_feet_at_six_grams_a_foot_weigh_72_g(tmp_path):
    """Common practice, no source."""
    (tmp_path / "own.toml").write_text(
        '[webbing."six"]\nbase = "polyester 1 in, 17.7 g/m"\nsource = "a scale"\nstatus = "seen"\nlinear_mass = "6 g/ft"\n',
        encoding="utf-8",
    )
    text = change(
        HERON,
        ('strap = "UHMWPE/polyester 1 in"', 'strap = "six"'),
        ('strap_length = "1.40 m"', 'strap_length = "6 ft"'),
        ('tail = "13 cm"', 'tail = "0 cm"'),
        ('line_length = "0.75 m"', 'line_length = "1.20 m"'),
        ("[body]", '[materials]\nfiles = ["own.toml"]\n\n[body]'),
    )
    straps = weigh_design(read_text(tmp_path, text)).add(WeightGroup.STRAPS)
    assert straps == pytest.approx((0.072, 0.072, 0.072), rel=1e-9)


def test_inch_straps_of_polyester_run_from_5_4_to_10_grams_a_foot():
    """Common practice, no source."""
    straps = [LIBRARY.find(Webbing, name) for name in LIBRARY.names("webbing")]
    inch = [strap for strap in straps if strap.kind == "polyester" and strap.width == pytest.approx(0.0254)]
    assert len(inch) >= 3
    assert all(5.4e-3 * 0.999 <= strap.linear_mass * FOOT <= 10e-3 * 1.001 for strap in inch)


def test_cloth_and_hems_by_hand(tmp_path):
    """A trapezoid less two parabolic segments of two thirds of chord times depth; extensions sewn on, without openings."""
    design = read_text(tmp_path, drop_table(drop_table(THIN, "head_extension"), "foot_extension"))
    scales = weigh_design(design)
    found, cloth = list_masses(scales), 1.1 * OUNCE / 0.9144**2  # oz/yd2: NIST SP 811 B.8
    area = 2.10 * (1.22 + 1.14) / 2 - 2 * (2 / 3) * 2.10 * 0.15
    assert found["body"] == pytest.approx(cloth * area, rel=1e-9)
    # legs of 0.70 m over bars of 0.90 and 0.70 m; the sides of an extension lie along them, 3 cm turned in, the far edges
    # are the widths scaled by 1 - s / R, 12 mm turned in; corners and bends come to less than a tenth of that
    reach = [sqrt(0.70**2 - (bar / 2) ** 2) for bar in (0.90, 0.70)]
    sides = 2 * 0.70 * (0.20 / reach[0] + 0.15 / reach[1])
    far = 1.22 * (1 - 0.20 / reach[0]) + 1.14 * (1 - 0.15 / reach[1])
    assert found["hems at both ends"] == pytest.approx(cloth * (sides * 0.03 + far * 0.012), rel=0.1)
    edges = sides + far
    edge = draw_outline(design.hammock.body).left
    length = 2 * edge.length
    # each as long as the middle of its channel, 9 mm inside the edge, and 3 cm at both ends
    strips = length + 2 * (0.009 * sum(find_corner_angles(edge)) + 2 * 0.03)
    assert found["channel strips"] == pytest.approx(0.045 * 0.085 * strips, rel=1e-9)
    # 12 mm to sew the extensions on, from one cut long side to the other: 18 mm beyond the edge, drawn on straight
    corners = [0.012 / 2 * (0.018 + 0.012 * sin(a)) / cos(a) for a in find_corner_angles(edge)]
    body = 0.012 * (1.22 + 1.14) + 2 * sum(corners)
    (head, foot) = (p for p in draft_pieces(design).pieces if p.name.endswith("extension"))
    seams = body + sum(piece.measure_allowances(Treatment.SEAM) for piece in (head, foot))
    assert found["seam allowances"] == pytest.approx(cloth * seams, rel=5e-5)
    # 70 tex, one row over the whole edge; 45 tex, one row over all hems: 2.5 to 3 times as long
    (lock,) = (w for w in scales.weights if w.part == "thread through the cords")
    assert 2.5 * 70e-6 * length < lock.mass < 3.0 * 70e-6 * length
    assert 2.5 * 45e-6 * edges < found["thread of the hems"] < 3.0 * 45e-6 * edges
    assert lock.limits == pytest.approx((2.5 * 64e-6 * length, 3.0 * 77e-6 * length))


@pytest.mark.parametrize("name", NAMES)
def test_cloth_of_the_channels_is_that_of_their_cross_section(designs, scales, name):
    """Two routes: pieces as cut, and the lengths of all layers across the fold times the edge, bends and ends by hand.

    Cut at a beyond an edge that turns inward by t, cloth is a * t / 2 shorter than the edge; it is drawn on straight to
    the cut of the end, s beyond it: (s + a sin) / cos, and half of that is the channel's.
    """
    design, found = designs[name], list_masses(scales[name])
    body, fold = design.hammock.body, design.workmanship.fold
    section = cut_fold(fold, body.layers, design.hammock.channel.cord.diameter)
    outline = draw_outline(body)
    mass = section.find_mass(body.fabric, fold.strip.fabric if fold.strip else None)
    expected, a = mass * (outline.left.length + outline.right.length), section.body_allowance
    for edge in (outline.left, outline.right):
        angles = find_corner_angles(edge)
        ends, rules = design.hammock.ends, design.workmanship.cutting
        sewn_on = [rules.allowance if end.bar.extension.darts else 0.0 for end in ends]  # a narrow hem at the openings
        beyond = [(s + a * sin(angle)) / cos(angle) for s, angle in zip(sewn_on, angles, strict=True)]
        expected += body.layers * body.fabric.areal_mass * a / 2 * (sum(beyond) - a * sum(angles))
        if fold.strip is not None:
            more = fold.width / 2 * sum(angles) + 2 * 0.03
            expected += fold.strip.fabric.areal_mass * fold.strip.width * more
    assert found["body cloth in the channels"] + found.get("channel strips", 0.0) == pytest.approx(expected, rel=1e-5)


def test_cords_reach_round_their_ends(scales):
    """Finished length, both buries and tails; 2.6 g/m. A line of its own goes once round its tree."""
    heron, larch = list_masses(scales["heron_ford"]), list_masses(scales["larch_ridge"])
    assert heron["left head leg"] == pytest.approx(2.6e-3 * (0.70 + 0.15 + 0.03 + 0.30 + 0.36), rel=1e-9)
    assert heron["foot line"] == pytest.approx(2.6e-3 * (0.75 - 0.35 + 0.15 + 0.03 + 0.15 + 0.05), rel=1e-9)
    assert heron["head strap"] == pytest.approx(13e-3 * (1.40 + 2 * 0.13), rel=1e-9)
    assert larch["head line"] == pytest.approx(25e-3 * (0.80 + 1.10 + 0.14 + 0.19), rel=1e-9)


def test_plates_bars_and_extras_by_hand(scales):
    found = list_masses(scales["heron_ford"])
    density = 0.098 * 0.45359237 / 0.0254**3  # lb/in3: NIST SP 811 B.8
    sheet = 0.025 * 0.042 - pi / 4 * (0.008**2 + 2 * 0.006**2)
    assert found["corner plates"] == pytest.approx(4 * sheet * 0.0254 / 8 * density, rel=1e-9)
    assert found["head bar, part 2"] == pytest.approx(694 * pi / 4 * 0.0158**2 * 0.115, rel=1e-9)
    assert found["apex ring"] == pytest.approx(2 * 7.4e-3)
    carried = [w.part for w in scales["heron_ford"].weights if w.carried]
    assert carried == ["head bar, part 1", "foot bar, part 1"]


def test_what_was_weighed_has_no_range(tmp_path):
    text = change(HERON, ('section = "walking-pole section 7075-T6 18 x 1 mm"', 'section = "walking-pole section carbon 16 x 1.2 mm"\nweighed = "210 g"'), ('diameter = "15.8 mm"', 'diameter = "13.6 mm"'))  # fmt: skip
    (pole,) = (w for w in weigh_design(read_text(tmp_path, text)).weights if w.part == "head bar, part 1")
    assert (pole.mass, *pole.limits, pole.basis) == (*[pytest.approx(0.21)] * 3, "stated")


@pytest.mark.parametrize("name", NAMES)
def test_sums_add_up_and_lie_in_their_range(designs, scales, name):
    one, told = scales[name], encode(record_scales(scales[name]))
    assert sum(told["groups_kg"].values()) + told["carried_anyway_kg"] == pytest.approx(told["total_kg"], rel=1e-12)
    assert told["packed_kg"] + told["carried_anyway_kg"] == pytest.approx(told["total_kg"], rel=1e-12)
    assert told["total_least_kg"] < told["total_kg"] < told["total_most_kg"]
    for weight in one.weights:
        assert weight.limits[0] - 1e-15 <= weight.mass <= weight.limits[1] + 1e-15, weight.part
    # what the structure carries is all there, and only seams, ends and hardware come on top
    found = list_masses(one)
    for part in list_parts(designs[name].hammock):
        assert found[title_part(part.name)] >= part.mass * (1 - 1e-12), part.name


def test_range_is_that_of_the_sources(scales):
    """A maximum of a specification has nothing above it: 34 to 37.3 g/m2."""
    (body,) = (w for w in scales["larch_ridge"].weights if w.part == "body")
    assert body.limits[0] / body.mass == pytest.approx(34 / 37.3, rel=1e-3)
    assert body.limits[1] == pytest.approx(body.mass, rel=1e-3)
    assert body.basis == "second hand"


def test_second_layer_doubles_what_is_cut_from_it(tmp_path, scales):
    twice = list_masses(weigh_design(read_text(tmp_path, change(LARCH, ("layers = 1", "layers = 2")))))
    once = list_masses(scales["larch_ridge"])
    for part in ("body", "hems at both ends", "body cloth in the channels"):
        assert twice[part] == pytest.approx(2 * once[part], rel=1e-9), part
    assert twice["thread of the channels"] == once["thread of the channels"]


@pytest.mark.parametrize(
    ("table", "part", "key"),
    [
        ("channel.fold", "channels", "[channel.fold]"),
        ("channel.lock", "stitching through the cord", "[channel.lock]"),
        ("body.hem", "seams of the hems", "[body.hem]"),
        ("ends.side_cord", "side cord ends", "[ends.side_cord]"),
        ("ends.line_at_tree", "straps round the trees", "[trees]"),
        ("trees", "straps round the trees", "[trees]"),
        ("corner", "corners", "[corner]"),
        ("[extra]", "rings, tips of bars, bags, other cords", "[[extra]]"),
    ],
)
def test_what_is_not_told_is_named_and_not_guessed(tmp_path, scales, table, part, key):
    bare = weigh_design(read_text(tmp_path, drop_table(LARCH, table)))
    assert key in list_untold(bare)[part]
    assert part not in list_untold(scales["larch_ridge"])
    lighter = bare.add().mass < scales["larch_ridge"].add().mass
    assert lighter or table in ("corner", "body.hem")  # eyes over the tip weigh nothing by themselves
    assert scales["larch_ridge"].unweighed == ()


def test_hem_that_is_not_told_is_a_judgement_of_3_cm(tmp_path):
    bare = weigh_design(read_text(tmp_path, drop_table(LARCH, "body.hem")))
    (hem,) = (w for w in bare.weights if w.part == "hems at both ends")
    assert hem.basis == "judgement"
    # at its ends it reaches to the cut of the channels, 36.9 mm beyond their edge, mirrored about its folds
    larch = read_text(tmp_path, LARCH)
    fold = cut_fold(larch.workmanship.fold, 1, 0.002).body_allowance
    angles = find_corner_angles(draw_outline(larch.hammock.body).left)
    ends = sum(fold * 0.03 / cos(angle) - tan(angle) * 0.03**2 / 4 for angle in angles)
    assert hem.amount.value == pytest.approx(0.03 * (1.20 + 1.08) + 2 * ends, rel=1e-4)


@pytest.mark.parametrize(
    ("old", "new", "part", "key"),
    [
        ('strip_rows = 1\n', "", "seams of the strips", "strip_rows"),
        ('length = "42 mm"\n', "", "corner plates", "length to [corner]"),
        ('tail = "36 cm"\n', "", "leg ends at the apexes", "tail to [ends.leg_at_apex]"),
        ('strap = "UHMWPE/polyester 1 in"', "", "straps round the trees", "strap"),
    ],
)  # fmt: skip
def test_half_told_parts_are_named(tmp_path, old, new, part, key):
    text = change(HERON, (old, new))
    if "strap" in old and "rows" not in old:
        text = drop_table(
            change(text, ('strap_length = "1.40 m"\n', ""), ('hitch = "girth hitch"\n', "")), "ends.strap"
        )
    assert key in list_untold(weigh_design(read_text(tmp_path, text)))[part]


def test_cord_that_runs_on_has_no_end_to_weigh(tmp_path):
    start, end = LARCH.index("[ends.side_cord]"), LARCH.index("[ends.leg_at_apex]")
    on = '[ends.side_cord]\nmade = "runs on"\n\n[ends.leg_at_corner]\nmade = "runs on"\n\n'
    found = weigh_design(read_text(tmp_path, LARCH[:start] + on + LARCH[end:]))
    assert found.unweighed == ()
    cord = draw_outline(read_design(HOME / "larch_ridge.toml").hammock.body).left.length
    assert list_masses(found)["left side cord"] == pytest.approx(2.6e-3 * cord, rel=1e-9)


def test_lock_thread_follows_how_the_cord_is_held(designs):
    design, found = designs["larch_ridge"], {}
    for attachment in Attachment:
        channel = replace(design.hammock.channel, attachment=attachment, lock_length=0.2)
        lock = design.workmanship.lock if attachment is not Attachment.FREE else None
        work = replace(design.workmanship, lock=lock)
        changed = replace(design, hammock=replace(design.hammock, channel=channel), workmanship=work)
        found[attachment] = list_masses(weigh_design(changed)).get("thread through the cords")
        assert weigh_design(changed).unweighed == ()
    assert found[Attachment.FREE] is None
    edge = 2 * draw_outline(design.hammock.body).left.length
    assert found[Attachment.LOCKED] / found[Attachment.SEWN] == pytest.approx(4 * 0.2 / edge)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("units", ["metric", "imperial", "both"])
def test_table_fits_a_terminal_and_has_the_units_asked_for(scales, name, units):
    outcome = CliRunner().invoke(main, ["weigh", str(HOME / f"{name}.toml"), "--units", units])
    assert outcome.exit_code == 0
    lines = outcome.stdout.splitlines()
    assert max(map(len, lines)) <= 80
    total = scales[name].add().mass
    row = next(line.split() for line in reversed(lines) if line.startswith("total  "))[1:]
    shown = {"metric": f"{total * 1e3:.1f}", "imperial": f"{total / OUNCE:.2f}"}
    assert row == ([shown[units]] if units != "both" else list(shown.values()))
    amounts = [re.split(r"  +", line)[2] for line in lines if re.match(r"(body|\d x side cord)  ", line)]
    assert all(re.search(r"(ft2?|in)$" if units == "imperial" else r"(m2?|cm)$", amount) for amount in amounts)
    assert len(amounts) == 2


def test_carried_anyway_is_told_apart():
    text = " ".join(CliRunner().invoke(main, ["weigh", str(HOME / "heron_ford.toml")]).stdout.split())
    assert "with bars, pack weight" in text
    assert text.index("with bars, pack weight") < text.index("dual-use 203")


def test_json_keeps_every_part_with_its_steps(tmp_path, scales):
    target = tmp_path / "weights.json"
    outcome = CliRunner().invoke(main, ["weigh", str(HOME / "heron_ford.toml"), "--json", str(target)])
    assert outcome.exit_code == 0
    told = json.loads(target.read_text(encoding="utf-8"))
    assert told["design"]["name"] == "Heron Ford"
    assert told["total_kg"] == scales["heron_ford"].add().mass
    assert sum(row["mass_kg"] for row in told["weighed"]) == pytest.approx(told["total_kg"])
    (leg,) = (row for row in told["weighed"] if row["part"] == "left head leg")
    assert [step["text"] for step in leg["amount_from"]][1:] == [
        "spliced eye: bury of 15.0 cm, tail of 3.00 cm",
        "adjustable splice: bury of 30.0 cm, tail of 36.0 cm",
    ]


def test_result_and_terminal_of_solve_tell_the_weight(solved_larch, scales):
    weights = solved_larch.summary["weights"]
    assert weights["total_kg"] == scales["larch_ridge"].add().mass
    assert weights["hammock_kg"] < weights["total_kg"]  # the structure carries no seams
    assert json.loads(json.dumps(weights))["weighed"][0]["part"] == "body"


def test_weighing_loads_nothing_that_draws_or_solves():
    script = (
        "import sys; from tautlay.cases import read_design, weigh_design;"
        f"weigh_design(read_design({str(HOME / 'larch_ridge.toml')!r}));"
        "print([m for m in ('pyvista', 'matplotlib', 'meshio', 'tautlay.cases.solving.solution') if m in sys.modules])"
    )
    found = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert found.stdout.strip() == "[]"


@pytest.mark.parametrize(
    ("text", "table", "old", "new", "words"),
    [
        (LARCH, "[[extra]]", 'mass = "7.4 g"', 'mass = "7.4"', "needs a unit"),
        (LARCH, "[[extra]]", 'group = "suspension"', 'group = "cords"', "Choose hammock, suspension, straps or bars"),
        (LARCH, "[body.hem]", 'allowance = "3 cm"', "", "missing"),
        (LARCH, "[channel.fold]", "folds = 2", "folds = 2\nstrip_rows = 1", "has no effect without a strip"),
        (LARCH, "[corner]", 'made = "loop"', 'made = "loop"\nlength = "4 cm"', "does not belong to a corner made as a loop"),
        (HERON, "[corner]", 'length = "42 mm"', 'length = "22 mm"', "is too short: tip_edge and cord_edge"),
    ],
)  # fmt: skip
def test_faults_of_the_new_keys_are_said_in_a_sentence(tmp_path, text, table, old, new, words):
    start = text.index(table)
    (tmp_path / "a.toml").write_text(text[:start] + change(text[start:], (old, new)), encoding="utf-8")
    outcome = CliRunner().invoke(main, ["weigh", str(tmp_path / "a.toml")])
    assert outcome.exit_code == 2
    assert words in " ".join(outcome.output.split())
