"""The deformed shape with the load of every part: content of ``shape.vtu`` and of the viewer."""

from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from ...hammock.arrays import FloatArray, IntegerArray
from ...materials.short_repr import write_repr, write_value
from .cell_tag import BARS, EXTENSIONS, FLESH, LINES, SIDE_CORDS, CellTag
from .occupant import Occupant, Packed, pack_occupant, unpack_occupant
from .vtu import Grid, VtuError, read_vtu, write_vtu

__all__ = [
    "BARS",
    "EXTENSIONS",
    "FLESH",
    "LINES",
    "SIDE_CORDS",
    "CellTag",
    "FloatArray",
    "IntegerArray",
    "Occupant",
    "Shape",
    "read_shape",
    "write_shape",
]  # fmt: skip

_TRUNK = "trunk_thickness_m"
# What every triangle of the cloth has: name in a shape, name in a file.
_OF_CLOTH = {
    "larger_stress": "line_stress_larger_N_per_m",
    "smaller_stress": "line_stress_smaller_N_per_m",
    "direction": "line_stress_direction",
    "state": "taut_2_wrinkled_1_slack_0",
    "warp_share": "warp_share_of_strength",
    "weft_share": "weft_share_of_strength",
}


@dataclass(frozen=True)
class Shape:
    """Deformed hammock; x from head to foot, y to the occupant's left, z up from the ground (z = 0).

    Parameters
    ----------
    points : (n, 3)
        Where the nodes stand, m.
    flat : (n, 2)
        Where the nodes of the cloth lie before it is sewn, m from the head bar, and to the left of the line
        through the middles of both bars; zero for nodes of no triangle. A piece that is sewn on beyond a bar lies with
        the middle of its sewn edge at the bar.
    triangles : (m, 3)
        Cloth.
    larger_stress, smaller_stress : (m,)
        Principal line stress, N per metre of cloth as cut.
    direction : (m, 3)
        Unit vector along the larger line stress.
    state : (m,)
        2 taut, 1 wrinkled, 0 slack.
    warp_share, weft_share : (m,)
        Pull on these threads over the strength of all layers.
    segments : (k, 2)
        Straight pieces of cord, line and bar.
    part : (k,)
        Which :class:`CellTag` each segment belongs to.
    force : (k,)
        Tension, N; a bar's thrust counts negative.
    occupant : Occupant or None
        The person in contact, if there is one; none of its points is among ``points``.
    sheet : (m,) or None
        Which :class:`CellTag` each triangle belongs to; None where all are the body's.
    trunk : (n,) or None
        Thickness of the trunk at the points where the lines end on trees, m, zero elsewhere and where it is not told;
        None in files of an older version.
    """

    points: FloatArray
    flat: FloatArray
    triangles: IntegerArray
    larger_stress: FloatArray
    smaller_stress: FloatArray
    direction: FloatArray
    state: IntegerArray
    warp_share: FloatArray
    weft_share: FloatArray
    segments: IntegerArray
    part: IntegerArray
    force: FloatArray
    occupant: Occupant | None = None
    trunk: FloatArray | None = None
    sheet: IntegerArray | None = None

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{len(self.triangles)} triangles",
            f"{len(self.segments)} segments",
            f"most tension {write_value(float(self.force.max(initial=0.0)), 'force')}",
            f"most pull {write_value(float(self.larger_stress.max(initial=0.0)), 'line_load')}",
            "a person in contact" if self.occupant is not None else "",
        )


def write_shape(shape: Shape, path: Path) -> None:
    """Write ``shape`` as a VTU file that any VTU reader opens.

    Parameters
    ----------
    shape : Shape
        Deformed hammock.
    path : Path
        File name ending in ``.vtu``.

    Raises
    ------
    ValueError
        For arrays that do not fit together or hold a number that is not finite.
    OSError
        If the file cannot be written.

    Examples
    --------
    >>> import tempfile
    >>> one, none = np.ones(1), np.zeros(1, int)
    >>> cloth, cord = np.array([[0, 1, 2]]), np.array([[0, 1]])
    >>> shape = Shape(np.eye(3), np.eye(3, 2), cloth, one, one, np.eye(3)[:1], none, one, one, cord, none + 7, one)
    >>> write_shape(shape, Path(tempfile.mkdtemp()) / "shape.vtu")
    """
    cells: dict[str, IntegerArray] = {"triangle": shape.triangles, "line": shape.segments}
    fields: dict[str, dict[str, FloatArray | IntegerArray]] = {
        **{stored: {"triangle": getattr(shape, name)} for name, stored in _OF_CLOTH.items()},
        "tension_N": {"line": shape.force},
        "part": {"line": shape.part},
    }
    if shape.sheet is not None:
        fields["part"]["triangle"] = shape.sheet
    flat = np.column_stack([shape.flat, np.zeros(len(shape.flat))])
    at_points = {"flat_position_m": flat} if shape.trunk is None else {"flat_position_m": flat, _TRUNK: shape.trunk}
    if shape.occupant is None:
        write_vtu(path, shape.points, cells, at_points, fields)
        return
    packed = pack_occupant(shape.occupant, len(shape.points))
    rods, balls = packed.cells["line"], packed.cells["vertex"]
    cells["line"] = np.concatenate([shape.segments, rods])
    fields["tension_N"]["line"] = np.concatenate([shape.force, np.zeros(len(rods))])
    fields["part"]["line"] = np.concatenate([shape.part, packed.part["line"]])
    fields["contact_pressure_Pa"] = {"triangle": shape.occupant.pressure}
    if shape.occupant.push is not None:
        fields["contact_force_N"] = {"triangle": shape.occupant.push}
    if len(balls):
        cells["vertex"], fields["part"]["vertex"] = balls, packed.part["vertex"]
    radius = np.concatenate([np.zeros(len(shape.points)), packed.radius])
    more = len(packed.points)
    at_points = {name: np.concatenate([rows, np.zeros((more, *rows.shape[1:]))]) for name, rows in at_points.items()}
    at_points["radius_m"] = radius
    write_vtu(path, np.concatenate([shape.points, packed.points]), cells, at_points, fields)


def read_shape(path: Path) -> Shape:
    """Read a shape written by :func:`write_shape`.

    Parameters
    ----------
    path : Path
        The VTU file.

    Returns
    -------
    Shape
        Equal to what was written, bit for bit.

    Raises
    ------
    VtuError
        If the file is missing or damaged, or is not a shape of ours.

    Examples
    --------
    >>> read_shape(Path("nowhere.vtu"))
    Traceback (most recent call last):
    tautlay.cases.storage.vtu.VtuError: nowhere.vtu cannot be read.
    """
    grid = read_vtu(path)
    try:
        fields = grid.cell_fields
        ours, sheet = fields["part"]["line"] < min(FLESH), fields["part"]["triangle"]
        if np.isin(fields["part"]["line"], EXTENSIONS).any():
            raise VtuError(
                f"{path} is of another version: its cloth beyond the bars carries nothing. Solve the design again."
            )
        nodes = grid.point_fields["radius_m"] == 0.0 if "radius_m" in grid.point_fields else slice(None)
        return Shape(
            points=grid.points[nodes],
            flat=grid.point_fields["flat_position_m"][nodes, :2],
            triangles=grid.cells["triangle"],
            segments=grid.cells["line"][ours],
            part=fields["part"]["line"][ours],
            force=fields["tension_N"]["line"][ours],
            occupant=_read_occupant(grid, ~ours),
            trunk=grid.point_fields[_TRUNK][nodes] if _TRUNK in grid.point_fields else None,
            sheet=sheet if sheet.any() else None,
            **{name: fields[stored]["triangle"] for name, stored in _OF_CLOTH.items()},
        )
    except KeyError as error:
        raise VtuError(
            f"{path} is not a shape of a hammock, or of another version: {error} is missing. Solve the design again."
        ) from None


def _read_occupant(grid: Grid, flesh: NDArray[np.bool_]) -> Occupant | None:
    """Return the person of a file in which some lines are ``flesh`` (k,); None if it knows of no radius."""
    if "radius_m" not in grid.point_fields:
        return None
    part = grid.cell_fields["part"]
    rods, balls = grid.cells["line"][flesh], grid.cells.get("vertex", np.empty((0, 1), dtype=np.int64))
    cells, parts = (
        {"line": rods, "vertex": balls},
        {"line": part["line"][flesh], "vertex": part.get("vertex", balls[:, 0])},
    )
    packed = Packed(grid.points, grid.point_fields["radius_m"], cells, parts)
    push = grid.cell_fields.get("contact_force_N", {}).get("triangle")
    return unpack_occupant(packed, grid.cell_fields["contact_pressure_Pa"]["triangle"], push)
