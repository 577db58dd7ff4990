"""Cloth beyond a bar that is set in, as part of the structure."""

from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

from tautlay.cases.judging.cloth.extension_load import find_hold, find_seam_load
from tautlay.cases.judging.comfort.bar_clearance import note_bar
from tautlay.hammock import LoadCase, example_hammock, example_person
from tautlay.hammock.cone import estimate_trough, find_scale
from tautlay.hammock.extension import CapShape, Extension, ExtensionMake
from tautlay.hammock.extension_areas import measure_extension
from tautlay.hammock.foot_room import find_foot_room
from tautlay.hammock.geometry_checks import find_geometry_issues
from tautlay.meshing import Fineness, build_model, check_containment, measure_bar_gaps, mesh_hammock
from tautlay.meshing.extension_mesh import mesh_extensions
from tautlay.meshing.grid import put_levels
from tautlay.solver import relax

G = 9.80665
HAMMOCK, PERSON = example_hammock(), example_person()
SEWN = Extension()
OPEN = Extension(opening=0.2, corner_room=0.05, closed=True, cap=CapShape.TWO_EDGES)
DARTS = Extension(ExtensionMake.RUNS_ON, darts=3)
SLIT = Extension(ExtensionMake.RUNS_ON, opening=0.15, corner_room=0.05, cap=CapShape.SHAPED, darts=4)
KINDS = {"sewn on": SEWN, "open at the corners": OPEN, "runs on": DARTS, "runs on, slit": SLIT}


def set_in(head=None, foot=None, far=0.2):
    """The example with extensions at either end."""
    bars = {
        f"{end}_bar": replace(HAMMOCK.head_bar, set_in=far, extension=extension)
        for end, extension in (("head", head), ("foot", foot))
        if extension is not None
    }
    return replace(HAMMOCK, **bars)


@pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
def test_its_weight_is_area_times_areal_mass(kind):
    hammock = set_in(head=kind, foot=SEWN)
    plain, extended = (build_model(h, None, 0.1).structure.load.sum(axis=0) for h in (HAMMOCK, hammock))
    area = sum(sum(measure_extension(end)) for end in hammock.ends)
    assert extended[2] - plain[2] == pytest.approx(-0.055 * area * G, rel=1e-9)
    assert extended[:2] == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
@pytest.mark.parametrize("end", ["head", "foot"])
def test_the_mesh_fills_the_piece(kind, end):
    """With fine cells the flat triangles have the area of the piece that is cut, all of them the right side up."""
    whole = set_in(**{end: kind})
    mesh = mesh_hammock(whole, 0.03)
    (part,) = mesh_extensions(whole.ends, mesh, Fineness(0.03), len(mesh.points) + 4)
    areas = part.find_areas()
    assert areas.min() > 0
    asked = measure_extension(whole.ends[0 if end == "head" else 1]).sheet
    assert areas.sum() == pytest.approx(asked, rel=2e-3)


def fold_back(extension, size):
    """Part, cloth and places of a model whose extension lies on the cone it was drawn for."""
    hammock = set_in(head=extension)
    model, end = build_model(hammock, None, size), hammock.ends[0]
    (part,), trough = model.beyond, estimate_trough(end)
    along = (1 + part.levels) / 2 * end.width
    near = np.stack([np.interp(along, trough.along, column) for column in trough.points.T], -1)
    places = model.start.copy()
    places[part.numbers[0]] = near
    places[part.numbers[part.own]] = part.stand(near, trough.apex)
    for side in ("left", "right"):
        far = places[model.nodes[f"head {side} leg"][-2]]
        assert np.linalg.norm(far - trough.apex) / end.leg_length == pytest.approx(find_scale(end))
    return model.elements["head extension"].attach(places).result(places)


@pytest.mark.parametrize("kind", [SEWN, OPEN], ids=["closed", "open"])
def test_on_its_cone_it_carries_nothing(kind):
    """Sewn edge on the trough it was drawn for, sides on straight legs: what is left is chords.

    They cut the trough short by a strain of (h/R)^2/24, which halved cells quarter, and cannot be tense.
    """
    coarse, fine = (fold_back(kind, size) for size in (0.06, 0.03))
    for found in (coarse, fine):
        assert found.strain[:, :2].max() < 5e-5  # no thread longer, but for the steps in which the trough is drawn
    assert np.abs(fine.strain).max() < 0.4 * np.abs(coarse.strain).max()


def test_flat_without_load_it_carries_nothing():
    model = build_model(set_in(foot=DARTS), None, 0.08)
    (part,) = model.beyond
    places = np.zeros_like(model.start)
    places[part.triangles.ravel(), :2] = part.corners.reshape(-1, 2)
    flat = model.elements["foot extension"].attach(places)
    beside = np.isin(part.triangles, part.list_darts()).any(axis=1)  # a dart's edges are two lines as cut
    assert np.abs(flat.result(places).nominal[~beside]).max() < 1e-9


@pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
def test_seam_and_legs_carry_its_weight(kind):
    """What seam, far corners and channels of the legs bear together is its weight: balance of the extension alone."""
    model = build_model(set_in(head=kind), PERSON, 0.1)
    state = relax(model.structure)
    assert state.converged
    (part,), places = model.beyond, state.positions
    own = np.unique(part.numbers[part.own])
    held = np.zeros(3)
    for side in ("left", "right"):
        leg = model.nodes[f"head {side} leg"]
        upper, lower = (
            float(np.max(state[model.elements[f"head {side} {name}"]].tension)) for name in ("upper leg", "leg")
        )
        first = next(place for place, node in enumerate(leg) if node in own)
        for pull, start, stop in ((upper, -2, -1), (lower, first, first - 1)):
            way = places[leg[stop]] - places[leg[start]]
            held += pull * way / np.linalg.norm(way)
        assert find_hold(model, state, "head", side) == pytest.approx(upper - lower)
        assert state[model.elements[f"head {side} gather"]].thrust.max() == 0.0
    force = np.zeros_like(places)
    state.terms[id(model.elements["head extension"])].add_force(places, force)
    seam = force[part.numbers[0][~part.own[0]]].sum(axis=0)
    assert held - seam + model.structure.load[own].sum(axis=0) == pytest.approx(0.0, abs=5e-3)
    load = find_seam_load(model, state, part)
    assert (load is None) == (kind.made is ExtensionMake.RUNS_ON)
    if load is not None:
        assert load.whole == pytest.approx(seam)
        assert load.pull.max() > 0


def test_an_extension_hardly_changes_how_the_body_hangs():
    """Some grams of cloth on the legs: the same tensions as without, to their weight over the person's."""
    plain, extended = (build_model(h, PERSON, 0.1) for h in (HAMMOCK, set_in(head=OPEN, foot=DARTS)))
    thrusts = [relax(m.structure)[m.elements["head bar"]].thrust[0] for m in (plain, extended)]
    assert thrusts[1] == pytest.approx(thrusts[0], rel=5e-3)


@pytest.mark.slow
@pytest.mark.parametrize("kind", [OPEN, DARTS], ids=["open", "darts"])
def test_half_of_it_is_half(kind):
    whole, half = (build_model(set_in(head=kind), PERSON, 0.1, half=each) for each in (False, True))
    assert half.beyond[0].find_areas().sum() == pytest.approx(whole.beyond[0].find_areas().sum() / 2)
    assert half.structure.load.sum(axis=0)[2] == pytest.approx(whole.structure.load.sum(axis=0)[2] / 2)
    pulls = [float(np.max(relax(m.structure)[m.elements["head left upper leg"]].tension)) for m in (whole, half)]
    assert pulls[1] == pytest.approx(pulls[0], rel=1e-5)


def test_a_coarse_shape_is_carried_over():
    hammock = set_in(head=OPEN, foot=SLIT)
    coarse, fine = build_model(hammock, PERSON, 0.15), build_model(hammock, PERSON, 0.08)
    found = fine.carry_over(coarse, coarse.start)
    assert found.shape == fine.start.shape
    for part in fine.beyond:
        assert np.linalg.norm(found - fine.start, axis=1)[part.numbers].max() < 0.02
    assert np.array_equal(coarse.carry_over(coarse, coarse.start), coarse.start)


def test_without_one_nothing_changes():
    model = build_model(HAMMOCK, None, 0.1)
    assert model.beyond == ()
    assert model.triangles is not model.mesh.triangles
    assert np.array_equal(model.triangles, model.mesh.triangles)
    levels = np.linspace(-1.0, 1.0, 7)
    assert put_levels(levels, ()) is levels


def test_lines_run_where_openings_end_and_darts_stand():
    mesh = mesh_hammock(set_in(head=OPEN, foot=DARTS), 0.1)
    assert np.isclose(mesh.levels, 1 - 2 * 0.2 / 1.16).sum() == 1
    assert mesh.levels == pytest.approx(-mesh.levels[::-1])
    assert np.diff(mesh.levels).min() > 0


@pytest.mark.slow
def test_a_finer_mesh_settles_the_pull_of_the_seam():
    loads = []
    for size in (0.06, 0.04, 0.03):
        model = build_model(set_in(head=SEWN), PERSON, Fineness(size))
        loads.append(find_seam_load(model, relax(model.structure), model.beyond[0]).whole)
    assert loads[2] == pytest.approx(loads[1], abs=0.25 * np.linalg.norm(loads[1]))


def test_a_head_may_lie_on_it_as_far_as_it_reaches():
    hammock = set_in(head=SEWN)
    for crown, sound in ((-0.2, True), (-0.21, False)):
        person = replace(PERSON, head_from_bar=crown)
        faults = find_geometry_issues(hammock, person)
        assert (not faults) == sound
        assert sound or ("only 20.0 cm there" in str(faults[0]) and faults[0].keys[0] == "person.head_from_bar")
    assert "there is no cloth beyond it" in str(find_geometry_issues(HAMMOCK, person)[0])


@pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
def test_all_the_weight_of_a_head_beyond_the_bar_is_on_cloth(kind):
    person = replace(PERSON, head_from_bar=-0.15)
    model = build_model(set_in(head=kind), person, 0.08)
    forces = model.loading.spread.forces
    (part,) = model.beyond
    assert forces.sum(axis=0) == pytest.approx([0.0, 0.0, -80.0 * G])
    own = part.numbers[part.own]
    head = -forces[own[own < len(forces)], 2].sum()
    assert 0.5 < head / (80.0 * G * 0.0694) < 1.0  # de Leva's head and neck of a man, less what lies at the bar
    assert forces.min() == forces[:, 2].min()
    assert (np.abs(forces[:, :2]) == 0).all()


@pytest.fixture(scope="module")
def pillowed():
    """Somebody whose head lies 10 cm beyond the bar, and the same 10 cm before it."""
    hammock, found = set_in(head=OPEN), []
    for crown in (-0.1, 0.1):
        model = build_model(hammock, replace(PERSON, head_from_bar=crown), 0.1, load=LoadCase.LYING)
        found.append((model, relax(model.structure)))
    return found


def test_the_cloth_beyond_carries_the_head(pillowed):
    (beyond, state), (before, other) = pillowed
    assert state.converged
    assert check_containment(beyond, state.positions) is None
    contact = state[beyond.elements["contact"]]
    assert contact.force[2] == pytest.approx(-80.0 * G, rel=1e-4)
    there = contact.push[len(beyond.mesh.triangles) :].sum(axis=0)
    weight = 80.0 * G * 0.0694
    assert -there[2] == pytest.approx(weight, rel=0.7)  # of head and neck, a part of it on shoulders and body
    assert np.abs(other[before.elements["contact"]].push[len(before.mesh.triangles) :]).sum() == 0.0
    seams = [find_seam_load(m, s, m.beyond[0]).pull.max() for m, s in pillowed]
    assert seams[0] > 10 * seams[1]


def test_what_the_bar_passes_is_said(pillowed):
    (beyond, state), (before, other) = pillowed
    (note,) = note_bar(beyond, state)
    gaps = measure_bar_gaps(beyond, state.positions, state.positions[-len(beyond.frame.names) :], "head")
    nearest = np.argsort(gaps)
    part = next(beyond.frame.flesh[k] for k in nearest if beyond.frame.flesh[k] != "pillow")
    assert f"from the {part}" in note
    assert "the head stays clear" in note  # here the bar is farther from the hips than the crown of who sits up
    lower = state.positions.copy()
    for side in ("left", "right"):
        lower[beyond.nodes[f"head {side} corner"]] += [0.15, 0.0, -0.1]
    (note,) = note_bar(beyond, SimpleNamespace(positions=lower))
    assert "meets it: slide towards the feet first" in note
    assert list(note_bar(before, other)) == []


def test_a_body_with_the_bar_in_it_is_refused(pillowed):
    model, state = pillowed[0]
    moved = state.positions.copy()
    neck = moved[model.nodes["person neck"][0]]
    for side in ("left", "right"):
        corner = model.nodes[f"head {side} corner"][0]
        moved[corner] += (neck - moved[corner]) * [1.0, 0.0, 1.0]
    assert check_containment(model, moved).startswith("lies in the head bar: ")


def place_soles(beyond):
    """The example's person with the soles so far beyond the foot bar, m."""
    return replace(PERSON, head_from_bar=HAMMOCK.body.length - PERSON.stature + beyond)


def test_feet_may_lie_on_it_as_far_as_it_reaches():
    hammock = set_in(foot=SEWN)
    for beyond, sound in ((0.2, True), (0.21, False)):
        faults = find_geometry_issues(hammock, place_soles(beyond))
        assert (not faults) == sound
        assert sound or ("runs on only 20.0 cm beyond the foot bar" in str(faults[0]))
    assert "long. Lengthen the body" in str(find_geometry_issues(HAMMOCK, place_soles(0.01))[0])
    rooms = [find_foot_room(hammock, place_soles(beyond)) for beyond in (-0.05, 0.15, 0.25)]
    assert rooms == pytest.approx([0.05, 0.05, -0.05])


@pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
def test_all_the_weight_of_feet_beyond_the_bar_is_on_cloth(kind):
    model = build_model(set_in(head=OPEN, foot=kind), place_soles(0.18), 0.08)
    forces = model.loading.spread.forces
    (part,) = (part for part in model.beyond if part.end == "foot")
    assert forces.sum(axis=0) == pytest.approx([0.0, 0.0, -80.0 * G])
    own = part.numbers[part.own]
    there = -forces[own[own < len(forces)], 2].sum()
    feet, shanks = 80.0 * G * 2 * 0.0137, 80.0 * G * 2 * 0.0433  # de Leva's, of a man
    assert 0.5 * feet < there < feet + 0.5 * shanks
    assert (np.abs(forces[:, :2]) == 0).all()


@pytest.mark.slow
def test_the_cloth_beyond_carries_the_feet_and_the_bar_over_them_is_told():
    model = build_model(set_in(foot=OPEN), place_soles(0.12), 0.1, load=LoadCase.LYING)
    state = relax(model.structure)
    assert state.converged
    assert check_containment(model, state.positions) is None
    contact = state[model.elements["contact"]]
    assert contact.force[2] == pytest.approx(-80.0 * G, rel=1e-4)
    assert 0.0 < -contact.push[len(model.mesh.triangles) :, 2].sum() < 80.0 * G * 0.2  # legs below the hips
    (note,) = note_bar(model, state)
    assert "The feet lie beyond the foot bar, which passes" in note
    moved = state.positions.copy()
    ankle = moved[model.nodes["person left ankle"][0]]
    for side in ("left", "right"):
        corner = model.nodes[f"foot {side} corner"][0]
        moved[corner] += (ankle - moved[corner]) * [1.0, 0.0, 1.0]
    assert check_containment(model, moved).startswith("lies in the foot bar: ")
