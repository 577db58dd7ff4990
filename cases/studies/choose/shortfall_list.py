r"""How far a design is from earning the verdict: a number for each kind of requirement, none negative where it passes.

.. math:: g_k = \ln r_k + o_k, \qquad g_t = 1 - u_t

with the least reserve factor r of each kind k of part, the share u that is used of the limits of each topic t, and an
offset o: what is added to ln r on the mesh of the design, as one design tells that was solved on both meshes.
"""

from collections.abc import Mapping
from math import log

import numpy as np

from ....hammock.arrays import FloatArray
from ..sweep.result_value import RESERVES
from ..sweep.sweep_row import RowStatus, SweepRow

Offsets = Mapping[str, float]
_TOPICS = ("ground_used", "lay_used", "size_used")
_LOST = -1.0  # of a design that has no equilibrium or cannot be made
_FREE = 1.0  # of what does not apply


def measure_shortfalls(row: SweepRow | None, offsets: Offsets) -> FloatArray:
    """Return how far a design is from passing, (k,): every number at least 0 where it passes.

    Parameters
    ----------
    row : SweepRow or None
        Of a design that was solved; None of one that cannot be made.
    offsets : mapping of str to float
        By the key of a reserve factor.
    """
    if row is None or row.status is not RowStatus.SOLVED:
        return np.full(len(RESERVES) + len(_TOPICS) + 1, _LOST)
    figures = row.figures
    strength = [
        log(figures[each.key]) + offsets.get(each.key, 0.0) if figures.get(each.key, 0.0) > 0.0 else _FREE
        for each in RESERVES
    ]
    topics = [1.0 - figures[key] if key in figures else _FREE for key in _TOPICS]
    found = np.array([*strength, *topics, -figures.get("plainly_unmet", 0.0)], dtype=np.float64)
    return np.clip(found, _LOST, None)


def add_shortfalls(row: SweepRow | None, offsets: Offsets) -> float:
    """Return the sum of all that is missing, 0 where nothing is."""
    return float(-np.minimum(measure_shortfalls(row, offsets), 0.0).sum())


def list_short_kinds(row: SweepRow | None, before: SweepRow | None, offsets: Offsets) -> set[str]:
    """Return the kinds of parts that are too weak in one design, and more so than in another; empty text for the rest.

    Parameters
    ----------
    row, before : SweepRow or None
        Of both designs, as for :func:`measure_shortfalls`.
    offsets : mapping of str to float
        By the key of a reserve factor.
    """
    kinds = [each.key.removeprefix("reserve_") for each in RESERVES]
    found, known = measure_shortfalls(row, offsets), measure_shortfalls(before, offsets)
    names = [*kinds, *[""] * (len(found) - len(kinds))]
    return {name for name, now, then in zip(names, found, known, strict=True) if now < min(then, 0.0)}


def find_offsets(coarse: SweepRow, fine: SweepRow) -> dict[str, float]:
    """Return by how much each reserve factor differs on the mesh of the design, as a logarithm."""
    keys = [each.key for each in RESERVES if coarse.figures.get(each.key, 0.0) > 0.0 < fine.figures.get(each.key, 0.0)]
    return {key: log(fine.figures[key] / coarse.figures[key]) for key in keys}
