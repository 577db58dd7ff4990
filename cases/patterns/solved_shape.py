"""The solved shape that a pattern is drawn from."""

from ...hammock.hammock import Hammock
from ..design import Design
from ..equilibrium import Equilibrium
from ..storage.gather_shape import gather_shape
from ..storage.shape import Shape
from ..storage.stored_result import StoredResult
from .pattern_error import PatternError


def find_shape(result: Equilibrium | StoredResult, design: Design) -> Shape:
    """Return the shape of a result under its whole load.

    Parameters
    ----------
    result : Result or StoredResult
        The solved hammock.
    design : Design
        Of the same cloth, bars and legs.

    Raises
    ------
    PatternError
        For the result of another design.
    """
    if isinstance(result, StoredResult):
        same, shape = result.design_text == design.text, result.shape
    else:
        same = _list_sewn(result.design.hammock) == _list_sewn(design.hammock)
        shape = gather_shape(result.model, result.state, result.design.workmanship.reductions)
    if not same:
        raise PatternError("the result is of another design. Solve this one, or leave the result out.")
    return shape


def _list_sewn(hammock: Hammock) -> tuple[object, ...]:
    """Return what the cut of the cloth depends on."""
    return (hammock.body, *((end.bar, end.width, end.leg_length) for end in hammock.ends))
