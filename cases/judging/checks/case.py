"""What the checks look at."""

from typing import NamedTuple

from ....hammock.hammock import Hammock
from ....making import Capacity, Workmanship, find_capacity
from ....materials import Cord, Webbing
from ....meshing import HammockModel
from ....solver import State
from ..cloth.hot_spot import ClothUtilisation
from ..forces import Forces


class Case(NamedTuple):
    """One solved design.

    Parameters
    ----------
    model : HammockModel
        Structure and named parts.
    state : State
        Its equilibrium.
    forces : Forces
        What its cords, lines and bars carry.
    workmanship : Workmanship
        How the parts are made, and the factors of safety asked.
    cloth_utilisation : ClothUtilisation or None
        Where the cloth is pulled hardest; None if the mesh was too coarse to tell.
    """

    model: HammockModel
    state: State
    forces: Forces
    workmanship: Workmanship
    cloth_utilisation: ClothUtilisation | None = None

    def __repr__(self) -> str:
        """Return how large it is; its arrays are long."""
        return f"Case({len(self.model.mesh.triangles)} triangles, {self.forces!r:.100})"

    def find_breaking_load(self, material: Cord | Webbing) -> Capacity:
        """Return what a cord or strap bears by itself, wet and aged as asked, N."""
        whole = find_capacity(material, "breaking_load", "force", "breaking load")
        return self.workmanship.reductions.apply(whole, material.kind)

    @property
    def hammock(self) -> Hammock:
        """What was solved."""
        return self.model.hammock
