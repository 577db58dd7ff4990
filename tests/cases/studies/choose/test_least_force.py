"""The least force that statics leaves a line and a leg, against solved designs: never more than what one of them bears."""

import pytest

from tautlay.cases import read_design, solve_case, weigh_design
from tautlay.cases.studies.choose.least_force import find_least_pull
from tautlay.hammock import LoadCase
from tautlay.meshing.person_load import GRAVITY

from ._small import write_open


@pytest.mark.parametrize(
    ("load", "line_length", "height"),
    [("distributed", "0.75 m", "1.80 m"), ("sudden", "1.60 m", "2.45 m")],
)
def test_some_line_and_one_of_its_legs_bear_at_least_that(tmp_path, load, line_length, height):
    write_open(tmp_path, "", judge=f'\n[judge]\nloads = ["{load}"]\n')
    path = tmp_path / "design.toml"
    text = path.read_text(encoding="utf-8").replace('line_length = "0.75 m"', f'line_length = "{line_length}"')
    path.write_text(text.replace('strap_height = "1.80 m"', f'strap_height = "{height}"'), encoding="utf-8")
    design = read_design(path)
    result = solve_case(design, load=load, mesh_size=0.25, hot_spots=False)
    if result.shape.ground_clearance < 0.3:
        pytest.fail("hangs too low for the limit to count")
    forces, least = result.forces, find_least_pull(design)
    own = weigh_design(design).add().most * GRAVITY
    weight = design.person.mass * GRAVITY * (design.sudden_factor if load == LoadCase.SUDDEN else 1.0)
    assert weight / 2 <= least <= max(forces.head_line, forces.foot_line)
    end = max(("head", "foot"), key=forces.pick_line)
    assert (least - own) / 2 <= max(forces.pick_leg(end, side) for side in ("left", "right"))
