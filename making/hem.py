"""Hems of the edges at the ends of the body, and beside its extensions."""

from dataclasses import dataclass

from ..materials import make_sentence
from ..materials.short_repr import write_repr, write_value
from .amount import Amount
from .capacity import CapacityStep
from .stitching import Stitching

USUAL_ALLOWANCE = 0.03  # m, a double-fold hem 15 mm wide; engineering judgement, no source


@dataclass(frozen=True)
class Hem:
    """A hem.

    Parameters
    ----------
    allowance : float
        Cloth beyond the finished edge, m.
    seam : Stitching
        Its rows.

    Examples
    --------
    >>> from tautlay.materials import Thread, read_library
    >>> Hem(0.03, Stitching(read_library().find(Thread, "nylon size B"), 0.003)).allowance
    0.03
    """

    allowance: float
    seam: Stitching

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"allowance {write_value(self.allowance, 'length')}",
            f"{self.seam.thread.name} in rows: {self.seam.rows}",
        )


def measure_hem(hem: Hem | None, length: float, layers: int) -> Amount:
    """Return the hem allowance, m2: length times allowance times layers.

    Parameters
    ----------
    hem : Hem or None
        None is not given: then :data:`USUAL_ALLOWANCE`, an engineering judgement, counts.
    length : float
        Of all hems, m.
    layers : int
        Of cloth.

    Examples
    --------
    >>> used = measure_hem(None, 2.3, 1)
    >>> round(used.value, 3), used.basis
    (0.069, 'judgement')
    """
    allowance = USUAL_ALLOWANCE if hem is None else hem.allowance
    text = make_sentence(
        "{allowance:length} beyond {length:length} of finished edges", allowance=allowance, length=length
    )
    if hem is None:
        source = "engineering judgement: double-fold hem; add [body.hem]"
        return Amount(length * allowance * layers, "area", (CapacityStep(text, source, "judgement"),))
    return Amount(length * allowance * layers, "area", (CapacityStep(text, "the design", "stated"),))
