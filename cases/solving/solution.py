"""Solve a design: coarse meshes first, then the requested one."""

import time

from ...hammock.load_case import find_load_case
from ..design import Design
from ..judging.cloth.hot_spot import RIM
from ..mesh_size import count_triangles
from ..result import Result
from .mesh_sequence import MeshCallback, MeshSequence, Start, list_mesh_levels


def solve_equilibrium(
    design: Design,
    *,
    load: str | None = None,
    mesh_size: float | None = None,
    hot_spots: bool = True,
    tolerance: float = 1e-6,
    start: Result | Start | None = None,
    progress: MeshCallback | None = None,
) -> Result:
    """Compute loaded shape and forces of a design: one equilibrium and nothing else.

    Parameters
    ----------
    design : Design
        From :func:`read_design`.
    load : str or None
        Name of the load case; None is the one the design names.
    mesh_size : float or None
        Edge length in the field, m; None is the one the design names.
    hot_spots : bool
        Whether the last mesh is fine enough along channels and bars to find the pull on the cloth there; it takes about
        half as long again.
    tolerance : float
        Residual over applied load at which the shape counts as found.
    start : Result, Start or None
        Of a design with the same body, to begin from; the person, the load or anything outside the cloth may differ.
        A result passes on its trees; a :class:`Start` says whether it does.
    progress : callable or None
        Receives a :class:`CaseProgress` after each step.

    Returns
    -------
    Result
        With ``summary`` and ``save(folder)``.

    Raises
    ------
    ValueError
        For a load case that does not exist; a :class:`MeshSizeError` for a mesh size that does not fit.
    NoEquilibriumError
        If the solver ends without an equilibrium.
    """
    wanted = design.load if load is None else find_load_case(load)
    begun = time.perf_counter()
    size = design.mesh_size if mesh_size is None else mesh_size
    rim = RIM if hot_spots else None
    count_triangles(design.hammock, size, rim, units=design.units)  # refuses a size that does not fit
    levels = list_mesh_levels(size, wanted, rim)
    if start is not None:
        start = Start(start.model, start.state.positions) if isinstance(start, Result) else start
        looks = not start.keeps_trees and design.hammock.suspension.hang_angle is not None and len(levels) > 1
        levels = [levels[0], levels[-1]] if looks else levels[-1:]
    sequence = MeshSequence(design, levels, progress)
    model, state = sequence.refine(tolerance, start)
    seconds = time.perf_counter() - begun
    return Result(design, wanted, size, model, state, sequence.iterations, sequence.factorisations, seconds)
