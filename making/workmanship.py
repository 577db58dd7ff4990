"""How the parts of one hammock are made, beyond their shape."""

from dataclasses import dataclass, field

from .corner import Corner
from .factor import Factors, Reductions
from .rigging import Rigging


@dataclass(frozen=True)
class Workmanship:
    """How the parts of one hammock are made; what is None is not told, and cannot be checked.

    Parameters
    ----------
    factors : Factors
        Factors of safety asked.
    reductions : Reductions
        What wet and age take off.
    rigging : Rigging
        How the ends of cords, lines and straps are made.
    corner : TipLoop or CornerPlate or None
        What joins cord, leg and bar at each corner.
    """

    factors: Factors = field(default_factory=Factors)
    reductions: Reductions = field(default_factory=Reductions)
    rigging: Rigging = field(default_factory=Rigging)
    corner: Corner | None = None
