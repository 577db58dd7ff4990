"""Ends, corners and parts that contradict what they belong to are refused with a plain sentence."""

from math import nan
from pathlib import Path

import pytest

from tautlay.cases import read_design
from tautlay.cases.judging.checks import Check
from tautlay.making import FACTORS, Capacity, CapacityStep

from ._design_issues import list_faults

CASES = Path(__file__).parents[3] / "cases"
LARCH, HERON = ((CASES / f"{name}.toml").read_text(encoding="utf-8") for name in ("larch_ridge", "heron_ford"))
BURY_AT_CORNER = '[ends.leg_at_corner]\nmade = "spliced eye"\nbury = "15 cm"'
EYE = 'made = "spliced eye"\nbury = "15 cm"\ncoated = true\nlocked = true'
HITCH = '# The strap is choked round the trunk through its own loop.\nmade = "girth hitch"'


@pytest.mark.parametrize(
    ("text", "old", "new", "key", "words"),
    [
        # 70 cm of leg cannot hold 41 and 30 cm; 2.02 m and a curve of cord cannot hold 1.1 m twice
        (LARCH, BURY_AT_CORNER, BURY_AT_CORNER.replace("15", "41"), "leg_at_corner.bury", "71.0"),
        (LARCH, 'bury = "15 cm"', 'bury = "1.1 m"', "side_cord.bury", "220.0 cm"),
        # of 75 cm of line the strap of 1.40 m takes 35 round a trunk of 1.05 m, which leaves 40 for 15 and 26
        (HERON, EYE + '\n# On the loop', EYE.replace("15", "26") + '\n# On the loop', "line_at_tree.bury", "40.00 cm"),
        (LARCH, 'corner_length = "4 cm"', 'corner_length = "0 cm"', "corner_length", "2.50 mm"),
        (LARCH, HITCH, 'made = "runs on"', "line_at_tree.made", "nothing follows"),
        (LARCH, 'made = "sewn loop"', 'made = "runs on"', "line_at_apex.made", "nothing follows"),
        (HERON, 'made = "sewn loop"', 'made = "runs on"', "strap.made", "nothing follows"),
        (HERON, 'cord_hole = "6 mm"', 'cord_hole = "1.9 mm"', "corner.cord_hole", "does not fit the cord hole"),
        (LARCH, 'tip = "10 mm"', 'tip = "10 cm"', "corner.tip", "6.00 cm"),
        (HERON, "carried = true", 'carried = true\nweighed = "25 g"', "part.1.weighed", "section and length give"),
    ],
)  # fmt: skip
def test_contradiction_is_refused(tmp_path, text, old, new, key, words):
    assert old in text
    faults = list_faults(tmp_path, text.replace(old, new, 1))
    assert all(fault.line for fault in faults)
    keys = [part for fault in faults for part in fault.key.split(" and ")]
    assert any(part.endswith(key) for part in keys), [str(fault) for fault in faults]
    assert any(words in fault.message for fault in faults), [str(fault) for fault in faults]


def replace_ends(text, **made):
    """Return a design in which these ends are made so, and nothing more is told of them."""
    for key, method in made.items():
        before, _, after = text.partition(f"[ends.{key}]\n")
        text = f'{before}[ends.{key}]\nmade = "{method}"\n\n[{after.partition(chr(10) + "[")[2]}'
    return text


def test_cord_that_runs_on_as_a_leg_is_one_piece(tmp_path):
    path = tmp_path / "a.toml"
    path.write_text(replace_ends(LARCH, side_cord="runs on", leg_at_corner="runs on"), encoding="utf-8")
    assert read_design(path)
    (fault,) = list_faults(tmp_path, replace_ends(LARCH, side_cord="runs on"))
    assert fault.key == "ends.leg_at_corner.made"
    other = LARCH.replace('leg = "12-strand UHMWPE 2 mm"', 'leg = "nylon parachute cord type III"')
    (fault,) = list_faults(tmp_path, replace_ends(other, side_cord="runs on", leg_at_corner="runs on"))
    assert "differ" in fault.message


def test_lock_longer_than_half_the_edge_is_refused(tmp_path):
    """The edge of 1.90 m of cloth with an arc of 17 cm is 1.94 m long: two locks of 99 cm do not fit."""
    text = LARCH.replace('length = "2.02 m"', 'length = "1.90 m"')
    (fault,) = list_faults(tmp_path, text.replace('corner_length = "4 cm"', 'corner_length = "99 cm"'))
    assert fault.key == "channel.lock.corner_length"


@pytest.mark.parametrize(("demand", "bears"), [(nan, 1.0), (1.0, nan)])
def test_no_check_passes_or_fails_without_a_number(demand, bears):
    capacity = Capacity(bears, "force", (CapacityStep("breaking load", "invented", "judgement"),))
    with pytest.raises(ValueError, match="cannot be compared"):
        Check("left head leg", "breaks", demand, capacity, FACTORS["cord"])
