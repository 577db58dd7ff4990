"""The pull on the cloth over a gauge width of 25 mm."""

from dataclasses import replace
from math import cos, pi, radians, sin

import numpy as np
import pytest

from tautlay.cases import read_design, solve_case
from tautlay.cases.judging.cloth.hot_spot import RIM, find_cloth_utilisation, is_fine_enough
from tautlay.cases.solving.mesh_sequence import MeshSequence, list_mesh_levels
from tautlay.hammock import Attachment, LoadCase, example_hammock
from tautlay.making import Reductions
from tautlay.meshing import Fineness, build_model

DRY = Reductions(wet=False)
LARCH, OTTER = (read_design(f"cases/{name}.toml") for name in ("larch_ridge", "otter_creek"))


def lock_shortly(design):
    """Return a design whose cord is sewn fast near the corners only, to where the cloth is pulled hardest."""
    channel = replace(design.hammock.channel, attachment=Attachment.LOCKED, lock_length=16 * 0.0254)
    return replace(design, hammock=replace(design.hammock, channel=channel))


class Stretched:
    """The state of a cloth whose points have all been moved by one matrix (3, 2)."""

    def __init__(self, model, matrix):
        flat = model.mesh.points
        self.positions = np.zeros((len(model.structure.positions), 3))
        self.positions[: len(flat)] = flat @ np.asarray(matrix).T

    def __getitem__(self, element):
        return element.result(self.positions)


def make_model(grain=0.0, **changes):
    hammock = example_hammock()
    body = replace(changes.pop("body", hammock.body), grain=grain)
    return build_model(replace(hammock, body=body, **changes), None, Fineness(0.1, RIM))


# An even stretch is the same everywhere; St. Venant-Kirchhoff without Poisson: P = EA' lambda (lambda^2 - 1)/2
@pytest.mark.parametrize("grain", [0.0, 30.0, 90.0, -60.0])
def test_an_even_stretch_gives_the_law_whatever_the_grain(grain):
    model = make_model(radians(grain))
    fabric = model.hammock.body.fabric
    along = np.array([cos(radians(grain)), sin(radians(grain))])
    stretch = 1.01
    matrix = np.vstack([np.eye(2) + (stretch - 1) * np.outer(along, along), np.zeros(2)])
    heat = find_cloth_utilisation(model, Stretched(model, matrix), DRY)
    green = (stretch**2 - 1) / 2
    stiffness = fabric.warp / (1 - fabric.poisson**2 * fabric.weft / fabric.warp)
    assert heat.warp.line_stress == pytest.approx(stretch * stiffness * green, rel=1e-9)
    assert heat.warp.off_warp == pytest.approx(0, abs=1e-9)
    assert heat.weft.line_stress < heat.warp.line_stress


def test_pull_across_is_told_as_weft_and_square_to_the_warp():
    model = make_model()
    heat = find_cloth_utilisation(model, Stretched(model, [[1, 0], [0, 1.02], [0, 0]]), DRY)
    assert heat.spots[0].thread == "weft"
    assert heat.spots[0].off_warp == pytest.approx(pi / 2)
    assert heat.spots[0].share == pytest.approx(heat.weft.line_stress / model.hammock.body.fabric.strength_weft)


# Where a held edge becomes a free one, stress grows as r^-1/2 (M. L. Williams, J. Appl. Mech. 19 (1952) 526, from memory):
# without bound, but its mean over a width stays finite.
def test_the_mean_of_a_stress_without_bound_is_finite_and_settles():
    found = []
    for rim in (RIM / 2, RIM / 4, RIM / 8):
        model = build_model(example_hammock(), None, Fineness(0.1, rim))
        flat = model.mesh.points
        r = np.hypot(*(flat - flat[model.nodes["head left corner"][0]]).T)
        state = Stretched(model, [[1, 0], [0, 1], [0, 0]])
        state.positions[: len(flat), 0] += 1e-3 * np.sqrt(r)
        cloth = state[model.elements["body"]]
        found.append((find_cloth_utilisation(model, state, DRY).warp.line_stress, cloth.nominal[:, 0].max()))
    means, peaks = zip(*found, strict=True)
    assert max(means) / min(means) < 1.02
    assert peaks[0] < 0.8 * peaks[1] < 0.8**2 * peaks[2]


def test_places_are_named_and_stand_apart():
    result = solve_case(lock_shortly(OTTER), mesh_size=0.1)
    spots = result.cloth_utilisation.spots
    assert len(spots) == 5
    assert "both channels" in spots[0].place
    assert "where the anchored length ends" in spots[0].place
    for i, spot in enumerate(spots):
        assert all(np.hypot(*np.subtract(spot.flat, other.flat)) > 0.15 for other in spots[:i])
        assert spot.share <= spots[0].share
    listed = result.summary["hot_spots"]
    assert [spot["place"] for spot in listed] == [spot.place for spot in spots]
    # the loaded place lies in the triangle that is named
    corners = result.state.positions[result.model.mesh.triangles[spots[0].triangle]]
    weights = np.linalg.lstsq(np.vstack([corners.T, np.ones(3)]), [*listed[0]["loaded_m"], 1.0], rcond=None)[0]
    assert weights.min() > -1e-9


def test_a_coarse_rim_is_told_and_not_checked():
    result = solve_case(read_design("cases/larch_ridge.toml"), mesh_size=0.1, hot_spots=False)
    assert not is_fine_enough(result.model)
    assert result.summary["hot_spots"] == []
    assert any(each.part == "cloth" for each in result.findings.unchecked)


def test_layers_share_the_pull():
    shares = []
    for layers in (1, 2):
        model = make_model(body=replace(example_hammock().body, layers=layers))
        shares.append(find_cloth_utilisation(model, Stretched(model, [[1, 0], [0, 1.01], [0, 0]]), DRY).weft.share)
    assert shares[0] == pytest.approx(shares[1], rel=1e-12)


@pytest.mark.slow
@pytest.mark.parametrize("design", [LARCH, lock_shortly(OTTER)], ids=["sewn", "locked"])
def test_hot_spots_settle_while_the_peak_grows(design):
    found = []
    for size, rim in ((0.055, RIM), (0.03, 0.8 * RIM), (0.015, 0.6 * RIM)):
        model, state = MeshSequence(design, list_mesh_levels(size, LoadCase.DISTRIBUTED, rim), None).refine(1e-6)
        heat = find_cloth_utilisation(model, state, DRY)
        found.append((heat.spots[0].line_stress, state[model.elements["body"]].nominal.max()))
    means, peaks = zip(*found, strict=True)
    assert max(means) / min(means) < 1.05
    if design.hammock.channel.attachment is not Attachment.SEWN:
        assert peaks[0] < 0.95 * peaks[1] < 0.95**2 * peaks[2]
