"""The deformed shape with what every part carries: what ``shape.vtu`` holds and the viewer draws."""

from dataclasses import dataclass
from enum import IntEnum
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from .vtu import VtuError, read_vtu, write_vtu

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


class Part(IntEnum):
    """What a cell belongs to; the number stands in the field ``part`` of the file."""

    CLOTH = 0
    LEFT_SIDE_CORD = 1
    RIGHT_SIDE_CORD = 2
    HEAD_LEFT_LEG = 3
    HEAD_RIGHT_LEG = 4
    FOOT_LEFT_LEG = 5
    FOOT_RIGHT_LEG = 6
    HEAD_LINE = 7
    FOOT_LINE = 8
    HEAD_BAR = 9
    FOOT_BAR = 10
    HEAD_EXTENSION = 11
    FOOT_EXTENSION = 12

    @property
    def title(self) -> str:
        """The part's name in words."""
        return self.name.lower().replace("_", " ")


SIDE_CORDS = (Part.LEFT_SIDE_CORD, Part.RIGHT_SIDE_CORD)
LINES = (Part.HEAD_LINE, Part.FOOT_LINE)
BARS = (Part.HEAD_BAR, Part.FOOT_BAR)
EXTENSIONS = (Part.HEAD_EXTENSION, Part.FOOT_EXTENSION)  # free edge of the cloth beyond a bar, from leg to leg


@dataclass(frozen=True)
class Shape:
    """Deformed hammock; x from head to foot, y to the occupant's left, z up from the ground (z = 0).

    Parameters
    ----------
    points : (n, 3)
        Where the nodes stand, m.
    triangles : (m, 3)
        Cloth.
    larger_stress, smaller_stress : (m,)
        Principal line stress, N per metre of cloth as cut.
    direction : (m, 3)
        Unit vector along the larger line stress.
    state : (m,)
        2 taut, 1 wrinkled, 0 slack.
    segments : (k, 2)
        Straight pieces of cord, line and bar.
    part : (k,)
        Which :class:`Part` each segment belongs to.
    force : (k,)
        Tension, N; a bar's thrust counts negative.
    """

    points: Floats
    triangles: Ints
    larger_stress: Floats
    smaller_stress: Floats
    direction: Floats
    state: Ints
    segments: Ints
    part: Ints
    force: Floats


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
    >>> shape = Shape(np.eye(3), cloth, one, one, np.eye(3)[:1], none, cord, none + 7, one)
    >>> write_shape(shape, Path(tempfile.mkdtemp()) / "shape.vtu")
    """
    write_vtu(
        path,
        shape.points,
        {"triangle": shape.triangles, "line": shape.segments},
        {},
        {
            "line_stress_larger_N_per_m": {"triangle": shape.larger_stress},
            "line_stress_smaller_N_per_m": {"triangle": shape.smaller_stress},
            "line_stress_direction": {"triangle": shape.direction},
            "taut_2_wrinkled_1_slack_0": {"triangle": shape.state},
            "tension_N": {"line": shape.force},
            "part": {"line": shape.part},
        },
    )


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
        If the file is missing or damaged, or is no shape of ours.

    Examples
    --------
    >>> read_shape(Path("nowhere.vtu"))
    Traceback (most recent call last):
    tautlay.cases.vtu.VtuError: nowhere.vtu is no file that can be read.
    """
    grid = read_vtu(path)
    try:
        fields = grid.cell_fields
        return Shape(
            grid.points,
            grid.cells["triangle"],
            fields["line_stress_larger_N_per_m"]["triangle"],
            fields["line_stress_smaller_N_per_m"]["triangle"],
            fields["line_stress_direction"]["triangle"],
            fields["taut_2_wrinkled_1_slack_0"]["triangle"],
            grid.cells["line"],
            fields["part"]["line"],
            fields["tension_N"]["line"],
        )
    except KeyError as error:
        raise VtuError(f"{path} is a VTU file but no shape of a hammock: it lacks {error}.") from None
