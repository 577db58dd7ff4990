"""The structure built from a hammock: names, masses, start shape, and that it solves."""

from dataclasses import replace

import numpy as np
import pytest

from tautlay.hammock import Arc, ArcShape, Attachment, example_hammock, example_person, list_parts
from tautlay.hammock.extension_areas import measure_extension
from tautlay.materials import Cord
from tautlay.meshing import build_model
from tautlay.solver import Cable, SlidingCable, Strut, relax

HAMMOCK, PERSON = example_hammock(), example_person()
G = 9.80665


def attached(attachment, **more):
    return replace(HAMMOCK, channel=replace(HAMMOCK.channel, attachment=attachment, **more))


def test_names():
    model = build_model(HAMMOCK, PERSON, 0.1)
    ends = [f"{end} {part}" for end in ("head", "foot") for part in ("bar", "left leg", "right leg", "line")]
    assert set(model.elements) == {"body", "left side cord", "right side cord", *ends}
    flat = model.mesh.points
    np.testing.assert_array_equal(flat[model.nodes["head edge"], 0], 0.0)
    np.testing.assert_array_equal(flat[model.nodes["foot edge"], 0], 2.0)
    x = flat[model.nodes["left edge"], 0]
    np.testing.assert_allclose(flat[model.nodes["left edge"], 1], model.mesh.outline.left.place(x))
    np.testing.assert_allclose(flat[model.nodes["right edge"], 1], model.mesh.outline.right.place(x))
    np.testing.assert_array_equal(flat[model.nodes["middle"], 1], 0.0)
    for end, x in (("head", 0.0), ("foot", 2.0)):
        for side, sign in (("left", 1), ("right", -1)):
            corner = model.nodes[f"{end} {side} corner"]
            width = {"head": 1.16, "foot": 1.12}[end]
            np.testing.assert_allclose(flat[corner], [[x, sign * width / 2]])
            leg = model.elements[f"{end} {side} leg"]
            assert leg.connectivity.tolist() == [[corner[0], model.nodes[f"{end} apex"][0]]]
            assert corner[0] in model.elements[f"{end} bar"].connectivity
            assert corner[0] in model.elements[f"{side} side cord"].connectivity


def test_every_element_is_in_the_structure():
    model = build_model(HAMMOCK, PERSON, 0.1)
    assert set(map(id, model.structure.elements)) == set(map(id, model.elements.values()))
    used = np.unique(np.concatenate([e.connectivity.ravel() for e in model.elements.values()]))
    np.testing.assert_array_equal(used, np.arange(len(model.start)))


def test_sewn_cord_follows_the_cut_edge():
    model = build_model(HAMMOCK, PERSON, 0.1)
    cord, edge = model.elements["left side cord"], model.mesh.outline.left
    assert isinstance(cord, Cable)
    np.testing.assert_allclose(cord.rest_length, edge.arc_lengths(model.mesh.stations), rtol=1e-12)
    longer = build_model(attached(Attachment.SEWN, cord_length=2.2), PERSON, 0.1).elements["left side cord"]
    assert longer.rest_length.sum() == pytest.approx(2.2)
    np.testing.assert_allclose(longer.rest_length / cord.rest_length, 2.2 / edge.length)


def test_free_cord_is_one_piece_through_the_whole_edge():
    model = build_model(attached(Attachment.FREE), PERSON, 0.1)
    cord = model.elements["right side cord"]
    assert isinstance(cord, SlidingCable)
    assert cord.path.tolist() == model.nodes["right edge"].tolist()
    assert cord.rest_length == pytest.approx(model.mesh.outline.right.length)


def test_locked_cord_has_fast_ends():
    model = build_model(attached(Attachment.LOCKED, lock_length=0.15, cord_length=2.1), PERSON, 0.1)
    scale = 2.1 / model.mesh.outline.left.length
    head, slide, foot = (model.elements[name] for name in ("head left lock", "left side cord", "foot left lock"))
    assert head.rest_length.sum() == pytest.approx(0.15 * scale)
    assert foot.rest_length.sum() == pytest.approx(0.15 * scale)
    assert head.rest_length.sum() + slide.rest_length + foot.rest_length.sum() == pytest.approx(2.1)
    chain = [*head.connectivity[:, 0], *slide.path, *foot.connectivity[:, 1]]
    assert chain == model.nodes["left edge"].tolist()


@pytest.mark.parametrize("attachment", list(Attachment))
@pytest.mark.parametrize("set_in", [0.0, 0.12])
@pytest.mark.parametrize("layers", [1, 2])
def test_all_weight_is_carried(attachment, set_in, layers):
    hammock = attached(attachment, lock_length=0.1)
    bars = {name: replace(getattr(HAMMOCK, name), set_in=set_in) for name in ("head_bar", "foot_bar")}
    hammock = replace(hammock, body=replace(HAMMOCK.body, layers=layers), **bars)
    model = build_model(hammock, PERSON, 0.05)
    mass = sum(part.mass for part in list_parts(hammock))
    assert mass == model.mass
    # chords cut the curved edges off a little outside: 0.055 kg/m2 on less than 5 cm2 a layer
    assert -model.structure.load[:, 2].sum() == pytest.approx((mass + PERSON.mass) * G, abs=1e-3)
    empty = build_model(hammock, None, 0.05)
    assert -empty.structure.load[:, 2].sum() == pytest.approx(mass * G, abs=1e-3)


def test_parts_by_hand():
    bars = {name: replace(getattr(HAMMOCK, name), set_in=0.1) for name in ("head_bar", "foot_bar")}
    parts = {part.name: part for part in list_parts(replace(HAMMOCK, **bars))}
    # Geometry: trapezoid less two parabolic segments of two thirds of chord times depth.
    area = 2.0 * (1.16 + 1.12) / 2 - 2 * (2 / 3) * 2.0 * 0.19
    assert parts["body"].mass == pytest.approx(0.055 * area)
    assert parts["head extension"].mass == pytest.approx(
        0.055 * measure_extension(replace(HAMMOCK, **bars).ends[0]).sheet
    )
    assert parts["foot left leg"].mass == pytest.approx(0.75 * 4e-3)
    assert parts["head line"].mass == pytest.approx(1.0 * 0.025)
    assert parts["foot bar"].mass == pytest.approx(0.86 * 2710.0 * np.pi / 4 * (0.016**2 - 0.014**2))


def test_grain_turns_the_flat_axes():
    def corners(grain):
        body = replace(HAMMOCK.body, grain=grain)
        membrane = build_model(replace(HAMMOCK, body=body), None, 0.1).elements["body"]
        return membrane.gradients, membrane.law

    plain, law = corners(0.0)
    turned, same = corners(0.3)
    assert law == same
    c, s = np.cos(0.3), np.sin(0.3)
    np.testing.assert_allclose(turned, plain @ np.array([[c, -s], [s, c]]), atol=1e-10)


def test_layers_stiffen():
    one = build_model(HAMMOCK, None, 0.1).elements["body"].law
    two = build_model(replace(HAMMOCK, body=replace(HAMMOCK.body, layers=2)), None, 0.1).elements["body"].law
    np.testing.assert_allclose(two.stiffness(), 2 * one.stiffness())


@pytest.mark.parametrize("attachment", list(Attachment))
def test_start_shape_is_hardly_stretched(attachment):
    model = build_model(attached(attachment, lock_length=0.1), PERSON, 0.05)
    x = model.start
    for name, element in model.elements.items():
        if name.endswith("bar"):
            assert isinstance(element, Strut)
            np.testing.assert_allclose(element.result(x).length, element.rest_length, rtol=1e-12)
        elif isinstance(element, Cable) and "cord" not in name:
            assert (element.result(x).length <= element.rest_length * (1 + 1e-9)).all()
        elif isinstance(element, SlidingCable):
            assert 0.97 < element.result(x).length / element.rest_length < 1.0
    across = x.reshape(-1, 3)[: len(model.mesh.points)].reshape(len(model.mesh.stations), -1, 3)
    lengths = np.linalg.norm(np.diff(across, axis=1), axis=2).sum(axis=1)
    widths = model.mesh.outline.width(model.mesh.stations)
    assert np.abs(lengths / widths - 1).max() < 2e-3  # chords of the arc across
    assert x[model.nodes["head tree"][0]].tolist() == [-model.tree_distance / 2, 0.0, 1.9]
    assert x[model.nodes["head tree"][0], 0] < x[model.nodes["head apex"][0], 0] < across[0, 0, 0]


def test_tree_distance_overrides():
    model = build_model(HAMMOCK, PERSON, 0.1, tree_distance=4.5)
    assert model.tree_distance == pytest.approx(4.5, abs=1e-10)
    trees = model.start[[model.nodes["head tree"][0], model.nodes["foot tree"][0]]]
    assert np.ptp(trees[:, 0]) == pytest.approx(4.5, abs=1e-10)
    np.testing.assert_array_equal(trees[:, 2], 1.9)


def test_half_of_an_uneven_design_is_refused():
    uneven = replace(HAMMOCK, body=replace(HAMMOCK.body, right_arc=Arc(0.1)))
    with pytest.raises(ValueError, match="equal arcs on both sides"):
        build_model(uneven, PERSON, 0.1, half=True)
    with pytest.raises(ValueError, match="grain"):
        build_model(replace(HAMMOCK, body=replace(HAMMOCK.body, grain=0.2)), PERSON, 0.1, half=True)


@pytest.mark.parametrize("attachment", list(Attachment))
def test_half_model_is_half_of_the_whole(attachment):
    hammock = attached(attachment, lock_length=0.12)
    found = []
    for half in (False, True):
        model = build_model(hammock, PERSON, 0.1, half=half)
        state = relax(model.structure, tolerance=1e-9)
        assert state.converged, state.message
        share = 2.0 if half else 1.0
        found.append(
            {
                "thrust": float(state[model.elements["head bar"]].thrust[0]),
                "leg": float(state[model.elements["foot left leg"]].tension[0]),
                "line": share * float(state[model.elements["head line"]].tension[0]),
                "cord": float(np.max(state[model.elements["left side cord"]].tension)),
                "corner": state.positions[model.nodes["foot left corner"][0]].tolist(),
                "lowest": float(state.positions[:, 2].min()),
            }
        )
    for name, whole in found[0].items():
        assert found[1][name] == pytest.approx(whole, rel=1e-5, abs=1e-6), name


def test_equilibrium_carries_the_weight():
    model = build_model(HAMMOCK, PERSON, 0.1)
    state = relax(model.structure)
    assert state.converged
    np.testing.assert_allclose(state.reactions.sum(axis=0), [0.0, 0.0, -model.structure.load[:, 2].sum()], atol=2e-3)
    # Statics: a line is as long a lever as it is; its force is the reaction of its tree.
    for end in ("head", "foot"):
        tension = float(state[model.elements[f"{end} line"]].tension[0])
        assert np.linalg.norm(state.reactions[model.nodes[f"{end} tree"][0]]) == pytest.approx(tension, rel=1e-3)
    y = state.positions[: len(model.mesh.points)].reshape(len(model.mesh.stations), -1, 3)[:, :, 1]
    assert np.abs(y + y[:, ::-1]).max() < 1e-4


def test_coarse_to_fine_saves_steps():
    coarse, fine = (build_model(HAMMOCK, PERSON, size) for size in (0.1, 0.05))
    state = relax(coarse.structure, tolerance=1e-4)
    start = fine.carry_over(coarse, state.positions)
    near, cold = relax(fine.structure, start=start), relax(fine.structure)
    assert near.converged
    assert cold.converged
    np.testing.assert_array_equal(start[-4:], state.positions[-4:])
    thrusts = [s[fine.elements["head bar"]].thrust[0] for s in (near, cold)]
    assert thrusts[0] == pytest.approx(thrusts[1], rel=1e-5)
    assert near.iterations < cold.iterations


def random_design(rng, attachment):
    """An invented design in the range people build, and someone to lie in it."""

    def draw(low, high):
        return float(rng.uniform(low, high))

    shear = float(np.exp(draw(np.log(5), np.log(3e3))))
    cloth = replace(HAMMOCK.body.fabric, warp=draw(8e3, 80e3), weft=draw(8e3, 80e3), poisson=draw(0, 0.25), shear=shear)
    cord = Cord("invented", "cord", 0.0025, 4e-3, 6e3, float(np.exp(draw(np.log(2e4), np.log(6e5)))))
    shape = list(ArcShape)[rng.integers(3)]
    depth = draw(0.05, 0.22)
    arcs = Arc(depth, shape), Arc(depth * (1.0 if rng.random() < 0.7 else draw(0.8, 1.2)), shape)
    body = replace(
        HAMMOCK.body,
        length=draw(1.9, 2.3),
        head_width=draw(0.9, 1.5),
        foot_width=draw(0.8, 1.4),
        left_arc=arcs[0],
        right_arc=arcs[1],
        fabric=cloth,
        layers=int(rng.integers(1, 3)),
        grain=0.0 if rng.random() < 0.7 else draw(-0.8, 0.8),
    )
    height = draw(1.3, 2.2)
    legs = [draw(0.75, 1.0), draw(0.75, 1.0)]
    both = {"leg": cord, "line_length": draw(0.5, 2.0)}
    heights = [height, height + draw(-0.3, 0.3)]
    ends = [{"leg_length": leg, "strap_height": tall} for leg, tall in zip(legs, heights, strict=True)]
    suspension = replace(
        HAMMOCK.suspension.change(*({**both, **own} for own in ends)),
        hang_angle=np.radians(draw(15, 50)),
    )
    head, foot = (
        replace(HAMMOCK.head_bar, length=width * draw(0.55, 0.95), set_in=draw(0, 0.12))
        for width in (body.head_width, body.foot_width)
    )
    channel = replace(HAMMOCK.channel, cord=cord, attachment=attachment, lock_length=draw(0.05, 0.3))
    person = replace(PERSON, stature=draw(1.5, 1.8), mass=draw(45, 120), head_from_bar=draw(0.03, 0.1))
    return replace(HAMMOCK, body=body, channel=channel, head_bar=head, foot_bar=foot, suspension=suspension), person


@pytest.mark.parametrize("attachment", list(Attachment))
@pytest.mark.parametrize("seed", range(10))
def test_any_sane_design_solves_from_its_start_shape(attachment, seed):
    rng = np.random.default_rng([seed, list(Attachment).index(attachment)])
    model = build_model(*random_design(rng, attachment), 0.12)
    state = relax(model.structure, tolerance=1e-6)
    assert state.converged, (state.message, state.residual)
