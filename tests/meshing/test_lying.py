"""A person in contact: what carries whom, how deep, how symmetric."""

import numpy as np
import pytest

from tautlay.hammock import LoadCase, Person, Posture, Sex, example_hammock, example_person
from tautlay.meshing import build_model, push_aside
from tautlay.solver import relax

G = 9.80665  # m/s2, NIST SP 811
FORCES = [
    ("head bar", "thrust"),
    ("foot bar", "thrust"),
    ("left side cord", "tension"),
    ("right side cord", "tension"),
    ("head line", "tension"),
    ("foot line", "tension"),
]


def lie(person, size, *, load=LoadCase.LYING, start=None, tolerance=1e-6):
    """Return model and state of the example hammock, from its shape under the spread weight."""
    hammock = example_hammock()
    if start is None and load is LoadCase.LYING:
        start = lie(person, max(size, 0.1), load=LoadCase.DISTRIBUTED, tolerance=1e-4)
        if size < 0.1:
            start = lie(person, 0.1, start=start, tolerance=1e-4)
    model = build_model(hammock, person, size, load=load)
    first = model.start if start is None else model.carry_over(start[0], start[1].positions)
    state = relax(model.structure, start=first, tolerance=tolerance)
    assert state.converged, state.message
    return model, state


@pytest.fixture(scope="module")
def lying():
    return lie(example_person(), 0.08)


def test_contact_carries_the_weight(lying):
    """80 kg to 1e-4; the trees carry everything to 1e-6; nothing outside holds the person along the hammock."""
    model, state = lying
    weight = model.person.mass * G
    assert -state[model.elements["contact"]].force[2] == pytest.approx(weight, rel=1e-4)
    pulls = -state.reactions
    assert -pulls[:, 2].sum() == pytest.approx((model.person.mass + model.mass) * G, rel=1e-6)
    np.testing.assert_allclose(pulls[:, :2].sum(axis=0), 0.0, atol=1e-6 * weight)


def test_free_body_of_the_person_closes(lying):
    """Weight, contact and hold balance: the contact's lengthwise force is the hold's."""
    model, state = lying
    contact, hold = state[model.elements["contact"]], state[model.elements["hold"]]
    assert -contact.force[0] + hold.force == pytest.approx(0.0, abs=1e-4 * model.person.mass * G)
    np.testing.assert_allclose(contact.by_segment.sum(axis=0), contact.force, atol=1e-9)


def test_flesh_gives_by_less_than_a_third_of_its_radius(lying):
    model, state = lying
    share = state[model.elements["contact"]].depth / model.frame.radii.min(axis=1)
    assert share.max() < 1 / 3, model.frame.flesh[int(np.argmax(share))]


def test_bones_keep_their_length(lying):
    model, state = lying
    bones = state[model.elements["bones"]]
    np.testing.assert_allclose(bones.length / model.elements["bones"].rest_length, 1.0, atol=0.01)


def test_symmetric_case_stays_symmetric():
    """At a mesh of 50 mm a mirror image lies in itself, 1e-6 m; the iteration keeps what the start has."""
    model, state = lie(example_person(), 0.05)
    body = {name: state.positions[model.nodes[f"person {name}"][0]] for name in model.frame.names}
    for name, place in body.items():
        twin = body[name.replace("left", "*").replace("right", "left").replace("*", "right")]
        np.testing.assert_allclose(place * [1, -1, 1], twin, atol=1e-6)


def test_offset_to_the_left_lies_to_the_left(lying):
    """Held 2 cm to the left of centre the hammock turns with the weight: the left side cord goes down."""
    model, state = lying
    weights = model.frame.masses / model.frame.masses.sum()
    pushed = push_aside(model, 0.02)
    held = relax(pushed.structure, start=pushed.carry_over(model, state.positions), tolerance=1e-6)
    assert held.converged
    body = held.positions[-len(weights) :]
    edges = [held.positions[pushed.nodes[f"{side} edge"]] for side in ("left", "right")]
    middle = np.mean([np.mean(edge[:, 1]) for edge in edges])
    assert weights @ body[:, 1] - middle == pytest.approx(0.02, abs=1e-3)
    low, high = (np.mean(edge[:, 2]) for edge in edges)
    assert low < high  # the side towards which the weight has moved


def test_laid_off_the_middle_the_near_cord_carries_more():
    """5 cm to the left: held there across, with nothing outside taking a part of it; the left side cord carries more."""
    person = example_person()
    off = Person(person.stature, person.mass, person.sex, person.head_from_bar, Posture(offset=0.05))
    model, state = lie(off, 0.08)
    body = state.positions[-len(model.frame.names) :]
    carried = -model.loading.spread.forces[:, 2]
    under = carried @ state.positions[: len(carried), 1] / carried.sum()
    assert model.frame.masses @ body[:, 1] / off.mass - under == pytest.approx(0.05, abs=2e-3)
    left, right = (state[model.elements[f"{side} side cord"]].tension.max() for side in ("left", "right"))
    assert left > 1.02 * right
    np.testing.assert_allclose(-state.reactions[:, 1].sum(), 0.0, atol=1e-3)


@pytest.mark.parametrize("sizes", [(0.12, 0.05), pytest.param((0.12, 0.05, 0.0245), marks=pytest.mark.slow)])
def test_forces_agree_on_coarse_and_fine_meshes(sizes):
    """About 500, 2000 and 8000 triangles: thrust of both bars and side cord within 1.5 % of the finest."""
    rows = []
    for size in sizes:
        model, state = lie(example_person(), size)
        bars = [state[model.elements[f"{end} bar"]].thrust[0] for end in ("head", "foot")]
        rows.append([*bars, state[model.elements["left side cord"]].tension.max()])
    for row in rows[:-1]:
        np.testing.assert_allclose(row, rows[-1], rtol=0.015)


JOINTS = [f"body_joints.{name}" for name in ("_HIP", "_WAIST_END", "_NECK_END", "_SPREAD", "_SIDEWAYS")]


@pytest.mark.parametrize("factor", [0.5, 2.0])
@pytest.mark.parametrize("name", ["occupant.FLESH_MODULUS", "occupant.SINEW_EA", "occupant._PILLOW", *JOINTS])
def test_judged_stiffness_hardly_moves_the_forces(lying, monkeypatch, name, factor):
    """Halving or doubling a judgement: thrusts and side cord by less than 2 %."""
    from importlib import import_module

    home, constant = name.split(".")
    module = import_module(f"tautlay.meshing.{home}")
    monkeypatch.setattr(module, constant, getattr(module, constant) * factor)
    model, state = lie(example_person(), 0.08, start=lying)
    for part, field in (("head bar", "thrust"), ("foot bar", "thrust"), ("left side cord", "tension")):
        before = getattr(lying[1][lying[0].elements[part]], field).max()
        assert getattr(state[model.elements[part]], field).max() == pytest.approx(before, rel=0.02)


SMALL, LARGE = Person(1.55, 52.0, Sex.FEMALE, 0.22), Person(1.82, 95.0, Sex.MALE, 0.10)


@pytest.mark.parametrize("pair", [(SMALL, LARGE), (LARGE, SMALL)], ids=["small, large", "large, small"])
def test_second_person_starts_from_the_first(pair):
    """The same forces as from a cold start, 1e-6, however unlike the two are."""
    first, second = pair
    start = lie(first, 0.08)
    (warm_model, warm), (cold_model, cold) = lie(second, 0.08, start=start), lie(second, 0.08)
    for part, field in FORCES:
        found, wanted = (getattr(s[m.elements[part]], field) for m, s in ((warm_model, warm), (cold_model, cold)))
        np.testing.assert_allclose(found.max(), wanted.max(), rtol=1e-6, err_msg=part)


def test_second_person_first_lies_like_the_first(lying):
    """One 8 cm taller: bones that begin within 1 % of their length in the mean, a third of what the first's miss by."""
    model, state = lying
    person = model.person
    taller = Person(person.stature + 0.08, person.mass, person.sex, person.head_from_bar - 0.04, person.posture)
    other = build_model(example_hammock(), taller, 0.08, load=LoadCase.LYING)
    bones = other.elements["bones"]

    def miss(positions):
        ends = positions[bones.connectivity]
        return np.abs(np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1) / bones.rest_length - 1).mean()

    carried = miss(other.carry_over(model, state.positions))
    assert carried < 0.01
    assert carried < miss(state.positions) / 3
