import dataclasses

import meshio
import numpy as np
import pytest

from tautlay.cases.shape import read_shape, write_shape
from tautlay.cases.vtu import VtuError, read_vtu, write_vtu

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
        ({"points": np.full((5, 3), np.nan)}, "points holds a number that is not finite"),
        ({"points": POINTS[:, :2]}, r"points must have shape \(n, 3\)"),
        ({"cells": {"triangle": TRIANGLES + 3, "line": LINES}}, "triangle cells name a point outside 0 to 4"),
        ({"cells": {"quad": [[0, 1, 2, 3]]}}, "cells of kind quad are not known"),
        ({"cells": {"triangle": LINES}}, r"triangle cells must have shape \(m, 3\)"),
        ({"cell_fields": {"force": {"line": [1.0, np.inf, 0.0]}}}, "force .line. holds a number that is not finite"),
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
    with pytest.raises(VtuError, match=r"a\.vtu is not a VTU file that can be used"):
        read_vtu(tmp_path / "a.vtu")


def test_a_reader_that_exits_does_not_end_the_program(tmp_path, monkeypatch):
    # meshio's reader calls sys.exit where it knows no better.
    def leave(*args, **kwargs):
        raise SystemExit(1)

    write_sample(tmp_path / "a.vtu")
    monkeypatch.setattr(meshio, "read", leave)
    with pytest.raises(VtuError, match="can be used: 1"):
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
    meshio.write(tmp_path / "a.vtu", meshio.Mesh(np.eye(3), [("vertex", [[0]])]))
    with pytest.raises(VtuError, match="holds cells vertex"):
        read_vtu(tmp_path / "a.vtu")


def test_shape_round_trip_is_exact(tmp_path, saddle):
    write_shape(saddle, tmp_path / "shape.vtu")
    back = read_shape(tmp_path / "shape.vtu")
    for item in dataclasses.fields(saddle):
        assert np.array_equal(getattr(back, item.name), getattr(saddle, item.name)), item.name


def test_grid_without_our_fields_is_no_shape(tmp_path):
    write_sample(tmp_path / "a.vtu")
    with pytest.raises(VtuError, match="no shape of a hammock: it lacks 'line_stress_larger_N_per_m'"):
        read_shape(tmp_path / "a.vtu")
