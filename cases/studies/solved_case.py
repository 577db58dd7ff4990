"""A design solved for a report: its equilibrium, sideways stability, parts of the load."""

from dataclasses import replace

from ..design import Design
from ..judging.cloth.hot_spot import RIM
from ..result import Result
from ..solving.mesh_sequence import MeshCallback, Start, list_mesh_levels
from ..solving.solution import solve_equilibrium
from .load_steps import check_count, find_load_steps
from .lying.side_stability import assess_side_stability
from .lying.smooth_rest import find_smooth_rest


def solve_case(
    design: Design,
    *,
    load: str | None = None,
    mesh_size: float | None = None,
    hot_spots: bool = True,
    tolerance: float = 1e-6,
    start: Result | Start | None = None,
    load_steps: int = 0,
    progress: MeshCallback | None = None,
) -> Result:
    """Compute loaded shape and forces of a design.

    Parameters
    ----------
    design : Design
        From :func:`read_design`.
    load : str or None
        Name of the load case: ``"distributed"``, ``"lying"``, ``"sitting"`` or ``"sudden"``; None is the one the
        design names.
    mesh_size : float or None
        Edge length in the field, m; None is the one the design names.
    hot_spots : bool
        Whether the last mesh is fine enough along channels and bars to check cloth and seams; it takes about half as
        long again.
    tolerance : float
        Norm of the unbalanced force over that of the load at which the shape counts as found.
    start : Result, Start or None
        Result of a design with the same body, to begin from; person, load and anything outside the cloth may differ.
        It passes on its trees.
    progress : callable or None
        Receives a :class:`CaseProgress` after each step.
    load_steps : int
        How many more equilibria to find under 0, 1/N, 2/N ... of the person's weight, between the trees of the result.

    Returns
    -------
    Result
        Solved; sideways stability with it, which takes some more solves where a person lies in contact.

    Raises
    ------
    ValueError
        For a load case that does not exist and for less than no load steps; a :class:`MeshSizeError` for a mesh size
        that does not fit.
    NoEquilibriumError
        If the solver ends without an equilibrium.

    Examples
    --------
    >>> from importlib.resources import files
    >>> from tautlay.cases import read_design, solve_case
    >>> design = read_design(str(files("tautlay.cases") / "larch_ridge.toml"))
    >>> solve_case(design, load="distributed", mesh_size=0.15, hot_spots=False).state.converged
    True
    """
    check_count(load_steps)
    result = solve_equilibrium(
        design,
        load=load,
        mesh_size=mesh_size,
        hot_spots=hot_spots,
        tolerance=tolerance,
        start=start,
        progress=progress,
    )
    if load_steps:
        level = list_mesh_levels(result.mesh_size, result.load, RIM if hot_spots else None)[-1]
        steps = find_load_steps(design, level, (result.model, result.state), load_steps, progress)
        result = replace(result, load_steps=steps)
    return replace(result, side_stability=assess_side_stability(result), smooth_rest=find_smooth_rest(result))
