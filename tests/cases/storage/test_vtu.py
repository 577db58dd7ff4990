import dataclasses

import meshio
import numpy as np
import pytest

from tautlay.cases.storage.shape import FLESH, CellTag, read_shape, write_shape
from tautlay.cases.storage.vtu import VtuError, read_vtu, write_vtu

RANDOM = np.random.default_rng(7)
POINTS = RANDOM.normal(size=(5, 3)) * 10.0 ** RANDOM.integers(-200, 200, size=(5, 1))
TRIANGLES = np.array([[0, 1, 2], [2, 3, 4]])
LINES = np.array([[0, 4], [1, 3], [2, 0]])


def write_sample(path, **changes):
    given = {
        "points": POINTS,
        "cells": {"triangle": TRIANGLES, "line": LINES},
        "point_fields": {"where": POINTS, "height": POINTS[:, 2]},
        "cell_fields": {"force": {"line": RANDOM.normal(size=3)}, "kind": {"triangle": np.array([2, 0])}},
    }
    given.update(changes)
    write_vtu(path, **given)
    return given


def test_round_trip_is_exact_to_the_last_bit(tmp_path):
    given = write_sample(tmp_path / "a.vtu")
    back = read_vtu(tmp_path / "a.vtu")
    assert back.points.dtype == np.float64
    assert back.points.tobytes() == POINTS.tobytes()
    assert np.array_equal(back.cells["triangle"], TRIANGLES)
    assert np.array_equal(back.cells["line"], LINES)
    for name, values in given["point_fields"].items():
        assert back.point_fields[name].tobytes() == np.ascontiguousarray(values).tobytes()
    assert back.cell_fields["force"]["line"].tobytes() == given["cell_fields"]["force"]["line"].tobytes()
    assert back.cell_fields["kind"]["triangle"].dtype == np.int64
    assert back.cell_fields["kind"]["triangle"].tolist() == [2, 0]


def test_field_of_one_kind_of_cell_is_zero_in_the_other(tmp_path):
    write_sample(tmp_path / "a.vtu")
    assert not read_vtu(tmp_path / "a.vtu").cell_fields["force"]["triangle"].any()


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"points": np.full((5, 3), np.nan)}, "points has a number that is not finite"),
        ({"points": POINTS[:, :2]}, r"points must have shape \(n, 3\)"),
        ({"cells": {"triangle": TRIANGLES + 3, "line": LINES}}, "triangle cells name a point outside 0 to 4"),
        ({"cells": {"quad": [[0, 1, 2, 3]]}}, "unknown kind of cells quad"),
        ({"cells": {"triangle": LINES}}, r"triangle cells must have shape \(m, 3\)"),
        ({"cell_fields": {"force": {"line": [1.0, np.inf, 0.0]}}}, "force .line. has a number that is not finite"),
        ({"cell_fields": {"force": {"line": [1.0]}}}, r"field force .line. must have shape \(3,\) or \(3, 3\)"),
        ({"cell_fields": {"force": {"quad": [1.0]}}}, "field force is given for"),
        ({"cell_fields": {"force": {}}}, "field force is given for"),
        ({"point_fields": {"height": [1.0]}}, r"field height must have shape \(5,\)"),
    ],
)
def test_bad_input_is_named_and_nothing_is_written(tmp_path, changes, words):
    with pytest.raises(ValueError, match=words):
        write_sample(tmp_path / "a.vtu", **changes)
    assert not list(tmp_path.iterdir())


def test_other_ending_is_refused(tmp_path):
    with pytest.raises(ValueError, match=r"must end in \.vtu"):
        write_sample(tmp_path / "a.txt")


@pytest.mark.parametrize(
    "content", [b"", b"no xml", b"<?xml version='1.0'?><VTKFile type='PolyData'/>", bytes(range(256))]
)
def test_damaged_file_is_one_sentence(tmp_path, content):
    (tmp_path / "a.vtu").write_bytes(content)
    with pytest.raises(VtuError, match=r"a\.vtu (is not a usable VTU file|is damaged or not a VTU file)"):
        read_vtu(tmp_path / "a.vtu")


def test_a_reader_that_exits_does_not_end_the_program(tmp_path, monkeypatch):
    # meshio's reader calls sys.exit where it knows no better.
    def leave(*args, **kwargs):
        raise SystemExit(1)

    write_sample(tmp_path / "a.vtu")
    monkeypatch.setattr(meshio, "read", leave)
    with pytest.raises(VtuError, match="is damaged or not a VTU file"):
        read_vtu(tmp_path / "a.vtu")


def test_interrupt_while_writing_leaves_no_half_file(tmp_path, monkeypatch):
    def interrupt(path, *args, **kwargs):
        path.write_bytes(b"<?xml half")
        raise KeyboardInterrupt

    monkeypatch.setattr(meshio, "write", interrupt)
    with pytest.raises(KeyboardInterrupt):
        write_sample(tmp_path / "a.vtu")
    assert not list(tmp_path.iterdir())


def test_cells_of_another_kind_are_refused(tmp_path):
    meshio.write(tmp_path / "a.vtu", meshio.Mesh(np.eye(3), [("quad", [[0, 1, 2, 0]])]))
    with pytest.raises(VtuError, match="has cells quad"):
        read_vtu(tmp_path / "a.vtu")


def test_shape_round_trip_is_exact(tmp_path, saddle):
    write_shape(saddle, tmp_path / "shape.vtu")
    back = read_shape(tmp_path / "shape.vtu")
    for item in dataclasses.fields(saddle):
        assert np.array_equal(getattr(back, item.name), getattr(saddle, item.name)), item.name


@pytest.mark.parametrize("left_out", [(), (CellTag.HEAD, CellTag.LEFT_KNEE_PAD, CellTag.RIGHT_KNEE_PAD)])
def test_shape_with_a_person_makes_the_round_trip_exactly(tmp_path, lain, left_out):
    kept = ~np.isin(lain.occupant.part, left_out)
    names = ("axes", "radii", "part")
    fewer = dataclasses.replace(lain.occupant, **{name: getattr(lain.occupant, name)[kept] for name in names})
    given = dataclasses.replace(lain, occupant=fewer)
    write_shape(given, tmp_path / "shape.vtu")
    back = read_shape(tmp_path / "shape.vtu")
    for item in dataclasses.fields(given):
        if item.name != "occupant":
            assert np.array_equal(getattr(back, item.name), getattr(given, item.name)), item.name
    for item in dataclasses.fields(fewer):
        found, wanted = getattr(back.occupant, item.name), getattr(fewer, item.name)
        if wanted is None:
            assert found is None
            continue
        assert found.tobytes() == wanted.tobytes(), item.name


def test_any_reader_finds_person_and_pressure(tmp_path, lain):
    """Lines and vertices with a radius at their points, as tube and ball filters of VTU viewers take it."""
    write_shape(lain, tmp_path / "shape.vtu")
    raw, occupant = meshio.read(tmp_path / "shape.vtu"), lain.occupant
    kinds = [block.type for block in raw.cells]
    part, pressure = (dict(zip(kinds, raw.cell_data[name], strict=True)) for name in ("part", "contact_pressure_Pa"))
    assert np.array_equal(pressure["triangle"], occupant.pressure)
    assert not pressure["line"].any()
    balls = {CellTag(kind): cell for kind, (cell,) in zip(part["vertex"], raw.cells_dict["vertex"], strict=True)}
    assert set(balls) == {CellTag.HEAD, CellTag.LEFT_KNEE_PAD, CellTag.RIGHT_KNEE_PAD}
    for kind, radius in ((CellTag.HEAD, 0.08), (CellTag.LEFT_KNEE_PAD, 0.09)):
        assert raw.point_data["radius_m"][balls[kind]] == radius
    rows = np.isin(part["line"], FLESH)
    for kind, ends in zip(part["line"][rows], raw.cells_dict["line"][rows], strict=True):
        (row,) = np.flatnonzero(occupant.part == kind)
        assert np.array_equal(raw.points[ends], occupant.axes[row])
        assert np.array_equal(raw.point_data["radius_m"][ends], occupant.radii[row])
    assert len(balls) + rows.sum() == len(occupant.part)


def test_forces_on_the_cloth_come_back_and_add_up(tmp_path, lain):
    """What presses on the triangles, as vectors: pressure times area is their length."""
    push = np.random.default_rng(5).normal(size=(len(lain.triangles), 3))
    pushed = dataclasses.replace(lain, occupant=dataclasses.replace(lain.occupant, push=push))
    write_shape(pushed, tmp_path / "shape.vtu")
    assert read_shape(tmp_path / "shape.vtu").occupant.push.tobytes() == push.tobytes()


def test_file_without_a_person_has_no_fields_of_one(tmp_path, saddle):
    write_shape(saddle, tmp_path / "shape.vtu")
    raw = meshio.read(tmp_path / "shape.vtu")
    assert [block.type for block in raw.cells] == ["triangle", "line"]
    assert "radius_m" not in raw.point_data
    assert "contact_pressure_Pa" not in raw.cell_data


def test_grid_without_our_fields_is_no_shape(tmp_path):
    write_sample(tmp_path / "a.vtu")
    with pytest.raises(VtuError, match=r"not a shape of a hammock.*: 'part' is missing"):
        read_shape(tmp_path / "a.vtu")
