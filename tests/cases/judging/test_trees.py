"""Straps of their own, trees, and what land managers ask for."""

from dataclasses import replace
from importlib.resources import files
from math import pi
from pathlib import Path

import numpy as np
import pytest

from tautlay.cases import DesignError, read_design, solve_case
from tautlay.cases.judging.checks import Case, list_checks
from tautlay.cases.judging.tree_notes import note_trees
from tautlay.hammock.suspension_line import compose_line
from tautlay.making import CordTermination, Hitch, Rigging, TerminationType, Tree, TreeStrap, Workmanship
from tautlay.materials import Cord, Webbing, read_library

LARCH = Path(str(files("tautlay.cases"))) / "larch_ridge.toml"
LIBRARY = read_library()
WEBBING, CORD = LIBRARY.find(Webbing, "polyester 1 in, 25 g/m"), LIBRARY.find(Cord, "12-strand UHMWPE 2.5 mm")
TREE = Tree(1.1, TreeStrap(WEBBING, 1.5, Hitch.GIRTH))


def change(design, **changes):
    return design.hang(design.hammock.suspension.change(changes))


@pytest.fixture(scope="module")
def design():
    return read_design(LARCH)


@pytest.fixture(scope="module")
def strapped(design):
    return solve_case(change(design, line=CORD, tree=TREE), mesh_size=0.12, hot_spots=False)


def test_strap_of_the_line_s_own_webbing_changes_nothing(design, solved_larch):
    """A choked strap of the same webbing is the same line."""
    same = solve_case(change(design, tree=TREE), mesh_size=0.12, hot_spots=False)
    for key, force in solved_larch.summary["forces"].items():
        assert same.summary["forces"][key] == pytest.approx(force, rel=1e-6)


def test_trees_without_a_strap_change_nothing(design):
    bare = change(design, tree=None).hammock.suspension
    assert compose_line(bare.head) == compose_line(design.hammock.suspension.head)


def test_cord_and_strap_give_one_after_the_other(strapped):
    """Springs in series: T (l / EA cord + l / EA strap)."""
    tension = strapped.summary["forces"]["head_line_N"]
    by_hand = tension * (0.4 / CORD.ea + 0.4 / WEBBING.ea)
    assert strapped.summary["stretch"]["head line"]["elastic_m"] == pytest.approx(by_hand, rel=1e-6)
    head, apex = (strapped.state.positions[strapped.model.nodes[f"head {place}"][0]] for place in ("tree", "apex"))
    assert np.linalg.norm(head - apex) == pytest.approx(0.8 + by_hand, abs=1e-6)


def test_strap_only_where_the_tree_needs_it_is_lighter(strapped, solved_larch):
    parts = strapped.summary["weights"]["parts_kg"]
    assert parts["head line"] == pytest.approx(0.4 * CORD.linear_mass)
    assert parts["head strap"] == pytest.approx(1.5 * WEBBING.linear_mass)
    line = strapped.model.elements["head line"]
    hung = float(line.linear_mass[0] * line.rest_length[0])
    assert hung == pytest.approx(0.4 * CORD.linear_mass + 0.4 * WEBBING.linear_mass)


def test_trees_carry_the_weight_and_feel_the_moment_about_their_axis(solved_larch):
    summary = solved_larch.summary
    down = sum(-summary["anchors"][f"{end}_tree_N"][2] for end in ("head", "foot"))
    weight = 9.80665 * (summary["weights"]["person_kg"] + summary["weights"]["hammock_kg"])
    assert down == pytest.approx(weight, rel=1e-3)
    for end in ("head", "foot"):
        tree = summary["trees"][end]
        pulled_down = -summary["anchors"][f"{end}_tree_N"][2]
        about_the_axis = tree["sideways_pull_N"] * 1.8 + pulled_down * 1.1 / (2 * pi)
        assert tree["moment_at_ground_N_m"] == pytest.approx(about_the_axis)
        assert tree["pull_N"] == pytest.approx(summary["forces"][f"{end}_line_N"], rel=1e-3)
        assert tree["diameter_m"] == pytest.approx(1.1 / pi)


def find(result, tree=TREE, strap=TerminationType.SEWN):
    model = result.model
    suspension = model.hammock.suspension.change({"tree": tree})
    model = replace(model, hammock=replace(model.hammock, suspension=suspension))
    good = CordTermination(TerminationType.SPLICE, bury=0.2, over=0.01, coated=True)
    rigging = Rigging(side_cord=good, leg_at_corner=good, leg_at_apex=good, line_at_apex=good, line_at_tree=good)
    rigging = replace(rigging, strap=CordTermination(strap) if strap else None)
    work = Workmanship(head_rigging=rigging, foot_rigging=rigging)
    return list_checks(Case(model, result.state, result.forces, work))


@pytest.mark.parametrize(
    ("hitch", "strap", "mechanism"),
    [
        (Hitch.GIRTH, TerminationType.SEWN, "hitch breaks"),
        (Hitch.BASKET, TerminationType.SEWN, "sewn loop breaks"),
        (Hitch.BASKET, TerminationType.WATER_KNOT, "knot breaks"),
    ],
)
def test_weak_strap_is_named_first(strapped, hitch, strap, mechanism):
    weak = replace(WEBBING, breaking_load=2000.0)
    first = find(strapped, Tree(1.1, TreeStrap(weak, 1.5, hitch)), strap).checks[0]
    assert (first.part, first.mechanism, first.passed) == ("head strap", mechanism, False)


def test_two_strands_carry_less_than_one(strapped):
    choked = next(c for c in find(strapped).checks if c.mechanism == "hitch breaks")
    basket = find(strapped, Tree(1.1, TreeStrap(WEBBING, 1.5, Hitch.BASKET)))
    strand = next(c for c in basket.checks if c.part == "head strap" and c.mechanism == "breaks")
    assert choked.demand == strapped.summary["forces"]["head_line_N"]
    assert 0.5 * choked.demand < strand.demand < 0.6 * choked.demand
    assert choked.capacity.value == pytest.approx(0.7 * WEBBING.breaking_load)  # 0.7 to 0.8: sling practice, memory


def test_untold_trees_and_strap_ends_are_not_checked(strapped):
    assert any("[trees]" in each.reason for each in find(strapped, None).unchecked)
    assert any("[ends.strap]" in each.reason for each in find(strapped, strap=None).unchecked)


def test_land_managers_are_quoted(design):
    """305 mm, 1 to 2 in, 1.83 m: Three Rivers Park District; Hutchinson MN; City of Madison."""
    suspension = design.hammock.suspension
    wide = replace(WEBBING, width=0.0508)
    suspension = suspension.change({"line": wide})
    assert note_trees(suspension) == []
    for head, foot, words in (
        ({"tree": Tree(0.8)}, {}, "The head tree is 25.5 cm thick"),
        ({}, {"strap_height": 1.9}, "The foot strap is 190 cm"),
        ({"line": replace(WEBBING, width=0.02)}, None, "Some parks require 25.4 mm"),
        ({"line": WEBBING}, None, "Some parks require 5.08 cm"),
        ({"line": CORD}, None, "forbid rope"),
        ({}, {"line": CORD}, "At the foot: A cord goes round the tree"),
    ):
        notes = note_trees(suspension.change(head, foot))
        assert len(notes) == 1
        assert words in notes[0]


STRAP = 'strap = "polyester 1 in, 25 g/m"\nstrap_length = "1.5 m"\nhitch = "basket"\n'


@pytest.mark.parametrize(
    ("new", "sentence"),
    [
        (STRAP, None),
        (STRAP.replace("1.5 m", "1.1 m"), "is too short for the head tree of 110.0 cm"),
        (STRAP.replace("1.5 m", "4 m"), "more than the whole line of 80.00 cm"),
        ('hitch = "basket"\n', "trees.strap is missing: name of the strap in the library"),
        (STRAP.replace("basket", "bucket"), "Did you mean basket?"),
        ('head_girth = "1 m"\n', "trees.head_girth conflicts with girth"),
        (STRAP.replace("polyester 1 in, 25 g/m", "12-strand UHMWPE 2 mm"), "is not a webbing in the library"),
    ],
)  # fmt: skip
def test_faults_of_trees_are_plain_sentences(tmp_path, new, sentence):
    text = LARCH.read_text(encoding="utf-8").replace('girth = "1.10 m"\n', f'girth = "1.10 m"\n{new}')
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    if sentence is None:
        assert read_design(tmp_path / "a.toml").hammock.suspension.foot.strap.length == 1.5
        return
    with pytest.raises(DesignError) as caught:
        read_design(tmp_path / "a.toml")
    assert sentence in str(caught.value)


def test_ends_of_a_strap_that_is_not_there_are_refused(tmp_path):
    text = LARCH.read_text(encoding="utf-8").replace("[person]", '[ends.strap]\nmade = "sewn loop"\n\n[person]')
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    with pytest.raises(DesignError, match="without a separate strap"):
        read_design(tmp_path / "a.toml")
