"""The laws of statics on the solved demonstration hammock, from the forces that are reported."""

import dataclasses

import numpy as np
import pytest

from tautlay.materials import Cord, parse_quantity, read_library
from tautlay.meshing import build_model

from .conftest import solve

GRAVITY = 9.80665  # m/s2, NIST SP 811


def unit(solved, start, end):
    """Return the unit vector from one named node to another."""
    a, b = (solved.state.positions[solved.model.nodes[name][0]] for name in (start, end))
    return (b - a) / np.linalg.norm(b - a)


def test_anchors_carry_the_whole_weight(demo, design):
    weight = (design.person.mass + demo.model.mass) * GRAVITY
    total = demo.state.reactions.sum(axis=0)
    assert total[2] == pytest.approx(weight, rel=1e-6)
    assert np.abs(total[:2]).max() < 1e-6 * weight


@pytest.mark.parametrize("end", ["head", "foot"])
def test_free_body_of_the_apex_closes(demo, end):
    """Two legs, the line and the apex's own weight are in balance."""
    node = demo.model.nodes[f"{end} apex"][0]
    pull = demo.tension(f"{end} line")[0] * unit(demo, f"{end} apex", f"{end} tree")
    for side in ("left", "right"):
        pull = pull + demo.tension(f"{end} {side} leg")[0] * unit(demo, f"{end} apex", f"{end} {side} corner")
    balance = pull + demo.model.structure.load[node]
    assert np.abs(balance).max() < 1e-5 * demo.tension(f"{end} line")[0]


@pytest.mark.parametrize("end", ["head", "foot"])
def test_free_body_of_the_bar_closes(demo, end):
    """Bar with both corners: legs, side cords, cloth and weight are in balance, and each end by itself with the thrust."""
    cloth = np.zeros_like(demo.state.positions)
    demo.model.elements["body"].add_force(demo.state.positions, cloth)
    total = np.zeros(3)
    thrust = demo.thrusts()[("head", "foot").index(end)]
    for side, other in (("left", "right"), ("right", "left")):
        corner = demo.model.nodes[f"{end} {side} corner"][0]
        edge = demo.model.nodes[f"{side} edge"]
        inner = edge[1] if end == "head" else edge[-2]
        cord = demo.tension(f"{side} side cord")[0 if end == "head" else -1]
        along = demo.state.positions[inner] - demo.state.positions[corner]
        pull = cord * along / np.linalg.norm(along)
        pull = pull + demo.tension(f"{end} {side} leg")[0] * unit(demo, f"{end} {side} corner", f"{end} apex")
        pull = pull + cloth[corner] + demo.model.structure.load[corner]
        push = -thrust * unit(demo, f"{end} {side} corner", f"{end} {other} corner")
        assert np.abs(pull + push).max() < 1e-5 * thrust
        total += pull
    assert np.abs(total).max() < 1e-5 * thrust


def test_half_a_model_with_symmetry_is_the_full_model(design):
    """Half the hammock with the middle held in its plane gives every force of the whole; lines carry half."""
    full = solve(build_model(design.hammock, design.person, 0.12), tolerance=1e-8).forces()
    half = solve(build_model(design.hammock, design.person, 0.12, half=True), tolerance=1e-8).forces()
    for name, force in half.items():
        assert force * (2 if "line" in name else 1) == pytest.approx(full[name], rel=1e-5), name


def test_line_tension_is_weight_over_twice_the_sine(design):
    """Common practice, no source: T = W / (2 sin a), the weight itself at 30 degrees.

    Statics makes it exact for the sum of both ends: T1 sin a1 + T2 sin a2 = W, T1 cos a1 = T2 cos a2.
    """
    solved = solve(build_model(design.hammock, design.person, 0.12))
    weight = (design.person.mass + solved.model.mass) * GRAVITY
    up, along = 0.0, []
    for end in ("head", "foot"):
        line = solved.tension(f"{end} line")[0] * unit(solved, f"{end} apex", f"{end} tree")
        up += line[2]
        along.append(abs(line[0]))
    assert up == pytest.approx(weight, rel=1e-3)  # the line's own weight hangs partly on the tree
    assert along[0] == pytest.approx(along[1], rel=1e-5)
    mean_angle = np.arctan(up / 2 / along[0])
    tensions = [solved.tension(f"{end} line")[0] for end in ("head", "foot")]
    assert np.mean(tensions) == pytest.approx(weight / (2 * np.sin(mean_angle)), rel=5e-3)


def test_side_cord_of_2_mm_runs_far_below_its_breaking_load(demo):
    """Common practice, no source: 2 mm UHMWPE holds about 1000 lbf; lying in it takes less than a fifth."""
    cord = read_library().find(Cord, "12-strand UHMWPE 2 mm")
    assert cord.breaking_load == pytest.approx(parse_quantity("1000 lbf", "force"), rel=0.05)
    assert max(demo.tension("left side cord")) < cord.breaking_load / 5


def test_packing_of_gathered_cloth_hardly_matters(design, monkeypatch):
    """The judgement behind a sliding cord, halved and doubled, moves each force by half a per cent at the most."""
    from tautlay.hammock import Attachment
    from tautlay.meshing import members

    channel = dataclasses.replace(design.hammock.channel, attachment=Attachment.FREE)
    hammock = dataclasses.replace(design.hammock, channel=channel)
    found = []
    for packed in (0.1, 0.2, 0.4):
        monkeypatch.setattr(members, "_PACKED", packed)
        found.append(solve(build_model(hammock, design.person, 0.08)).forces())
    for name in ("left side cord", "head bar", "foot bar", "head line", "head left leg"):
        for other in (found[0], found[2]):
            assert other[name] == pytest.approx(found[1][name], rel=5e-3), name
