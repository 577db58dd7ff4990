r"""Factors of sparse symmetric matrices whose numbers change at every step and whose pattern seldom does.

CHOLMOD, which factors in dense blocks, where cvxopt is installed, else SuperLU, which comes with scipy and takes about
four times as long; their answers are the same. What can be told from the pattern alone, the order of elimination above
all, is worked out once and kept.

Sources: Y. Chen, T. A. Davis, W. W. Hager and S. Rajamanickam, ACM Trans. Math. Softw. 35 (2008) 22 (CHOLMOD);
X. S. Li, ACM Trans. Math. Softw. 31 (2005) 302-325 (SuperLU); both from memory.
"""

from collections.abc import Callable
from functools import partial
from importlib.util import find_spec
from typing import Any, NamedTuple

import numpy as np
import scipy.sparse as sparse
from scipy.sparse.linalg import splu

from .element import Bools, Floats, Integers

# Entries that are kept over those that are not zero: at 1.15 bodies and slack cloth are analysed anew oftener.
_LOOSE = 1.3


class SparsityPattern(NamedTuple):
    """Entries of the lower triangle of a symmetric matrix, column by column, the whole diagonal among them."""

    size: int
    rows: Integers  # (e,)
    cols: Integers  # (e,)

    def __repr__(self) -> str:
        """Return one line."""
        return f"SparsityPattern({self.size} unknowns, {len(self.rows)} entries)"


Solve = Callable[[Floats], Floats]  # from right sides (n, r) to answers (n, r)


class _Cholmod:
    """A pattern analysed by CHOLMOD."""

    def __init__(self, pattern: SparsityPattern) -> None:
        from cvxopt import cholmod, matrix, spmatrix

        self._library, self._dense = cholmod, matrix
        self._matrix = spmatrix(1.0, matrix(pattern.rows), matrix(pattern.cols), (pattern.size, pattern.size))
        self._analyses: dict[int, Any] = {}

    def factorise(self, values: Floats) -> Solve | None:
        """Return what solves a matrix, or None if it is singular."""
        self._matrix.V = self._dense(values)
        for blocks in (2, 0):  # Cholesky in dense blocks; where that meets a negative pivot, L D L^T
            self._library.options["supernodal"] = blocks
            if blocks not in self._analyses:
                self._analyses[blocks] = self._library.symbolic(self._matrix)
            try:
                self._library.numeric(self._matrix, self._analyses[blocks])
            except ArithmeticError:  # cvxopt's word for a pivot that it cannot take
                continue
            return partial(self._solve, self._analyses[blocks])
        return None

    def _solve(self, factors: Any, right: Floats) -> Floats:  # noqa: ANN401
        """Return answers (n, r) to right sides (n, r)."""
        found = self._dense(right)
        self._library.solve(factors, found)
        return np.array(found)


class _SuperLu:
    """A pattern analysed by SuperLU."""

    def __init__(self, pattern: SparsityPattern) -> None:
        size, below = pattern.size, pattern.rows > pattern.cols
        rows = np.concatenate([pattern.rows, pattern.cols[below]])
        cols = np.concatenate([pattern.cols, pattern.rows[below]])
        numbers = 1 + np.concatenate([np.arange(len(below)), np.flatnonzero(below)])
        self._numbers = sparse.csc_matrix((numbers, (rows, cols)), shape=(size, size))
        self._order = np.arange(size)
        self._method = "MMD_AT_PLUS_A"

    def factorise(self, values: Floats) -> Solve | None:
        """Return what solves a matrix, or None if it is singular."""
        matrix = sparse.csc_matrix(
            (values[self._numbers.data - 1], self._numbers.indices, self._numbers.indptr), shape=self._numbers.shape
        )
        try:
            factors = splu(matrix, permc_spec=self._method, diag_pivot_thresh=1e-3, options={"SymmetricMode": True})
        except RuntimeError:  # SuperLU's word for an exactly singular matrix
            return None
        order = self._order
        if self._method != "NATURAL":  # the next ones are handed in as they were eliminated
            self._order, self._method = np.argsort(factors.perm_c), "NATURAL"
            self._numbers = self._numbers[self._order][:, self._order]
            self._numbers.sort_indices()

        def solve(right: Floats) -> Floats:
            found = np.empty_like(right)
            found[order] = factors.solve(right[order])
            return found

        return solve


class Factoriser:
    """Factors matrices of one pattern, and keeps what follows from the part of it that is not zero.

    Parameters
    ----------
    pattern : SparsityPattern
        Every entry that a matrix may have.
    """

    def __init__(self, pattern: SparsityPattern) -> None:
        self._pattern = pattern
        self._diagonal = pattern.rows == pattern.cols
        self._kept: Bools = np.zeros(len(pattern.rows), dtype=bool)
        self._analyse = _Cholmod if find_spec("cvxopt") else _SuperLu
        self._analysis: _Cholmod | _SuperLu | None = None

    def factorise(self, values: Floats) -> Solve | None:
        """Return what solves the matrix with ``values`` (e,) of the pattern, or None if it is singular.

        Zeros are left out of it, slack cloth and bodies out of reach: the factors fill up less.
        """
        needed = self._diagonal | (values != 0.0)
        if self._analysis is None or (needed & ~self._kept).any() or self._kept.sum() > _LOOSE * needed.sum():
            both = needed | self._kept
            self._kept = both if both.sum() <= _LOOSE * needed.sum() else needed
            size, rows, cols = self._pattern
            self._analysis = self._analyse(SparsityPattern(size, rows[self._kept], cols[self._kept]))
        return self._analysis.factorise(values[self._kept])
