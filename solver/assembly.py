r"""The stiffness matrix of a structure, sparse, with a pattern worked out once.

Unknowns are the free directions of the nodes, followed by one auxiliary unknown for each rank-one
column (a sliding cable). With column g of stiffness k the dense block :math:`k\,g g^T` is replaced by

.. math:: \begin{bmatrix} K & k\,g \\ k\,g^T & -k \end{bmatrix}

which has the same solution and stays sparse; it is quasi-definite, so it can be factored in any order,
and its pivots are as large as their neighbours.
Source: R. J. Vanderbei, SIAM J. Optim. 5 (1995) 100-113 (symmetric quasi-definite matrices; from memory).
"""

from typing import Any

import numpy as np
import scipy.sparse as sparse
from scipy.sparse.linalg import splu

from .element import Floats, Integers, StiffnessModel
from .structure import Structure

_FILL_MOST = 1.2  # times the numbers in the factors when their order was found: then another is looked for


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
        numbers = sparse.csc_matrix(numbered, shape=(total, total))
        self.free = structure.free
        kept = np.concatenate([np.flatnonzero(self.free.ravel()), np.arange(size, total)])
        self._numbers = numbers[kept][:, kept]
        self._arrange(np.arange(len(kept)))
        self.free_count = int(self.free.sum())
        self._fill, self._ordered = 0, False

    def _arrange(self, order: Integers) -> None:
        """Take the unknowns in ``order`` from here on."""
        self._order = order
        self._pattern = self._numbers[order][:, order]
        self._pattern.sort_indices()
        self._take = self._pattern.data - 1

    def _list_entries(self, size: int) -> tuple[Integers, Integers]:
        """Return row and column of every number the elements hand in, the diagonal last."""
        rows, cols = [], []
        self._columns = 0
        self._mirrored: list[list[bool]] = []  # which couplings of each term count transposed as well
        for term in self.structure.terms:
            mirrored = []
            for left, right in term.couplings():
                mirrored.append(left is not right)
                across, down = _number(left), _number(right)
                row = np.repeat(across, down.shape[1], axis=1).ravel()
                col = np.tile(down, (1, across.shape[1])).ravel()
                rows += [row] if left is right else [row, col]
                cols += [col] if left is right else [col, row]
            self._mirrored.append(mirrored)
            for nodes in term.column_nodes():
                border = (3 * nodes[:, None] + np.arange(3)).ravel()
                extra = np.full(len(border), size + self._columns)
                rows += [border, extra]
                cols += [extra, border]
                self._columns += 1
        diagonal = np.arange(size + self._columns)
        return np.concatenate([*rows, diagonal]), np.concatenate([*cols, diagonal])

    def matrix(
        self, positions: Floats, model: StiffnessModel, shift: Floats, blocks: list[list[Floats]] | None = None
    ) -> Any:  # noqa: ANN401
        """Return stiffness plus ``shift`` (n,) on the diagonal of each node, as a sparse matrix of its own order, N/m.

        Each term's ``blocks`` are those of ``stiffness_blocks`` unless given.
        """
        if blocks is None:
            blocks = [term.stiffness_blocks(positions, model) for term in self.structure.terms]
        values: list[Floats] = []
        pivots: list[float] = []
        for term, mirrored, stacks in zip(self.structure.terms, self._mirrored, blocks, strict=True):
            for twice, stack in zip(mirrored, stacks, strict=True):
                values += [stack.ravel(), stack.ravel()] if twice else [stack.ravel()]
            for _, gradient, stiffness in term.columns(positions, model):
                border = stiffness * gradient.ravel()
                values += [border, border]
                pivots.append(-stiffness if stiffness > 0 else -1.0)
        values += [np.repeat(shift, 3), np.array(pivots)]
        summed = np.bincount(self._places, weights=np.concatenate(values), minlength=self._entries)
        matrix = self._pattern.copy()
        matrix.data = summed[self._take]
        matrix.eliminate_zeros()  # slack cloth and bodies out of reach: the factors fill up less
        return matrix

    def solve(self, matrix: Any, force: Floats) -> Floats | None:  # noqa: ANN401
        """Return displacements (n, 3) that ``matrix`` gives under ``force``, or None if it is singular."""
        right = np.zeros(matrix.shape[0])
        right[: self.free_count] = force[self.free]
        method = "NATURAL" if self._ordered else "MMD_AT_PLUS_A"
        try:
            factors = splu(matrix, permc_spec=method, diag_pivot_thresh=1e-3, options={"SymmetricMode": True})
        except RuntimeError:  # SuperLU's word for an exactly singular matrix
            return None
        found = np.empty_like(right)
        found[self._order] = factors.solve(right[self._order])
        self._keep_order(factors)
        moved = np.zeros_like(force)
        moved[self.free] = found[: self.free_count]
        return moved if np.isfinite(moved).all() else None

    def _keep_order(self, factors: Any) -> None:  # noqa: ANN401
        """Keep the order found for the unknowns until bodies touch so much other cloth that it fits no longer."""
        if self._ordered:
            self._ordered = factors.nnz <= _FILL_MOST * self._fill
        else:
            self._arrange(self._order[np.argsort(factors.perm_c)])
            self._fill, self._ordered = factors.nnz, True


def _number(nodes: Integers) -> Integers:
    """Return the three directions of each of ``nodes`` (m, k) as unknowns (m, 3k)."""
    return (3 * nodes[:, :, None] + np.arange(3)).reshape(len(nodes), -1)
