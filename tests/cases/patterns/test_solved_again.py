"""A hammock sewn from the DXF is the hammock that was solved."""

from dataclasses import replace

import ezdxf
import numpy as np
import pytest

from tautlay.cases import read_design, solve_case
from tautlay.hammock.hammock import Arc

from ..._patterns import DEMONSTRATIONS, write_design

MM = 1e-3


def read_lines(blocks, layer):
    """Return the lines of a layer, m."""
    found = []
    for entity in (each for block in blocks for each in block if each.dxf.layer == layer):
        if entity.dxftype() == "POLYLINE":
            found.append(np.array([tuple(vertex.dxf.location)[:2] for vertex in entity.vertices]) * MM)
        elif entity.dxftype() == "LINE":
            found.append(np.array([tuple(entity.dxf.start)[:2], tuple(entity.dxf.end)[:2]]) * MM)
    return found


def read_sides(blocks):
    """Return the right and the left side, m, from head to foot: of a body in one piece the longest line there is."""
    curves, sides = [line for line in read_lines(blocks, "14") if len(line) > 2], []
    for sign in (-1.0, 1.0):
        here = [line for line in curves if sign * line[:, 1].mean() > 0]
        parts = here if len(blocks) > 1 else [max(here, key=lambda line: np.hypot(*np.diff(line, axis=0).T).sum())]
        points = np.concatenate(parts)
        sides.append(points[np.argsort(points[:, 0])])
    return sides


def fit_body(folder, body):
    """Return the body with lengths, widths, depths and grain measured on the lines of the DXF."""
    document = ezdxf.readfile(folder / "pieces.dxf")
    blocks = [block for block in document.blocks if block.name.startswith("body")]
    right, left = read_sides(blocks)
    length = float(left[-1, 0] - left[0, 0])
    arcs = []
    for side in (left, right):
        middle = np.interp(length / 2, side[:, 0], np.abs(side[:, 1]))
        arcs.append(float((abs(side[0, 1]) + abs(side[-1, 1])) / 2 - middle))
    head, foot = (float(left[end, 1] - right[end, 1]) for end in (0, -1))
    (arrow, *_) = [line for line in read_lines(blocks, "7") if len(line) == 2]
    along, across = arrow[1] - arrow[0]
    return replace(
        body,
        length=length,
        head_width=head,
        foot_width=foot,
        left_arc=Arc(arcs[0], body.left_arc.shape),
        right_arc=Arc(arcs[1], body.right_arc.shape),
        grain=float(np.arctan(across / along)),
    )


@pytest.mark.slow
@pytest.mark.parametrize("name", [*DEMONSTRATIONS, "uneven"])
def test_the_outline_of_the_dxf_solved_again_gives_the_same_forces(folders, tmp_path, name):
    """Cords, thrusts and the highest pull of the cloth, of one piece, of panels, and with an extension that runs on."""
    design = read_design(write_design(tmp_path, name))
    body = fit_body(folders[name], design.hammock.body)
    assert body != design.hammock.body
    assert (body.grain, body.length) == pytest.approx((design.hammock.body.grain, design.hammock.body.length), abs=1e-6)
    again = replace(design, hammock=replace(design.hammock, body=body))
    results = [solve_case(each, mesh_size=0.1, hot_spots=False) for each in (design, again)]
    first, second = (result.forces for result in results)
    assert second.head_bar_thrust == pytest.approx(first.head_bar_thrust, rel=1e-3)
    assert second.foot_bar_thrust == pytest.approx(first.foot_bar_thrust, rel=1e-3)
    cords = [name for name in vars(first) if "side_cord" in name]
    for cord in cords:
        assert np.asarray(getattr(second, cord)) == pytest.approx(np.asarray(getattr(first, cord)), rel=1e-3)
    assert cords
    pulls = [result.fabric.highest_line_stress for result in results]
    assert pulls[1] == pytest.approx(pulls[0], rel=1e-3)
