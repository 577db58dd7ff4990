"""Amount of material in a part, and how it is derived."""

from dataclasses import dataclass, replace
from typing import Literal

from ..materials.short_repr import write_repr, write_value
from .capacity import Basis, CapacityStep, find_weakest


@dataclass(frozen=True)
class Amount:
    """Amount of material in a part.

    Parameters
    ----------
    value : float
        SI; of cloth it may be below zero, where a part ends short of its finished edge.
    dimension : {"length", "area"}
        Of the value.
    steps : tuple of CapacityStep
        How the value is derived.
    range : (float, float) or None
        Smallest and largest likely value, where the rule it comes from has a range.

    Examples
    --------
    >>> cut = Amount(2.1, "length", (CapacityStep("finished length", "the design", "stated"),))
    >>> cord = cut.add(0.3, CapacityStep("two buries of 15 cm", "the design", "stated"))
    >>> round(cord.value, 3), cord.basis, len(cord.steps)
    (2.4, 'stated', 2)
    """

    value: float
    dimension: Literal["length", "area"]
    steps: tuple[CapacityStep, ...]
    range: tuple[float, float] | None = None

    def __repr__(self) -> str:
        return write_repr(self, write_value(self.value, self.dimension), f"steps: {len(self.steps)}")

    @property
    def basis(self) -> Basis:
        """Basis of the weakest step."""
        return find_weakest(step.basis for step in self.steps)

    @property
    def limits(self) -> tuple[float, float]:
        """Smallest and largest likely value; the value itself twice where it has no range."""
        return self.range or (self.value, self.value)

    def add(self, more: float, step: CapacityStep) -> "Amount":
        """Return the amount with ``more``, SI, of the same material, and why."""
        limits = None if self.range is None else (self.range[0] + more, self.range[1] + more)
        return replace(self, value=self.value + more, steps=(*self.steps, step), range=limits)
