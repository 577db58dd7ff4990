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
        How the parts are made, and the factors of safety required.
    cloth_utilisation : ClothUtilisation or None
        Highest cloth tension; None if the mesh was too coarse for it.
    """

    model: HammockModel
    state: State
    forces: Forces
    workmanship: Workmanship
    cloth_utilisation: ClothUtilisation | None = None

    def __repr__(self) -> str:
        """Return how large it is; its arrays are long."""
        return f"Case({len(self.model.triangles)} triangles, {self.forces!r:.100})"

    def find_breaking_load(self, material: Cord | Webbing) -> Capacity:
        """Return the capacity of a plain cord or strap, wet and aged as the design states, N."""
        whole = find_capacity(material, "breaking_load", "force", "breaking load")
        return self.workmanship.reductions.apply(whole, material.kind, rope=isinstance(material, Cord))

    @property
    def hammock(self) -> Hammock:
        """What was solved."""
        return self.model.hammock
