"""How the parts of one hammock are made, beyond their shape."""

from dataclasses import dataclass, field

from .factor import Factors, Reductions
from .fold import Fold
from .lock import Lock


@dataclass(frozen=True)
class Workmanship:
    """How the parts of one hammock are made; what is None is not told, and cannot be checked.

    Parameters
    ----------
    factors : Factors
        Factors of safety asked.
    reductions : Reductions
        What wet and age take off.
    fold : Fold or None
        How the side channels are folded and sewn.
    lock : Lock or None
        Stitches through the side cords.
    """

    factors: Factors = field(default_factory=Factors)
    reductions: Reductions = field(default_factory=Reductions)
    fold: Fold | None = None
    lock: Lock | None = None
