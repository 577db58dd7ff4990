"""Cloth beyond a bar that is set in, in shapes, their files and what is read off a picture."""

import dataclasses

import numpy as np
import pytest

from tautlay.cases.storage.gather_shape import gather_shape
from tautlay.cases.storage.shape import CellTag, read_shape, write_shape
from tautlay.cases.storage.vtu import VtuError
from tautlay.hammock import example_hammock, example_person
from tautlay.making import Reductions
from tautlay.meshing import build_model
from tautlay.solver import relax
from tautlay.viewer.field_list import NAMES
from tautlay.viewer.look import make_look, paint_cloth
from tautlay.viewer.readout import describe_triangle


@pytest.fixture(scope="module")
def extended():
    """A hammock whose head bar is set in, loaded."""
    hammock = example_hammock()
    hammock = dataclasses.replace(hammock, head_bar=dataclasses.replace(hammock.head_bar, set_in=0.2))
    model = build_model(hammock, example_person(), 0.12)
    return gather_shape(model, relax(model.structure), Reductions()), model


def test_cloth_beyond_a_bar_is_drawn_as_loaded_cloth(extended):
    """Its triangles are cloth of the shape with fields of their own, the leg runs along them, and all is kept in the file."""
    shape, model = extended
    beyond = shape.sheet == CellTag.HEAD_EXTENSION
    assert beyond.sum() == len(model.beyond[0].triangles)
    assert (shape.sheet[~beyond] == CellTag.CLOTH).all()
    assert shape.larger_stress[beyond].max() > 0
    assert len(paint_cloth(shape, make_look(shape, NAMES["larger-stress"], {}))) == len(shape.triangles)
    leg = shape.segments[shape.part == CellTag.HEAD_LEFT_LEG]
    assert leg.ravel()[[0, -1]].tolist() == model.nodes["head left leg"][[0, -1]].tolist()
    assert np.isin(leg[1:-1], shape.triangles[beyond]).all()
    assert describe_triangle(shape, int(np.flatnonzero(beyond)[0]), "metric").startswith("head extension\n")
    assert describe_triangle(shape, 0, "metric").startswith("cloth, ")


def test_a_shape_with_cloth_beyond_a_bar_comes_back(extended, tmp_path):
    shape, _ = extended
    write_shape(shape, tmp_path / "shape.vtu")
    read = read_shape(tmp_path / "shape.vtu")
    assert np.array_equal(read.sheet, shape.sheet)
    assert np.array_equal(read.triangles, shape.triangles)
    old = dataclasses.replace(
        shape, sheet=None, part=np.where(shape.part == 7, int(CellTag.HEAD_EXTENSION), shape.part)
    )
    write_shape(old, tmp_path / "old.vtu")
    with pytest.raises(VtuError, match=r"old.vtu is of another version: .* Solve the design again"):
        read_shape(tmp_path / "old.vtu")
