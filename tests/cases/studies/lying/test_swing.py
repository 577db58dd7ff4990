"""How far hammock and person swing over when the person moves aside."""

import dataclasses
import math
from importlib.resources import files

import numpy as np
import pytest

from tautlay.cases import read_design
from tautlay.cases.judging.checks.uneven_pull import UnevenPull, may_fall_short, measure_uneven_pull
from tautlay.cases.judging.comfort.side_stability import SidePush, SideStability, record_stability
from tautlay.cases.judging.comfort.swing import Swing, measure_turn, swing_by_hand
from tautlay.cases.judging.forces import find_forces
from tautlay.cases.judging.verdict.requirement import Grade
from tautlay.cases.solving.solution import solve_equilibrium
from tautlay.cases.studies.lying.shifted_equilibrium import solve_shifted
from tautlay.cases.studies.lying.side_stability import assess_side_stability
from tautlay.cases.unit_display import write_sentence
from tautlay.making import Factors
from tautlay.meshing import PushWay, SidewaysHold

SHIFT = 0.04


def solve(degrees, size=0.1):
    design = read_design(str(files("tautlay.cases") / "larch_ridge.toml"))
    suspension = dataclasses.replace(design.hammock.suspension, hang_angle=math.radians(degrees))
    design = dataclasses.replace(design, hammock=dataclasses.replace(design.hammock, suspension=suspension))
    return solve_equilibrium(design, load="lying", mesh_size=size, hot_spots=False)


@pytest.fixture(scope="module")
def resting():
    return solve(30)


@pytest.fixture(scope="module")
def pushed(resting):
    return {
        friction: solve_shifted(resting, SHIFT, friction=friction, way=PushWay.CORDS, longest=0.02)
        for friction in (0.0, 0.35)
    }


@pytest.mark.slow
@pytest.mark.parametrize("friction", [0.0, 0.35])
def test_push_leaves_everything_below_the_trees(resting, pushed, friction):
    """Nothing outside takes a moment: all weights together have none about the line through both trees, nor force."""
    held = pushed[friction]
    assert held.end is None
    load, places = held.model.structure.load, held.state.positions
    weight = -load[:, 2].sum()
    assert abs((load[:, 2] * places[:, 1]).sum()) < 1e-4 * weight * SHIFT
    assert abs(load[:, 1].sum()) < 1e-9 * weight
    force = np.zeros_like(places)
    held.model.elements["side push"].add_force(places, force)
    assert np.abs(force.sum(axis=0)).max() < 1e-9 * abs(held.push)
    assert np.abs(np.cross(places, force).sum(axis=0)).max() < 1e-9 * abs(held.push)


def test_push_is_the_slope_of_its_energy_and_blind_to_turning():
    rng = np.random.default_rng(1)
    places = rng.normal(size=(7, 3))
    hold = SidewaysHold(np.array([4, 5, 6]), np.array([0.5, 0.3, 0.2]), np.arange(2), np.arange(2, 4), 50.0, offset=0.1)
    force, way = np.zeros((7, 3)), rng.normal(size=(7, 3))
    hold.add_force(places, force)
    slope = (hold.energy(places + 1e-6 * way) - hold.energy(places - 1e-6 * way)) / 2e-6
    assert slope == pytest.approx(-np.vdot(force, way), rel=1e-6)
    turn, _ = np.linalg.qr(rng.normal(size=(3, 3)))
    assert hold.energy(places @ turn.T + [1.0, 2.0, 3.0]) == pytest.approx(hold.energy(places), rel=1e-9)


@pytest.mark.slow
@pytest.mark.parametrize("friction", [0.0, 0.35])
def test_cords_go_back_and_tilt_towards_the_person(resting, pushed, friction):
    """The centre of mass stays below the apexes: with the lever g between cords and person, s cos t = a + g sin t."""
    held = pushed[friction]
    swing = measure_turn(held.model, held.state.positions)
    assert swing.tilt > 0.0 > swing.aside
    frame, places = held.model.frame, held.state.positions
    body = places[[held.model.nodes[f"person {name}"][0] for name in frame.names]]
    centre = frame.masses @ body / frame.masses.sum()
    assert centre[1] == pytest.approx(0.0, abs=2e-4)  # the hammock's own weight swings back a little
    left, right = (places[held.model.nodes[f"{side} edge"]].mean(axis=0) for side in ("left", "right"))
    along = (left - right) / np.linalg.norm(left - right)
    assert (centre - (left + right) / 2) @ along == pytest.approx(SHIFT, abs=2e-4)


@pytest.mark.slow
def test_hand_calculation_is_near_and_the_rigid_one_is_not(resting, pushed):
    by_hand = swing_by_hand(resting.model, resting.state, SHIFT)[0]
    smooth, clothed = (measure_turn(pushed[mu].model, pushed[mu].state.positions).tilt for mu in (0.0, 0.35))
    assert smooth == pytest.approx(by_hand, rel=0.1)
    assert 0.75 * by_hand < clothed < by_hand
    frame, places = resting.model.frame, resting.state.positions
    body = places[[resting.model.nodes[f"person {name}"][0] for name in frame.names]]
    apexes = places[[resting.model.nodes[f"{end} apex"][0] for end in ("head", "foot")]]
    height = apexes[:, 2].mean() - frame.masses @ body[:, 2] / frame.masses.sum()
    assert math.atan(SHIFT / height) < 0.7 * min(smooth, clothed)


@pytest.mark.slow
def test_with_clothing_on_the_person_rolls_with_the_hammock_and_in_it(pushed):
    """On smooth cloth the person stays level, with clothing cloth and hammock take the hips along."""
    smooth, clothed = (measure_turn(pushed[mu].model, pushed[mu].state.positions) for mu in (0.0, 0.35))
    assert abs(smooth.roll) < math.radians(3.0)
    assert clothed.roll > 1.5 * clothed.tilt


@pytest.mark.slow
def test_the_deeper_below_the_apexes_the_less_it_swings_over():
    found = [swing_by_hand(hung.model, hung.state, SHIFT)[0] for hung in (solve(20), solve(30), solve(40))]
    assert found[0] > found[1] > found[2]


@pytest.mark.slow
def test_the_way_back_is_as_by_hand(resting, pushed):
    """About the axis the middle between both cords goes back by its height times the sine of the tilt."""
    _, by_hand = swing_by_hand(resting.model, resting.state, SHIFT)
    clothed = measure_turn(pushed[0.35].model, pushed[0.35].state.positions)
    assert -clothed.aside == pytest.approx(by_hand, rel=0.1)


@pytest.mark.slow
def test_push_that_is_level_turns_all_over_and_the_other_does_not(resting, pushed):
    """What makes them unlike: a level push on the person, answered higher up on the cords, has a moment."""
    moments = {}
    for way, held in ((PushWay.CORDS, pushed[0.0]), (PushWay.ROOM, solve_shifted(resting, SHIFT))):
        places, force = held.state.positions, np.zeros_like(held.state.positions)
        held.model.elements["side push"].add_force(places, force)
        assert np.abs(force.sum(axis=0)).max() < 1e-9 * abs(held.push)
        moments[way] = abs(np.cross(places, force).sum(axis=0)[0]) / abs(held.push)
    assert moments[PushWay.CORDS] < 1e-9
    assert 0.2 < moments[PushWay.ROOM] < 0.4  # m: how far the cords are above the person


@pytest.mark.slow
@pytest.mark.parametrize("friction", [0.0, 0.35])
def test_the_side_that_bears_more_pulls_harder(resting, pushed, friction):
    """By hand: the weight hangs off the middle between both cords by as much as these go the other way.

    At half their distance b the side towards which it hangs bears 1 + a/b times its half. Its legs, which bear all of
    it, pull harder by about that; its cord, which is also pulled lengthwise by the lines, by less.
    """
    held = pushed[friction]
    aside = find_forces(held.model, held.state)
    pull, places = measure_uneven_pull(resting.forces, aside), held.state.positions
    left, right = (places[held.model.nodes[f"{side} edge"]].mean(axis=0) for side in ("left", "right"))
    by_hand = -(left + right)[1] / (left - right)[1]
    before, after = (forces.head_leg_left + forces.foot_leg_left for forces in (resting.forces, aside))
    assert after / before - 1 == pytest.approx(by_hand, rel=0.35)
    assert 0.0 < pull.cord - 1 < by_hand < pull.leg - 1 < 0.1
    assert aside.head_leg_right < resting.forces.head_leg_right


@pytest.mark.slow
def test_a_leg_that_holds_in_the_middle_alone_misses_its_factor():
    """A cord for the legs of which 2 % less would do in the middle: judged with the pull aside, in a sweep too."""
    design = read_design(str(files("tautlay.cases") / "larch_ridge.toml"))
    middle = solve_equilibrium(design, load="lying", mesh_size=0.15, hot_spots=False)
    leg = min((each for each in middle.findings.checks if each.part.endswith("leg")), key=lambda each: each.margin)
    work = design.workmanship
    tight = dataclasses.replace(work, factors=Factors({"cord": 0.99 * leg.found}))
    found = dataclasses.replace(middle, design=dataclasses.replace(design, workmanship=tight))
    assert all(check.passed for check in found.findings.checks if check.part.endswith("leg"))
    assert may_fall_short(found.findings.checks)
    for quick in (False, True):
        judged = dataclasses.replace(found, side_stability=assess_side_stability(found, quick=quick))
        missed = [each for each in judged.requirements if "lying aside" in each.name]
        assert {each.grade for each in missed} == {Grade.MISSES}
        assert "Head leg, splice breaks lying aside: needs" in write_sentence(missed[0].remedy, "metric")
        assert not judged.verdict.passed


def test_words_and_record():
    swing = Swing(
        52.0, math.radians(4.6), 0.012, math.radians(8.5), math.radians(5.4), 0.0114, UnevenPull(1.0262, 1.019)
    )
    push = SidePush(123.0, 2.5)
    found = SideStability(0, SHIFT, 630.0, 0.35, push, push, push, swing)
    assert write_sentence(found.swing_sentence, "metric") == (
        "Who shifts 4.00 cm aside in it, with nobody pushing from outside, needs 52.0 N and swings over with the hammock: "
        "side cords tilt 4.6 deg (by hand 5.4) and go 12.0 mm the other way (by hand 11.4 mm), hips roll 8 deg. On that side "
        "a leg pulls up to 2.6% harder, the side cord 1.9%."
    )
    record = record_stability(found)
    assert (record.side_push, record.swing_push, record.swing_tilt, record.swing_aside) == (
        123.0,
        52.0,
        swing.tilt,
        0.012,
    )
    back = dataclasses.replace(found, swing=dataclasses.replace(swing, push=-6.0))
    assert "is held back by 6.00 N and swings over" in write_sentence(back.swing_sentence, "metric")
    lost = dataclasses.replace(found, swing=dataclasses.replace(swing, end="rolled out over the left side"))
    assert write_sentence(lost.swing_sentence, "metric").endswith("from outside, rolled out over the left side.")
    kept = record_stability(lost)
    assert kept.swing_tilt is kept.swing_push is kept.swing_roll is None
    assert kept.swing_tilt_by_hand == swing.tilt_by_hand
    unasked = record_stability(dataclasses.replace(found, swing=None))
    assert unasked.swing_words is unasked.swing_tilt_by_hand is None
