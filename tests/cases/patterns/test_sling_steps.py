"""How slings are made: lengths by hand."""

from math import asin, degrees, pi, sqrt

import pytest

from tautlay.cases import draft_pattern, read_design
from tautlay.cases.patterns.sewing_steps import list_steps
from tautlay.cases.unit_display import write_sentence

from ..._patterns import TEXTS, change

TREES = """[trees]
diameter = "{diameter}"
strap = "polyester 1 in, 25 g/m"
strap_length = "1.25 m"
hitch = "slings"
sling = "12-strand UHMWPE 2.5 mm"
sling_reach = "28 cm"
sling_shortest = "20 cm"
sling_longest = "75 cm"

[ends.sling_at_strap]
made = "spliced eye"
bury = "17 cm"
coated = true
tail = "4 cm"

[ends.sling_at_joint]
made = "adjustable splice"
bury = "27 cm"
coated = true
tail = "30 cm"

[ends.strap]
made = "sewn loop"
tail = "10 cm"
"""


def read_trees(folder, diameter):
    text = change(
        TEXTS["larch_ridge"], ('girth = "1.10 m"\n', ""), ("[trees]\n", TREES.format(diameter=diameter) + "\n")
    )
    (folder / "a.toml").write_text(text, encoding="utf-8")
    return read_design(folder / "a.toml")


def list_words(design):
    steps = list_steps(design, draft_pattern(design).draft)
    return {step.title: " ".join(write_sentence(each, "metric") for each in step.sentences) for step in steps}


def test_slings_are_cut_with_their_ends_and_set_for_the_trunk(tmp_path):
    """Strap and both slings are a basket: L = 2 sqrt(c2 - r2) + r (pi + 2 asin(r / c)), each sling half of the rest."""
    words = list_words(read_trees(tmp_path, "55 cm"))
    r, c = 0.275, 0.275 + 0.28
    sling = (2 * sqrt(c**2 - r**2) + r * (pi + 2 * asin(r / c)) - 1.25) / 2
    said = words["Make the slings of the head strap"]
    assert f"each is {100 * sling:.2f} cm long" in said
    assert f"meet at {2 * degrees(asin(r / c)):.0f} degrees" in said
    assert "each 75.00 cm long from the loop of the strap to the joint" in said
    assert "cut 153.0 cm for each" in said  # 75 + 17 + 4 + 27 + 30
    assert "knot of the joint" in said
    assert words["Make the slings of the foot strap"] == said


def test_round_a_thin_trunk_the_slings_come_off(tmp_path):
    said = list_words(read_trees(tmp_path, "30.6 cm"))["Make the slings of the head strap"]
    assert "through its own loop and take the slings off" in said


@pytest.mark.parametrize("name", ["larch_ridge", "heron_ford"])
def test_straps_without_slings_have_no_such_step(tmp_path, name):
    (tmp_path / "a.toml").write_text(TEXTS[name], encoding="utf-8")
    assert not any("slings" in title for title in list_words(read_design(tmp_path / "a.toml")))
