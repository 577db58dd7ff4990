"""A hammock sewn from the DXF is the hammock that was solved."""

from dataclasses import replace

import ezdxf
import numpy as np
import pytest

from tautlay.cases import read_design, solve_case
from tautlay.hammock.hammock import Arc

from ..._patterns import write_design

MM = 1e-3


def fit_body(folder, body):
    """Return the body with lengths, widths and depths measured on the sewing lines of the DXF."""
    block = ezdxf.readfile(folder / "pieces.dxf").blocks.get("body")
    lines = []
    for entity in block:
        if entity.dxf.layer == "14" and entity.dxftype() == "POLYLINE":
            lines.append(np.array([tuple(vertex.dxf.location)[:2] for vertex in entity.vertices]) * MM)
        elif entity.dxf.layer == "14":
            lines.append(np.array([tuple(entity.dxf.start)[:2], tuple(entity.dxf.end)[:2]]) * MM)
    sides = sorted((line[np.argsort(line[:, 0])] for line in lines if len(line) > 2), key=lambda line: line[0, 1])
    right, left = sides
    length = float(left[-1, 0] - left[0, 0])
    arcs = []
    for side in (left, right):
        middle = np.interp(length / 2, side[:, 0], np.abs(side[:, 1]))
        arcs.append(float((abs(side[0, 1]) + abs(side[-1, 1])) / 2 - middle))
    head, foot = (float(left[end, 1] - right[end, 1]) for end in (0, -1))
    return replace(
        body,
        length=length,
        head_width=head,
        foot_width=foot,
        left_arc=Arc(arcs[0], body.left_arc.shape),
        right_arc=Arc(arcs[1], body.right_arc.shape),
    )


@pytest.mark.slow
@pytest.mark.parametrize("name", ["larch_ridge", "heron_ford"])
def test_the_outline_of_the_dxf_solved_again_gives_the_same_forces(folders, tmp_path, name):
    design = read_design(write_design(tmp_path, name))
    body = fit_body(folders[name], design.hammock.body)
    assert body != design.hammock.body
    again = replace(design, hammock=replace(design.hammock, body=body))
    first, second = (solve_case(each, mesh_size=0.1, hot_spots=False).forces for each in (design, again))
    assert second.head_bar_thrust == pytest.approx(first.head_bar_thrust, rel=1e-3)
    assert second.foot_bar_thrust == pytest.approx(first.foot_bar_thrust, rel=1e-3)
    cords = [name for name in vars(first) if "side_cord" in name]
    for cord in cords:
        assert np.asarray(getattr(second, cord)) == pytest.approx(np.asarray(getattr(first, cord)), rel=1e-3)
    assert cords
