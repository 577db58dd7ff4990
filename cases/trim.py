"""Hang it so that a wish comes true: the strap height or line length at which a measure of comfort has a value."""

import re
from dataclasses import dataclass, replace
from math import radians
from typing import Any

from ..meshing import HammockError
from .design import Design
from .no_equilibrium import NoEquilibriumError
from .result import Result
from .solution import solve_case

VARIED = ("foot_strap_height", "head_strap_height", "line_length")
_WISH = re.compile(r"(?P<what>trunk|legs) +(?P<angle>[-+]?[0-9]{1,2}(\.[0-9]+)?) *deg")
_FIRST = 0.05  # m: the first change
_FARTHEST = 0.6  # m from where the design has it
_CLOSE = {"slide": 1e-3, "trunk_pitch_rad": radians(0.1), "leg_pitch_rad": radians(0.1)}
_TRIES = 12
_MESH = 0.08  # m


class WishError(ValueError):
    """A wish that cannot be read; the message says what can be wished."""


@dataclass(frozen=True)
class Trim:
    """What fulfils a wish.

    Parameters
    ----------
    key : str
        What was changed, a key of ``[suspension]``.
    value : float
        Its new length, m.
    measure : str
        Key of the measure in ``summary["comfort"]``.
    result : Result
        Of the hammock so hung, between the same trees.
    """

    key: str
    value: float
    measure: str
    result: Result


def read_wish(text: str) -> tuple[str, float]:
    """Return the measure and the value that a wish is about.

    Parameters
    ----------
    text : str
        ``"no slide"``, ``"trunk 3 deg"`` or ``"legs 5 deg"``.

    Raises
    ------
    WishError
        For anything else.

    Examples
    --------
    >>> read_wish("no slide")
    ('slide', 0.0)
    """
    if text.strip() == "no slide":
        return "slide", 0.0
    found = _WISH.fullmatch(text.strip())
    if found is None:
        raise WishError(f'{text!r} is no wish known here; wish "no slide", "trunk 3 deg" or "legs 5 deg".')
    measure = {"trunk": "trunk_pitch_rad", "legs": "leg_pitch_rad"}[found["what"]]
    return measure, radians(float(found["angle"]))


def find_trim(design: Design, wish: str, *, vary: str = "foot_strap_height", mesh_size: float = _MESH) -> Trim:
    """Find the strap height or line length at which a lying person's wish comes true.

    The trees stay where the design has them under the spread weight. Secant steps, each from the last shape.

    Parameters
    ----------
    design : Design
        What is hung, with its person.
    wish : str
        See :func:`read_wish`.
    vary : {"foot_strap_height", "head_strap_height", "line_length"}
        What may change, by 60 cm at the most.
    mesh_size : float
        Edge length in the field, m.

    Raises
    ------
    WishError
        For a wish or a key that is not known.
    NoEquilibriumError
        If nothing within reach fulfils the wish.
    """
    measure, target = read_wish(wish)
    if vary not in VARIED:
        raise WishError(f"{vary!r} cannot be varied; choose {', '.join(VARIED)}.")
    result = solve_case(design, load="lying", mesh_size=mesh_size, hot_spots=False)
    first = value = getattr(design.hammock.suspension, vary)
    miss = result.summary["comfort"][measure] - target
    step = _FIRST
    for _ in range(_TRIES):
        if abs(miss) <= _CLOSE[measure]:
            return Trim(vary, value, measure, result)
        wanted = min(max(value + step, first - _FARTHEST), first + _FARTHEST)
        if wanted == value:
            break
        result = _hang(design, vary, wanted, result)
        slope = (result.summary["comfort"][measure] - target - miss) / (wanted - value)
        value, miss = wanted, result.summary["comfort"][measure] - target
        if slope == 0.0:
            break
        step = min(max(-miss / slope, -0.2), 0.2)
    raise NoEquilibriumError(
        f'No {vary.replace("_", " ")} within {_FARTHEST * 100:.0f} cm of {first:.2f} m gives "{wish}"; vary something '
        "else."
    )


def _hang(design: Design, key: str, value: float, before: Result) -> Result:
    """Return the equilibrium with one length of the suspension changed and the trees as they were."""
    changes: dict[str, Any] = {"hang_angle": None, "tree_distance": before.model.tree_distance, key: value}
    fixed = replace(design.hammock.suspension, **changes)
    changed = replace(design, hammock=replace(design.hammock, suspension=fixed))
    try:
        return solve_case(changed, load="lying", mesh_size=before.mesh_size, hot_spots=False, start=before)
    except HammockError as error:
        raise NoEquilibriumError(f"The search ended at {key} = {value:.2f} m, which cannot hang. {error}") from None
