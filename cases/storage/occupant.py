"""The person in contact as a shape holds it, and as points and cells of a file."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from ...hammock.arrays import FloatArray, IntegerArray
from ...materials.short_repr import write_repr, write_value


@dataclass(frozen=True)
class Occupant:
    """A person in contact: capsules, each the hull of two balls, and what they press on the cloth.

    Parameters
    ----------
    axes : (c, 2, 3)
        Middles of both balls, m; twice the same for a single ball.
    radii : (c, 2)
        m.
    part : (c,)
        Which :class:`~tautlay.cases.storage.cell_tag.CellTag` each capsule is.
    pressure : (m,)
        Contact force on each triangle of the cloth over its area, Pa.
    push : (m, 3) or None
        That force, N, of which some acts along the cloth; None in files written before it was kept.
    """

    axes: FloatArray
    radii: FloatArray
    part: IntegerArray
    pressure: FloatArray
    push: FloatArray | None = None

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{len(self.axes)} capsules",
            f"most pressure {write_value(float(self.pressure.max(initial=0.0)), 'stress')}",
        )


class Packed(NamedTuple):
    """An occupant as points with a radius, and cells: a line for each capsule, a vertex for each single ball.

    No two cells share a point, since capsules that meet may differ in radius there. Cells are kept in the order of
    their first points.
    """

    points: FloatArray
    radius: FloatArray
    cells: Mapping[str, IntegerArray]
    part: Mapping[str, IntegerArray]

    def __repr__(self) -> str:
        return write_repr(self, f"{len(self.points)} points")


def pack_occupant(occupant: Occupant, first: int) -> Packed:
    """Return ``occupant`` as points, numbered from ``first``, and cells.

    Parameters
    ----------
    occupant : Occupant
        Who lies there.
    first : int
        Number of its first point.

    Examples
    --------
    >>> both = np.array([[[0.0, 0, 1], [0, 0, 1]], [[0, 0, 1], [1, 0, 1]]])
    >>> packed = pack_occupant(Occupant(both, np.full((2, 2), 0.1), np.array([13, 14]), np.zeros(1)), 7)
    >>> {kind: cells.tolist() for kind, cells in packed.cells.items()}
    {'line': [[8, 9]], 'vertex': [[7]]}
    """
    axes, radii = occupant.axes, occupant.radii
    single = (axes[:, 0] == axes[:, 1]).all(axis=1) & (radii[:, 0] == radii[:, 1])
    count = np.where(single, 1, 2)
    start = first + np.cumsum(count) - count
    kept = np.column_stack([np.ones(len(single), dtype=bool), ~single])
    return Packed(
        axes[kept],
        radii[kept],
        {"line": start[~single, None] + np.arange(2), "vertex": start[single, None]},
        {"line": occupant.part[~single], "vertex": occupant.part[single]},
    )


def unpack_occupant(packed: Packed, pressure: FloatArray, push: FloatArray | None) -> Occupant:
    """Return the occupant that was packed.

    Parameters
    ----------
    packed : Packed
        Points of the whole file; of the cells only those of the person.
    pressure : (m,)
        Contact pressure on the cloth, Pa.
    push : (m, 3) or None
        Contact force on the cloth, N.
    """
    cells = np.concatenate([packed.cells["line"], np.repeat(packed.cells["vertex"], 2, axis=1)])
    part = np.concatenate([packed.part["line"], packed.part["vertex"]])
    order = np.argsort(cells[:, 0])
    cells = cells[order]
    return Occupant(packed.points[cells], packed.radius[cells], part[order], pressure, push)
