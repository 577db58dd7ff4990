r"""Whether an equilibrium is a minimum of the energy.

The exact stiffness of a minimum has no negative eigenvalue. Those of its sparse part K are as many as the negative
pivots of :math:`L D L^T`, whatever the order of elimination (Sylvester's law of inertia); columns G of stiffness k take
off as many as :math:`k^{-1} + G^T K^{-1} G` has (Haynsworth).

Sources: J. J. Sylvester, Phil. Mag. 4 (1852) 138-142; E. V. Haynsworth, Linear Algebra Appl. 1 (1968) 73-81
(inertia of bordered matrices); both from memory.
"""

import numpy as np
import scipy.sparse as sparse
from scipy.sparse.linalg import splu

from .assembly import Assembly
from .element import Floats, StiffnessModel
from .structure import Structure

_NOTHING = 1e-9  # of the row sums of the taut stiffness: less than this counts as none, as that of slack cloth
_RAISE = 3.0  # of that, where a pivot is exactly zero


def count_negative_pivots(structure: Structure, positions: Floats) -> int:
    """Count the independent negative-curvature directions of the energy at an equilibrium: none for a minimum.

    Parameters
    ----------
    structure : Structure
        What was solved.
    positions : (n, 3)
        Its equilibrium, m.

    Returns
    -------
    int
        Number of negative eigenvalues of the exact stiffness. Directions without stiffness, such as those of slack
        cloth, are not counted.

    Notes
    -----
    To second order and at one instant: cloth that is about to become slack or to lose touch may give way all the same.

    Examples
    --------
    >>> from tautlay.solver import Rod
    >>> rods = Rod([[0, 1], [1, 2]], 1e3, 1.1)  # in line and pushed together: they give way sideways, up and down
    >>> pushed = Structure([[0, 0, 0], [1, 0, 0], [2, 0, 0]], [rods], fixed=[True, False, True])
    >>> count_negative_pivots(pushed, pushed.positions)
    2
    """
    assembly = Assembly(structure)
    bound = structure.stiffness_bound(positions)
    bound = np.where(bound > 0, bound, bound.max())
    share = _NOTHING
    while True:
        stiffness = assembly.matrix(positions, StiffnessModel.EXACT, share * bound)
        lower = assembly.find_lower(stiffness)
        matrix = (lower + sparse.tril(lower, -1).T).tocsc()
        factors = splu(matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True})
        if np.array_equal(factors.perm_r, factors.perm_c):  # all pivots from the diagonal: the factors are L D L^T
            inner = np.diag(1.0 / stiffness.columns) + stiffness.gradients.T @ factors.solve(stiffness.gradients)
            taken = (np.linalg.eigvalsh(inner) < 0.0).sum() if len(inner) else 0
            return int((factors.U.diagonal() < 0.0).sum() - taken)
        share *= _RAISE
