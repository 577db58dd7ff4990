"""Solve a design: coarse meshes first, then the one that was asked for."""

import time
from dataclasses import replace

from ...hammock import LoadCase
from ..design import Design
from ..judging.cloth.hot_spot import RIM
from ..mesh_size import count_triangles
from ..result import Result
from ..studies.load_steps import check_count, find_load_steps
from .mesh_sequence import Ladder, Listener, Start, list_rungs


def solve_case(
    design: Design,
    *,
    load: str | None = None,
    mesh_size: float | None = None,
    hot_spots: bool = True,
    tolerance: float = 1e-6,
    start: Result | Start | None = None,
    load_steps: int = 0,
    progress: Listener | None = None,
) -> Result:
    """Find the loaded shape of a design and what every part carries.

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
        A result hands down its trees; of a :class:`Start` it is asked whether it does.
    load_steps : int
        How many more equilibria to find under 0, 1/N, 2/N ... of the person's weight, between the trees of the result.
    progress : callable or None
        Told a :class:`CaseProgress` after each step.

    Returns
    -------
    Result
        With ``summary`` and ``save(folder)``.

    Raises
    ------
    ValueError
        For a load case that does not exist and for less than no load steps; a :class:`MeshSizeError` for a mesh size
        that does not fit.
    NoEquilibriumError
        If the solver ends without an equilibrium.
    """
    wanted = _find_load(load, design)
    check_count(load_steps)
    begun = time.perf_counter()
    size = design.mesh_size if mesh_size is None else mesh_size
    rim = RIM if hot_spots else None
    count_triangles(design, size, rim)  # refuses a size that does not fit
    rungs = list_rungs(size, wanted, rim)
    if start is not None:
        start = Start(start.model, start.state.positions) if isinstance(start, Result) else start
        looks = not start.keeps_trees and design.hammock.suspension.hang_angle is not None and len(rungs) > 1
        rungs = [rungs[0], rungs[-1]] if looks else rungs[-1:]
    ladder = Ladder(design, rungs, progress)
    model, state = ladder.climb(tolerance, start)
    seconds = time.perf_counter() - begun
    result = Result(design, wanted, size, model, state, ladder.iterations, ladder.factorisations, seconds)
    steps = find_load_steps(design, rungs[-1], (model, state), load_steps, progress)
    return replace(result, load_steps=steps)


def _find_load(name: str | None, design: Design) -> LoadCase:
    """Return the load case of that name, or the design's own."""
    if name is None:
        return design.load
    if name not in list(LoadCase):
        raise ValueError(f"there is no load case {name!r}; there is {', '.join(LoadCase)}.")
    return LoadCase(name)
