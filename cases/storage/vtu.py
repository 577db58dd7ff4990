"""VTU files, the one place that knows meshio."""

from collections.abc import Mapping
from contextlib import redirect_stderr
from io import StringIO
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from ...materials.short_repr import write_repr
from ..design_issue import InputError
from .atomic import write_beside

Array = NDArray[Any]
KINDS = {"triangle": 3, "line": 2, "vertex": 1}  # cells this adapter carries, and how many corners each has


class Grid(NamedTuple):
    """What a VTU file holds.

    Parameters
    ----------
    points : (n, 3)
        m.
    cells : mapping of kind to (m, corners)
        Point numbers; the kinds are ``"triangle"``, ``"line"`` and ``"vertex"``.
    point_fields : mapping of name to (n,) or (n, 3)
        Values at the points.
    cell_fields : mapping of name to a mapping of kind to (m,) or (m, 3)
        Values in the cells.
    """

    points: Array
    cells: Mapping[str, Array]
    point_fields: Mapping[str, Array]
    cell_fields: Mapping[str, Mapping[str, Array]]

    def __repr__(self) -> str:
        return write_repr(
            self, f"{len(self.points)} points", *(f"{kind} {len(cells)}" for kind, cells in self.cells.items())
        )


class VtuError(InputError):
    """A VTU file that cannot be read; the message says why."""


def write_vtu(
    path: Path,
    points: ArrayLike,
    cells: Mapping[str, ArrayLike],
    point_fields: Mapping[str, ArrayLike],
    cell_fields: Mapping[str, Mapping[str, ArrayLike]],
) -> None:
    """Write triangles, lines and vertices with their fields, float64 to the last bit, whole or not at all.

    A VTU field has a value in every cell: where a field is not given for one kind of cell, zero stands there.

    Parameters
    ----------
    path : Path
        File name ending in ``.vtu``.
    points : (n, 3)
        m.
    cells : mapping of kind to (m, corners) int
        ``"triangle"``, ``"line"`` and ``"vertex"``.
    point_fields : mapping of name to (n,) or (n, 3)
        Values at the points.
    cell_fields : mapping of name to a mapping of kind to (m,) or (m, 3)
        Values in the cells.

    Raises
    ------
    ValueError
        For wrong shapes, unknown kinds, point numbers out of range and numbers that are not finite.
    OSError
        If the file cannot be written.

    Examples
    --------
    >>> import tempfile
    >>> file = Path(tempfile.mkdtemp()) / "one.vtu"
    >>> write_vtu(file, np.eye(3), {"triangle": [[0, 1, 2]]}, {}, {"stress": {"triangle": [0.1]}})
    >>> float(read_vtu(file).cell_fields["stress"]["triangle"][0])
    0.1
    """
    import meshio

    if path.suffix != ".vtu":
        raise ValueError(f"{path} must end in .vtu.")
    grid_points = _cast(points, "points")
    if grid_points.ndim != 2 or grid_points.shape[1] != 3:
        raise ValueError(f"points must have shape (n, 3), got {grid_points.shape}.")
    blocks = {kind: _cast_cells(kind, corners, len(grid_points)) for kind, corners in cells.items()}
    mesh = meshio.Mesh(
        grid_points,
        list(blocks.items()),
        point_data={name: _cast_field(name, value, len(grid_points)) for name, value in point_fields.items()},
        cell_data={name: _fill_field(name, given, blocks) for name, given in cell_fields.items()},
    )
    with write_beside(path) as beside:
        _guard(beside, lambda: meshio.write(beside, mesh, file_format="vtu", binary=True))


def read_vtu(path: Path) -> Grid:
    """Read triangles, lines and vertices with their fields.

    Parameters
    ----------
    path : Path
        A VTU file.

    Returns
    -------
    Grid
        Points, cells and fields as they were written.

    Raises
    ------
    VtuError
        If the file is missing, no VTU, or damaged.

    Examples
    --------
    >>> read_vtu(Path("nowhere.vtu"))
    Traceback (most recent call last):
    tautlay.cases.storage.vtu.VtuError: nowhere.vtu cannot be read.
    """
    import meshio

    if not path.is_file():
        raise VtuError(f"{path} cannot be read.")
    mesh = _guard(path, lambda: meshio.read(path, file_format="vtu"))
    kinds = [block.type for block in mesh.cells]
    if len(set(kinds)) != len(kinds) or not set(kinds) <= set(KINDS):
        raise VtuError(
            f"{path} has cells {', '.join(kinds)}, but only one block each of {', '.join(KINDS)} is allowed."
        )
    return Grid(
        mesh.points,
        {block.type: block.data for block in mesh.cells},
        dict(mesh.point_data),
        {name: dict(zip(kinds, values, strict=True)) for name, values in mesh.cell_data.items()},
    )


def _guard(path: Path, work: Any) -> Any:  # noqa: ANN401  (meshio carries no types)
    """Do ``work``, turning what meshio does with a bad file (it may even print and exit) into an error of ours."""
    try:
        with redirect_stderr(StringIO()):
            return work()
    except OSError:
        raise
    except SystemExit as error:
        raise VtuError(f"{path} is damaged or not a VTU file.") from error
    except Exception as error:
        reason = str(error).rstrip(".") or type(error).__name__
        raise VtuError(f"{path} is not a usable VTU file: {reason}.") from error


def _cast(value: ArrayLike, name: str) -> Array:
    """Return float64 or int64 numbers, all finite."""
    array = np.asarray(value)
    array = np.ascontiguousarray(array, dtype=np.int64 if array.dtype.kind in "iub" else np.float64)
    if not np.isfinite(array).all():
        raise ValueError(f"{name} has a number that is not finite.")
    return array


def _cast_field(name: str, value: ArrayLike, count: int) -> Array:
    """Return one value or vector for each of ``count`` places."""
    field = _cast(value, name)
    if field.shape not in ((count,), (count, 3)):
        raise ValueError(f"field {name} must have shape ({count},) or ({count}, 3), got {field.shape}.")
    return field


def _cast_cells(kind: str, corners: ArrayLike, count: int) -> Array:
    """Return point numbers of one kind of cell."""
    if kind not in KINDS:
        raise ValueError(f"unknown kind of cells {kind}. Choose {', '.join(KINDS)}.")
    cells = np.ascontiguousarray(corners, dtype=np.int64)
    if cells.ndim != 2 or cells.shape[1] != KINDS[kind]:
        raise ValueError(f"{kind} cells must have shape (m, {KINDS[kind]}), got {cells.shape}.")
    if cells.size and (cells.min() < 0 or cells.max() >= count):
        raise ValueError(f"{kind} cells name a point outside 0 to {count - 1}.")
    return cells


def _fill_field(name: str, given: Mapping[str, ArrayLike], blocks: Mapping[str, Array]) -> list[Array]:
    """Return the field block by block, zero where it is not given."""
    if not given or not set(given) <= set(blocks):
        raise ValueError(f"field {name} is given for {sorted(given)}, but the cells are {sorted(blocks)}.")
    known = {kind: _cast_field(f"{name} ({kind})", value, len(blocks[kind])) for kind, value in given.items()}
    pattern = next(iter(known.values()))
    missing = {
        kind: np.zeros((len(cells), *pattern.shape[1:]), pattern.dtype)
        for kind, cells in blocks.items()
        if kind not in known
    }
    return [(known | missing)[kind] for kind in blocks]
