"""Clothing that grips where the body touches the cloth."""

from importlib.resources import files

from tautlay.cases import read_design
from tautlay.hammock import LoadCase
from tautlay.meshing import build_model
from tautlay.meshing.clothing import clothe, grip_cloth


def test_who_has_left_the_cloth_is_held_by_nothing_and_nothing_is_added():
    design = read_design(str(files("tautlay.cases") / "larch_ridge.toml"))
    model = build_model(design.hammock, design.person, 0.2, tree_distance=4.2, load=LoadCase.LYING)
    beyond = model.start.copy()
    beyond[-len(model.frame.names) :, 1] += 5.0  # m to the side
    grips = grip_cloth(model, beyond)
    assert len(grips.triangle) == 0
    assert clothe(model, grips, 0.35) is model
