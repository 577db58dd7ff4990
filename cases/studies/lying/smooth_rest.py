"""Where a side sleeper would come to rest without friction."""

from dataclasses import replace

from ....hammock import LoadCase
from ...judging.comfort.smooth_rest import SmoothRest
from ...result import Result
from ...solving.lying_down import needs_care
from ...solving.no_equilibrium import NoEquilibriumError
from ...solving.solution import solve_equilibrium

_MESH = 0.08  # m: where one rolls to does not ask for a finer one


def find_smooth_rest(resting: Result) -> SmoothRest | None:
    """Lay a clothed person who lies on the side on smooth cloth, between the same trees.

    Parameters
    ----------
    resting : Result
        Of any load case.

    Returns
    -------
    SmoothRest or None
        None for anybody who does not lie on the side in clothing.
    """
    if not needs_care(resting.model):
        return None
    design = resting.design
    smooth = replace(design.hang_between(resting.model.tree_distance), person=replace(design.person, friction=0.0))
    try:
        found = solve_equilibrium(
            smooth, load=LoadCase.LYING, mesh_size=max(resting.mesh_size, _MESH), hot_spots=False, tolerance=1e-4
        )
    except NoEquilibriumError as error:
        return SmoothRest(0.0, 0.0, str(error))
    assert found.comfort is not None
    return SmoothRest(found.comfort.roll, found.comfort.shoulder_roll)
