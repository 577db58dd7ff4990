r"""The stiffness matrix of a structure, sparse, with a pattern worked out once.

Unknowns are the free directions of the nodes, followed by one auxiliary unknown for each rank-one
column (a sliding cable). With column g of stiffness k the dense block :math:`k\,g g^T` is replaced by

.. math:: \begin{bmatrix} K & k\,g \\ k\,g^T & -k \end{bmatrix}

which has the same solution and stays sparse; it is quasi-definite, so it can be factored in any order,
and its pivots are as large as their neighbours.
Source: R. J. Vanderbei, SIAM J. Optim. 5 (1995) 100-113 (symmetric quasi-definite matrices; from memory).
"""

import copy
from typing import Any

import numpy as np
import scipy.sparse as sparse
from scipy.sparse.linalg import splu

from .element import Floats, Integers, StiffnessModel
from .structure import Bools, Structure


class Assembly:
    """Builds and factors the stiffness of one structure again and again.

    Parameters
    ----------
    structure : Structure
        Its elements and supports fix the sparsity pattern.
    """

    def __init__(self, structure: Structure) -> None:
        self.structure = structure
        size = structure.positions.size
        rows, cols = self._list_entries(size)
        total = size + self._columns
        keys, self._places = np.unique(cols * total + rows, return_inverse=True)
        self._entries = len(keys)
        numbered = (np.arange(1, len(keys) + 1), (keys % total, keys // total))
        self._numbers = sparse.csc_matrix(numbered, shape=(total, total))
        self._choose(structure.free)

    def _choose(self, free: Bools) -> None:
        """Take ``free`` (n, 3) as the unknowns."""
        self.free = free
        size = free.size
        kept = np.concatenate([np.flatnonzero(free.ravel()), np.arange(size, size + self._columns)])
        self._pattern = self._numbers[kept][:, kept]
        self._pattern.sort_indices()
        self._take = self._pattern.data - 1
        self.free_count = int(free.sum())

    def restrict(self, nodes: Bools) -> "Assembly":
        """Return this assembly with only the free directions of ``nodes`` (n,) as unknowns."""
        part = copy.copy(self)
        part._choose(self.structure.free & nodes[:, None])
        return part

    def _list_entries(self, size: int) -> tuple[Integers, Integers]:
        """Return row and column of every number the elements hand in, the diagonal last."""
        rows, cols = [], []
        self._columns = 0
        for term in self.structure.terms:
            for left, right in term.couplings():
                across, down = _number(left), _number(right)
                row = np.repeat(across, down.shape[1], axis=1).ravel()
                col = np.tile(down, (1, across.shape[1])).ravel()
                rows += [row] if left is right else [row, col]
                cols += [col] if left is right else [col, row]
            for nodes in term.column_nodes():
                border = (3 * nodes[:, None] + np.arange(3)).ravel()
                extra = np.full(len(border), size + self._columns)
                rows += [border, extra]
                cols += [extra, border]
                self._columns += 1
        diagonal = np.arange(size + self._columns)
        return np.concatenate([*rows, diagonal]), np.concatenate([*cols, diagonal])

    def matrix(self, positions: Floats, model: StiffnessModel, shift: Floats) -> Any:  # noqa: ANN401
        """Return stiffness plus ``shift`` (n,) on the diagonal of each node, as a sparse matrix, N/m."""
        values: list[Floats] = []
        pivots: list[float] = []
        for term in self.structure.terms:
            for (left, right), blocks in zip(term.couplings(), term.stiffness_blocks(positions, model), strict=True):
                values += [blocks.ravel()] if left is right else [blocks.ravel(), blocks.ravel()]
            for _, gradient, stiffness in term.columns(positions, model):
                border = stiffness * gradient.ravel()
                values += [border, border]
                pivots.append(-stiffness if stiffness > 0 else -1.0)
        values += [np.repeat(shift, 3), np.array(pivots)]
        summed = np.bincount(self._places, weights=np.concatenate(values), minlength=self._entries)
        pattern = self._pattern
        return sparse.csc_matrix((summed[self._take], pattern.indices, pattern.indptr), shape=pattern.shape)

    def solve(self, matrix: Any, force: Floats) -> Floats | None:  # noqa: ANN401
        """Return displacements (n, 3) that ``matrix`` gives under ``force``, or None if it is singular."""
        free = self.free
        right = np.zeros(matrix.shape[0])
        right[: self.free_count] = force[free]
        try:
            factors = splu(matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=1e-3, options={"SymmetricMode": True})
        except RuntimeError:  # SuperLU's word for an exactly singular matrix
            return None
        moved = np.zeros_like(force)
        moved[free] = factors.solve(right)[: self.free_count]
        return moved if np.isfinite(moved).all() else None


def _number(nodes: Integers) -> Integers:
    """Return the three directions of each of ``nodes`` (m, k) as unknowns (m, 3k)."""
    return (3 * nodes[:, :, None] + np.arange(3)).reshape(len(nodes), -1)
