"""Cloth beyond a bar that is set in, as part of the structure."""

from dataclasses import replace

import numpy as np
import pytest

from tautlay.cases.judging.cloth.extension_load import find_hold, find_seam_load
from tautlay.hammock import example_hammock, example_person
from tautlay.hammock.cone import estimate_trough, find_scale
from tautlay.hammock.extension import CapShape, Extension, ExtensionMake
from tautlay.hammock.extension_areas import measure_extension
from tautlay.meshing import Fineness, build_model, mesh_hammock
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
    whole, (part,) = set_in(**{end: kind}), build_model(set_in(**{end: kind}), None, 0.03).beyond
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
