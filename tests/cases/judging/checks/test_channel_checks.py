"""Which part of a channel gives way first, and what is said of channels that are not told."""

import dataclasses
from math import cos, hypot, radians, sin
from pathlib import Path

import pytest

from tautlay.cases import read_design, solve_case
from tautlay.cases.judging.checks import Case, list_checks
from tautlay.cases.judging.cloth.channel_load import find_channel_load
from tautlay.hammock import measure_body

CASES = Path(__file__).parents[4] / "cases"
LARCH = (CASES / "larch_ridge.toml").read_text(encoding="utf-8")
OTTER = (CASES / "otter_creek.toml").read_text(encoding="utf-8")
MECHANISMS = {"seam opens", "cloth tears at seam", "cord cuts the fold", "cord stitching tears"}

MATERIALS = """
[thread."rotten"]
base = "spun polyester 27 tex"
source = "invented"
status = "memory"
breaking_load = "1 N"

[fabric."gauze"]
base = "ripstop nylon 37 g/m2"
source = "invented"
status = "memory"
strength_warp = "4 N/mm"
strength_weft = "0.9 N/mm"
"""


@pytest.fixture(scope="module")
def shapes():
    """One solved shape for each way to hold the cord; how it is sewn does not change it."""
    return {}


def read_text(folder, text):
    (folder / "weak.toml").write_text(MATERIALS, encoding="utf-8")
    (folder / "a.toml").write_text(text.replace("[body]", '[materials]\nfiles = ["weak.toml"]\n\n[body]', 1), "utf-8")
    return read_design(folder / "a.toml")


def find_findings(folder, shapes, text):
    design = read_text(folder, text)
    held = (design.hammock.channel.attachment, design.hammock.body.length)
    if held not in shapes:
        shapes[held] = solve_case(design, mesh_size=0.1, hot_spots=False)
    found = shapes[held]
    model = dataclasses.replace(found.model, hammock=design.hammock)
    return list_checks(Case(model, found.state, found.forces, design.workmanship))


def change(text, old, new, count=1):
    assert text.count(old) >= 1, old
    return text.replace(old, new, count)


def drop_table(text, name):
    start = text.index(f"[{name}]")
    return text[:start] + text[text.index("\n[", start + 1) + 1 :]


STRIP = 'strip = "gauze"\nstrip_width = "5 cm"\nstrip_inset = "14 mm"\nfolds = 1'


@pytest.mark.parametrize(
    ("changes", "title"),
    [
        ([('thread = "nylon size B"', 'thread = "rotten"')], "channel, seam opens"),
        (
            [('stitch_length = "3 mm"', 'stitch_length = "12 mm"'), ("rows = 2", "rows = 1"), ('"nylon size B"', '"spun polyester 27 tex"'), ("[channel.lock]", 'seam_efficiency = "100 %"\n[channel.lock]')],
            "channel, seam opens",
        ),
        ([('fabric = "ripstop nylon 37 g/m2"', 'fabric = "gauze"')], "channel, cloth tears at seam"),
        ([("folds = 2", STRIP)], "channel, cord cuts the fold"),
        ([('thread = "nylon size E"', 'thread = "rotten"')], "corner, cord stitching tears"),
        ([('corner_length = "4 cm"', 'corner_length = "4 mm"')], "corner, cord stitching tears"),
        ([('thread = "nylon size E"', 'thread = "rotten"'), ('"4 cm"', '"90 cm"')], "channel, cord stitching tears"),
    ],
)  # fmt: skip
def test_what_is_weak_is_named_first_to_fail(tmp_path, shapes, changes, title):
    text = drop_table(LARCH, "body.hem")  # its hems are sewn with the same thread
    for old, new in changes:
        text = change(text, old, new)
    first = find_findings(tmp_path, shapes, text).checks[0]
    assert first.title.partition(" ")[2].removeprefix("head ").removeprefix("foot ") == title
    assert not first.passed or "spun" in text


def test_grain_decides_what_cloth_tears(tmp_path, shapes):
    """Cloth strong along and weak across bears more once its warp runs across the body."""
    weak = change(LARCH, 'fabric = "ripstop nylon 37 g/m2"', 'fabric = "gauze"')
    bears = []
    for grain in ("0 deg", "90 deg"):
        checks = find_findings(tmp_path, shapes, change(weak, 'grain = "0 deg"', f'grain = "{grain}"')).checks
        bears.append(min(c.capacity.value for c in checks if c.mechanism == "cloth tears at seam"))
    # the edge and its pull lean by no more than 25 degrees; 4 and 0.9 N/mm, wet and with a seam
    leaning = [1 / hypot(cos(radians(a)) / 4000, sin(radians(a)) / 900) for a in (90 - 25, 25)]
    assert 0.85 * 0.7 * 900 <= bears[0] < 0.85 * 0.7 * leaning[0]
    assert 0.85 * 0.7 * leaning[1] < bears[1] <= 0.85 * 0.7 * 4000


def test_every_channel_and_corner_is_checked(tmp_path, shapes):
    for text in (LARCH, OTTER):
        found = find_findings(tmp_path, shapes, text)
        for side in ("left", "right"):
            assert {c.mechanism for c in found.checks if c.part == f"{side} channel"} == MECHANISMS
            for end in ("head", "foot"):
                (corner,) = (c for c in found.checks if c.part == f"{side} {end} corner" and "stitch" in c.mechanism)
                assert (corner.mechanism, corner.asked.kind) == ("cord stitching tears", "seam")
        assert not any(each.part in ("channels", "corners") for each in found.unchecked)
        assert all(len(c.part) <= 18 and len(c.mechanism) <= 24 for c in found.checks)


def test_what_the_design_does_not_tell_is_not_checked(tmp_path, shapes):
    bare = drop_table(drop_table(LARCH, "channel.fold"), "channel.lock")
    found = find_findings(tmp_path, shapes, bare)
    reasons = {each.part: each.reason for each in found.unchecked}
    assert "[channel.fold]" in reasons["channels"]
    assert "[channel.lock]" in reasons["corners"]
    assert not any("channel" in check.part or "corner" in check.part for check in found.checks)
    short = change(LARCH, 'corner_length = "4 cm"\n', "")
    reasons = {each.part: each.reason for each in find_findings(tmp_path, shapes, short).unchecked}
    assert "corner_length" in reasons["corners"]


def test_sliding_cord_leaves_its_corners_unchecked(tmp_path, shapes):
    text = change(drop_table(LARCH, "channel.lock"), 'attachment = "sewn"', 'attachment = "free"')
    found = find_findings(tmp_path, shapes, text)
    assert any(each.part == "corners" and "slides" in each.reason for each in found.unchecked)
    assert {c.mechanism for c in found.checks if "channel" in c.part} == MECHANISMS - {"cord stitching tears"}


def test_sewn_laminate_asks_for_a_test(tmp_path, shapes):
    text = change(LARCH, 'fabric = "ripstop nylon 37 g/m2"', 'fabric = "UHMWPE laminate 35 g/m2"')
    found = find_findings(tmp_path, shapes, text)
    assert any("seam_efficiency" in each.reason for each in found.unchecked)
    assert not any("at seam" in check.mechanism for check in found.checks)
    told = find_findings(tmp_path, shapes, change(text, "rows = 2", 'rows = 2\nseam_efficiency = "40 %"'))
    assert any("at seam" in check.mechanism for check in told.checks)


def test_summary_tells_loads_corners_and_fold(tmp_path):
    result = solve_case(read_text(tmp_path, LARCH), mesh_size=0.15, hot_spots=False)
    channel = result.summary["channel"]
    load = find_channel_load(result.model, result.state, "left")
    assert channel["left"]["pull_across_most_N_per_m"] == load.average().across.max()
    assert channel["left"]["pull_across_mean_N_per_m"] < channel["left"]["pull_across_most_N_per_m"]
    corner = channel["corners"]["head_left"]
    assert corner["jump_N"] == pytest.approx(abs(corner["leg_N"] - corner["cord_N"]))
    (check,) = (c for c in result.findings.checks if c.part == "left head corner")
    # as long as its stitches need to be for the factor asked
    assert corner["lock_length_needed_m"] * check.margin == pytest.approx(0.04)
    assert (channel["fold"]["layers_pulled"], channel["fold"]["layers_sewn"]) == (1, 3)


@pytest.mark.parametrize("name", ["larch_ridge", "otter_creek", pytest.param("heron_ford", marks=pytest.mark.slow)])
def test_who_sits_across_hangs_on_the_breadth_of_the_hips(name):
    """Statics: where cloth hangs straight down from both channels, each bears half the weight over that breadth, to 10 %."""
    design = read_design(CASES / f"{name}.toml")
    who = design.person
    breadth = measure_body(who.sex, who.stature, who.mass)["sitting hip breadth"]
    channel = solve_case(design, load="sitting", mesh_size=0.06).summary["channel"]
    by_hand = who.mass * 9.80665 / 2 / breadth
    assert channel["left"]["pull_across_most_N_per_m"] == pytest.approx(by_hand, rel=0.1)
