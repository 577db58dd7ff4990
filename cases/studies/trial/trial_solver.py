"""A hammock between given trees, solved with bags of water on its cloth, again and again."""

from ....hammock.arrays import FloatArray
from ....hammock.load_case import HANGING
from ....meshing import HammockModel, build_model
from ....meshing.bag_load import put_bags
from ....solver import State, relax
from ...design import Design
from ...solving.no_equilibrium import NoEquilibriumError
from ...solving.solution import solve_equilibrium
from .bag_places import BagLayout, plan_layout
from .reading import read_all

_TOLERANCE = 1e-6
COARSE = 0.08  # m; the cloth lies up to 5 mm lower than on 2 cm, and moves alike with what is varied, to a tenth
FINE = 0.025  # m; readings then change by 1 mm at most on half of it


class TrialSolver:
    """Solves one hammock under several amounts of water, each varied design from the unchanged one's shape.

    Parameters
    ----------
    design : Design
        Unchanged; without a tree distance it hangs at its angle under the person's spread weight.
    mesh_size : float
        Edge length in the field, m.

    Raises
    ------
    NoEquilibriumError
        If it cannot be hung.
    """

    def __init__(self, design: Design, mesh_size: float) -> None:
        self.mesh_size = mesh_size
        hung = solve_equilibrium(design, load=HANGING, mesh_size=mesh_size, hot_spots=False)
        self.design = design.hang_between(hung.model.tree_distance)
        self.layout = plan_layout(design.hammock.body)
        self._last: tuple[HammockModel, FloatArray] = hung.model, hung.state.positions
        self._known: dict[float, tuple[HammockModel, FloatArray]] = {}

    @property
    def tree_distance(self) -> float:
        """Horizontal distance between the straps, m."""
        return self._last[0].tree_distance

    def solve_base(self, water: float) -> tuple[HammockModel, State]:
        """Return the unchanged hammock under some kilograms of water, from the last shape that was found."""
        found = self._solve(self.design, self.layout, water, self._last)
        self._last = self._known[water] = found[0], found[1].positions
        return found

    def read(self, design: Design, layout: BagLayout, water: float) -> FloatArray:
        """Return every reading (r,), SI, of a varied design under an amount of water that was solved before.

        Raises
        ------
        HammockError
            For a hammock that cannot hang.
        NoEquilibriumError
            If the solver ends without an equilibrium.
        """
        return read_all(*self._solve(design, layout, water, self._known[water]))

    def _solve(
        self, design: Design, layout: BagLayout, water: float, start: tuple[HammockModel, FloatArray]
    ) -> tuple[HammockModel, State]:
        """Return a hammock under some kilograms of water, from a shape that was found."""
        distance = design.hammock.suspension.tree_distance
        empty = build_model(design.hammock, None, self.mesh_size, tree_distance=distance)
        model = put_bags(empty, layout.place(design.hammock.body, water))
        state = relax(model.structure, tolerance=_TOLERANCE, start=model.carry_over(*start))
        if not state.converged:
            raise NoEquilibriumError(
                f"No equilibrium found under {water:g} kg of water ({state.reason}, residual {state.residual:.1e} "
                f"after {state.iterations} steps). {state.message}"
            )
        return model, state
