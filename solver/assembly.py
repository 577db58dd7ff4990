r"""The stiffness of a structure: a sparse matrix, with a pattern worked out once, and rank-one columns.

Unknowns are the free directions of the nodes. A sliding cable couples all nodes of its path by one column g of
stiffness k; what is solved is :math:`(K + G k G^T)\,x = f`, all columns together, by

.. math:: x = y - Z\,(k^{-1} + G^T Z)^{-1} G^T y, \quad K y = f, \quad K Z = G,

and corrected by what is left of f where K alone is so soft that digits were lost.
Source: M. A. Woodbury, Inverting modified matrices, Princeton Statistical Research Group memo 42 (1950); from memory.
"""

from typing import NamedTuple

import numpy as np
import scipy.sparse as sparse

from .element import Bools, Floats, Integers, StiffnessModel
from .factoriser import Factoriser, Solve, SparsityPattern
from .structure import Structure

_LEFT = 1e-10  # of the right side: more is corrected
_CORRECTIONS = 5


class Stiffness(NamedTuple):
    """Stiffness of the n free directions: what a pattern holds, and columns."""

    values: Floats  # (e,) entries of the lower triangle, N/m
    gradients: Floats  # (n, c) of the columns with a stiffness
    columns: Floats  # (c,) their stiffness, N/m

    def __repr__(self) -> str:
        """Return one line."""
        return f"Stiffness({len(self.values)} entries, {len(self.columns)} columns)"


class Assembly:
    """Builds and factors the stiffness of one structure again and again.

    Parameters
    ----------
    structure : Structure
        Its elements and supports fix the sparsity pattern.
    """

    def __init__(self, structure: Structure) -> None:
        self.structure = structure
        self.free = structure.free
        self.free_count = int(self.free.sum())
        self._number = np.full(self.free.shape, -1)
        self._number[self.free] = np.arange(self.free_count)
        rows, cols, counts = self._list_entries()
        keys, self._places = np.unique(np.where(counts, cols * self.free_count + rows, -1), return_inverse=True)
        self._skipped = int(keys[0] < 0)  # what is handed in twice or at held nodes has the first place
        keys = keys[self._skipped :]
        self.pattern = SparsityPattern(self.free_count, keys % self.free_count, keys // self.free_count)
        self._starts = np.searchsorted(self.pattern.cols, np.arange(self.free_count + 1))
        self._diagonal = np.flatnonzero(self.pattern.rows == self.pattern.cols)
        self._factoriser = Factoriser(self.pattern)

    def _list_entries(self) -> tuple[Integers, Integers, Bools]:
        """Return row and column of every number the elements hand in, the diagonal last, and which count."""
        rows, cols, counts = [], [], []
        for term in self.structure.terms:
            for left, right in term.couplings():
                across, down = (self._number[nodes].reshape(len(nodes), -1) for nodes in (left, right))
                row = np.repeat(across, down.shape[1], axis=1).ravel()
                col = np.tile(down, (1, across.shape[1])).ravel()
                held = (row < 0) | (col < 0)
                counts.append(~held & (row >= col) if left is right else ~held)
                rows.append(np.maximum(row, col))
                cols.append(np.minimum(row, col))
        diagonal = self._number.ravel()
        return (
            np.concatenate([*rows, diagonal]),
            np.concatenate([*cols, diagonal]),
            np.concatenate([*counts, diagonal >= 0]),
        )

    def matrix(
        self, positions: Floats, model: StiffnessModel, shift: Floats, blocks: list[list[Floats]] | None = None
    ) -> Stiffness:
        """Return stiffness plus ``shift`` (n,) on the diagonal of each node, N/m.

        Each term's ``blocks`` are those of ``stiffness_blocks`` unless given.
        """
        if blocks is None:
            blocks = [term.stiffness_blocks(positions, model) for term in self.structure.terms]
        values = [stack.ravel() for stacks in blocks for stack in stacks]
        weights = np.concatenate([*values, np.repeat(shift, 3)])
        summed = np.bincount(self._places, weights=weights).astype(np.float64, copy=False)
        found = [column for term in self.structure.terms for column in term.columns(positions, model)]
        found = [column for column in found if column.stiffness > 0.0]
        gradients = np.zeros((len(found), *self.free.shape))
        for gradient, column in zip(gradients, found, strict=True):
            np.add.at(gradient, column.nodes, column.gradient)
        return Stiffness(
            summed[self._skipped :],
            np.ascontiguousarray(gradients[:, self.free].T),
            np.array([column.stiffness for column in found], dtype=np.float64),
        )

    def find_lower(self, stiffness: Stiffness) -> sparse.csc_matrix:
        """Return the lower triangle of what is no column, N/m."""
        shape = self.free_count, self.free_count
        return sparse.csc_matrix((stiffness.values, self.pattern.rows, self._starts), shape=shape)

    def solve(self, stiffness: Stiffness, force: Floats) -> Floats | None:
        """Return displacements (n, 3) under ``force``, or None if the stiffness is singular."""
        solve = self._factoriser.factorise(stiffness.values)
        if solve is None:
            return None
        moved = np.zeros_like(force)
        moved[self.free] = self._solve_with_columns(solve, stiffness, force[self.free])
        return moved if np.isfinite(moved).all() else None

    def _solve_with_columns(self, solve: Solve, stiffness: Stiffness, force: Floats) -> Floats:
        """Return the answer (n,) to a force (n,), from what solves without the columns."""
        _, G, k = stiffness
        if not len(k):
            return solve(force[:, None])[:, 0]
        found = solve(np.column_stack([G, force]))
        Z, y = found[:, :-1], found[:, -1]
        inner = np.diag(1.0 / k) + G.T @ Z
        x = y - Z @ np.linalg.solve(inner, G.T @ y)
        lower, diagonal = self.find_lower(stiffness), stiffness.values[self._diagonal]
        for _ in range(_CORRECTIONS):
            left = force - (lower @ x + lower.T @ x - diagonal * x + G @ (k * (G.T @ x)))
            if np.linalg.norm(left) <= _LEFT * np.linalg.norm(force):
                break
            y = solve(left[:, None])[:, 0]
            x += y - Z @ np.linalg.solve(inner, G.T @ y)
        return x
