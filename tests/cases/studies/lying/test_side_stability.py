"""How hard a lying person is held against rolling."""

import dataclasses
import math
from importlib.resources import files

import numpy as np
import pytest

from tautlay.cases import read_design, solve_case
from tautlay.cases.judging.comfort.side_stability import (
    SidePush,
    SideStability,
    note_side_stability,
    record_stability,
)
from tautlay.cases.solving.solution import solve_equilibrium
from tautlay.cases.studies.lying.shifted_equilibrium import solve_shifted
from tautlay.cases.unit_display import write_sentence
from tautlay.hammock import LoadCase, LyingSide
from tautlay.meshing import build_model
from tautlay.meshing.clothing import clothe, grip_cloth
from tautlay.solver import count_negative_pivots, relax

MESH = 0.08


@pytest.fixture(scope="module")
def design():
    return read_design(str(files("tautlay.cases") / "larch_ridge.toml"))


def hang(design, degrees):
    suspension = dataclasses.replace(design.hammock.suspension, hang_angle=math.radians(degrees))
    return dataclasses.replace(design, hammock=dataclasses.replace(design.hammock, suspension=suspension))


@pytest.fixture(scope="module")
def resting(design):
    return {
        degrees: solve_case(hang(design, degrees), load="lying", mesh_size=MESH, hot_spots=False)
        for degrees in (20, 30, 40)
    }


@pytest.mark.slow
def test_steeper_hang_holds_harder(resting):
    """The attachment comes to lie higher above the body: statics of a suspended body, common practice, no source."""
    low, high = (resting[degrees].side_stability.smooth for degrees in (30, 40))
    assert low.end is None
    assert 1.4 * low.force < high.force
    assert 1.4 * low.work < high.work


@pytest.mark.slow
def test_push_is_the_slope_of_the_work(resting):
    """Castigliano's first theorem over a millimetre about 4 cm, from shape to shape; what is reported is that push."""
    found = resting[40]
    held = found.design.hang_between(found.model.tree_distance)
    even = solve_equilibrium(held, load="lying", mesh_size=0.05, hot_spots=False, start=found)
    middle = solve_shifted(even, 0.04)
    near, far = (solve_shifted(even, shift, middle) for shift in (0.0395, 0.0405))
    assert near.end is far.end is None
    assert (far.state.energy - near.state.energy) / 0.001 == pytest.approx(middle.push, rel=0.02)
    assert found.side_stability.smooth.force == pytest.approx(middle.push, rel=1e-4)
    assert found.side_stability.smooth.work == pytest.approx(middle.state.energy - even.state.energy, rel=1e-4)


@pytest.mark.slow
def test_too_flat_a_hang_does_not_hold_on_smooth_cloth_and_says_so(design, resting):
    smooth = dataclasses.replace(design, person=dataclasses.replace(design.person, friction=0.0))
    flat = solve_case(hang(smooth, 20), load="lying", mesh_size=MESH, hot_spots=False)
    summary = flat.summary
    assert flat.side_stability.word == summary["stability"]["held"] == "not"
    (note,) = [note for note in summary["notes"] if "UNSTABLE" in note]
    assert "ball on a ridge" in note
    assert "Increase hang_angle" in note
    assert summary["stability"]["falling_directions"] > 0
    assert not any("UNSTABLE" in note for note in resting[40].summary["notes"])
    clothed = resting[20].summary["stability"]
    assert clothed["smooth_push_N"] is None or clothed["smooth_push_N"] < 0.0
    assert clothed["side_push_N"] > 0.0
    assert "on perfectly smooth cloth the person " in clothed["words"]


@pytest.mark.slow
def test_clothing_holds_whatever_the_hang_angle(resting):
    """Trousers on woven cloth, 0.336 to 0.448 (R. Lamsal and T. Bush): rolling has to drag cloth along or climb it."""
    for degrees, found in resting.items():
        stability = found.side_stability
        assert stability.friction == 0.35
        assert 100.0 < stability.clothed.force < 145.0, degrees
        assert stability.clothed.work == pytest.approx(stability.clothed.force * 0.02, rel=0.1)
        assert stability.word == "firmly"


@pytest.mark.slow
@pytest.mark.parametrize("friction", [0.1, 0.35])
@pytest.mark.parametrize("degrees", [25, 30, 40])
def test_push_of_the_clothed_does_not_hang_on_the_mesh(design, degrees, friction):
    pushes = []
    for size in (0.08, 0.05, 0.03):
        found = solve_equilibrium(hang(design, degrees), load="lying", mesh_size=size, hot_spots=False)
        steps = [solve_shifted(found, shift, friction=friction) for shift in (0.02, 0.04)]
        assert steps[0].end is steps[1].end is None
        assert 0.0 < steps[0].push < steps[1].push
        pushes.append(steps[1].push)
    assert max(pushes) < 1.1 * min(pushes)
    assert 100.0 < min(pushes) < max(pushes) < 140.0


@pytest.mark.slow
def test_who_is_put_aside_and_let_go_stays_there_with_clothing_on(resting):
    found = resting[30]
    aside = solve_shifted(found, 0.04)  # laid down there on smooth cloth, without a pull in the clothing
    grips = grip_cloth(aside.model, aside.state.positions)
    free = build_model(
        found.design.hammock, found.design.person, MESH, tree_distance=found.model.tree_distance, load=LoadCase.LYING
    )
    let_go = relax(clothe(free, grips, 0.35).structure, start=aside.state.positions, tolerance=1e-5, gear="implicit")
    assert let_go.converged
    hips = [free.nodes[f"person {side} hip"][0] for side in ("left", "right")]
    moved = let_go.positions[hips] - aside.state.positions[hips]
    assert np.abs(moved).max() < 0.01


@pytest.mark.slow
def test_who_is_held_stays_near_when_nudged(resting):
    """Falling directions of a held lie are ripples of the mesh: let go from 5 mm aside, the body stays within 2 cm.

    It may come back to where it was, a balance on such a ripple; the lowest rest found is none.
    """
    found = resting[30]
    before = found.state.positions
    body = slice(len(before) - len(found.model.frame.names), None)
    states = []
    for seed in range(3):
        start = before.copy()
        start[body] += np.random.default_rng(seed).normal(scale=[0.0, 0.005, 0.0], size=start[body].shape)
        state = relax(found.model.structure, start=start)
        assert state.converged
        assert state.energy <= found.state.energy + 1e-6
        assert np.linalg.norm(state.positions[body] - before[body], axis=1).max() < 0.02
        states.append(state)
    lowest = min(states, key=lambda state: state.energy)
    assert count_negative_pivots(found.model.structure, lowest.positions) == 0


@pytest.mark.slow
@pytest.mark.parametrize("posture", [{"lie": LyingSide.SIDE}, {"offset": 0.05}])
def test_only_who_lies_freely_in_the_middle_is_judged(design, posture):
    person = dataclasses.replace(design.person, posture=dataclasses.replace(design.person.posture, **posture))
    found = solve_case(dataclasses.replace(design, person=person), load="lying", mesh_size=0.12, hot_spots=False)
    assert found.side_stability is None
    assert found.summary["stability"] == {}


def test_spread_weight_is_not_judged(design):
    assert solve_case(design, mesh_size=0.12, hot_spots=False).summary["stability"] == {}


SHOWN = {"hardly": "Barely", "softly": "Moderately", "firmly": "Firmly"}


@pytest.mark.parametrize(
    ("push", "work", "end", "word"),
    [(10.0, 0.2, None, "hardly"), (50.0, 1.0, None, "softly"), (100.0, 2.0, None, "firmly")]
    + [(-1.0, 0.1, None, "not"), (5.0, -0.1, None, "not"), (5.0, 0.1, "rolled out", "not")],
)
def test_words(push, work, end, word):
    """Judged per centimetre and weight: 10, 50 and 100 N over 4 cm under 630 N are 0.4, 2 and 4 %."""
    found = SideStability(0, 0.04, 630.0, 0.0, *[SidePush(push, work, end)] * 3)
    assert found.word == word
    told = write_sentence(found.sentence, "imperial")
    assert told.startswith("UNSTABLE sideways" if word == "not" else f"{SHOWN[word]} stable sideways")
    assert "1.57 in" in told  # 4 cm
    assert bool(note_side_stability(found)) == (word == "not")
    assert record_stability(found).side_push == (None if end else push)


def test_words_for_clothing_name_the_smooth_end_too():
    firm, weak, rolls = SidePush(125.0, 2.5), SidePush(21.6, 0.3), SidePush(-19.0, -0.5)
    held = write_sentence(SideStability(0, 0.04, 630.0, 0.35, firm, weak, weak).sentence, "metric")
    assert held == (
        "Firmly stable sideways: 125 N moves the person 4.00 cm (friction of clothing 0.35; on perfectly smooth cloth "
        "21.6 N would do)."
    )
    bare = SideStability(0, 0.04, 630.0, 0.35, firm, rolls, firm)
    assert "on perfectly smooth cloth the person keeps rolling" in write_sentence(bare.sentence, "metric")
    assert note_side_stability(bare) == []
    past = SideStability(0, 0.04, 630.0, 0.35, firm, SidePush(5.0, -0.1), firm)  # rests between there and the middle
    assert "the person is held, but rolls there from the middle" in write_sentence(past.sentence, "metric")
    slips = SideStability(0, 0.04, 630.0, 0.35, firm, rolls, rolls)
    assert slips.word == "not"
    assert write_sentence(slips.sentence, "metric").startswith("UNSTABLE sideways in slippery clothing")


def test_friction_on_a_mesh_with_hot_spots_is_refused_in_a_sentence(solved_larch):
    fine = dataclasses.replace(
        solved_larch, mesh_size=0.2
    )  # clothing would grip nodes that the mesh of the push does not have
    with pytest.raises(ValueError, match="friction needs a result without hot spots"):
        solve_shifted(fine, 0.01, friction=0.3)
