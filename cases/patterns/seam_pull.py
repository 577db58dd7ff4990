"""What pulls across lines on the flat cloth, read off a solved shape."""

import numpy as np

from ...cutting.panels import WeftPull
from ...hammock.arrays import FloatArray
from ..design import Design
from ..equilibrium import Equilibrium
from ..storage.gather_shape import gather_shape
from ..storage.shape import CellTag
from ..storage.stored_result import StoredResult
from .pattern_error import PatternError


def read_pull(result: Equilibrium | StoredResult, design: Design) -> WeftPull:
    """Return a function that tells what the weft pulls at points of the flat cloth, N/m.

    Parameters
    ----------
    result : Result or StoredResult
        The solved hammock.
    design : Design
        Of the same body.

    Returns
    -------
    callable
        From points (n, 2), m, to N/m, that of the nearest triangle.

    Raises
    ------
    PatternError
        For the result of another design.
    """
    body = design.hammock.body
    if isinstance(result, StoredResult):
        same, shape = result.design_text == design.text, result.stages[-1].shape
    else:
        same = result.design.hammock.body == body
        shape = gather_shape(result.model, result.state, result.design.workmanship.reductions)
    if not same:
        raise PatternError("the result is of another design. Solve this one, or leave the result out.")
    own = np.ones(len(shape.triangles), dtype=bool) if shape.sheet is None else shape.sheet == CellTag.CLOTH
    middles = shape.flat[shape.triangles[own]].mean(axis=1)
    pulls = shape.weft_share[own] * body.fabric.strength_weft * body.layers

    def find(points: FloatArray) -> FloatArray:
        nearest = [int(np.argmin(((middles - point) ** 2).sum(axis=1))) for point in points]
        return np.asarray(pulls[nearest])

    return find
