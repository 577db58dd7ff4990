"""How the parts of one hammock are made, beyond their shape."""

from dataclasses import dataclass, field, fields

from ..materials.short_repr import write_repr
from .corner import Corner
from .cutting_rules import CuttingRules
from .extra import ExtraItem
from .factor import Factors, Reductions
from .fold import Fold
from .hem import Hem
from .lock import Lock
from .rigging import Rigging


@dataclass(frozen=True)
class Workmanship:
    """How the parts of one hammock are made; what is None is not given, and cannot be checked.

    Parameters
    ----------
    factors : Factors
        Factors of safety required.
    reductions : Reductions
        Losses by wet and age.
    fold : Fold or None
        How the side channels are folded and sewn.
    lock : Lock or None
        Anchor stitching.
    head_rigging, foot_rigging : Rigging
        How the ends of cords, lines and straps are made there.
    corner : TipLoop or CornerPlate or None
        The corner that joins cord, leg and bar.
    hem : Hem or None
        How the ends of the body are hemmed.
    cutting : CuttingRules
        How the pieces are cut.
    extras : tuple of ExtraItem
        Extra items of the weight list.
    """

    factors: Factors = field(default_factory=Factors)
    reductions: Reductions = field(default_factory=Reductions)
    fold: Fold | None = None
    lock: Lock | None = None
    head_rigging: Rigging = field(default_factory=Rigging)
    foot_rigging: Rigging = field(default_factory=Rigging)
    corner: Corner | None = None
    hem: Hem | None = None
    cutting: CuttingRules = field(default_factory=CuttingRules)
    extras: tuple[ExtraItem, ...] = ()

    def __repr__(self) -> str:
        return write_repr(
            self,
            *(item.name for item in fields(self) if item.name != "extras" and getattr(self, item.name) is not None),
            f"extras: {len(self.extras)}",
        )

    def pick_rigging(self, end: str) -> Rigging:
        """Return how the ends of cords are made at the ``"head"`` or ``"foot"``."""
        return {"head": self.head_rigging, "foot": self.foot_rigging}[end]
