"""Extra items that add weight and take no computed load: rings, bags, ridge lines."""

from dataclasses import dataclass

from ..materials.short_repr import write_repr, write_value
from .group import WeightGroup


@dataclass(frozen=True)
class ExtraItem:
    """An extra item of the weight list.

    Parameters
    ----------
    name : str
        What it is.
    mass : float
        Of one, kg.
    group : WeightGroup
        Where it counts.
    count : int
        How many.
    carried : bool
        Whether it is dual-use.

    Examples
    --------
    >>> round(ExtraItem("apex ring", 0.009, WeightGroup.SUSPENSION, 2).whole * 1e3)
    18
    """

    name: str
    mass: float
    group: WeightGroup
    count: int = 1
    carried: bool = False

    def __repr__(self) -> str:
        return write_repr(
            self, f"{self.count} x {self.name}", f"{write_value(self.mass, 'mass')} each", str(self.group)
        )

    @property
    def whole(self) -> float:
        """Mass of all of them, kg."""
        return self.count * self.mass
