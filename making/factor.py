"""Factors of safety required of each kind of part, and losses by wet and age before them."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import NamedTuple

from ..materials.short_repr import write_repr
from .capacity import Basis, Capacity, Multiplier


class Factor(NamedTuple):
    """A factor of safety.

    Parameters
    ----------
    kind : str
        Kind of part it is required of.
    value : float
        Capacity over demand must be at least this.
    source : str
        Where it comes from.
    basis : str
        How certain that is.
    meaning : str
        What it is required of, in words.
    """

    kind: str
    value: float
    source: str
    basis: Basis
    meaning: str

    def __repr__(self) -> str:
        return write_repr(self, f"{self.kind} {self.value:g}", self.basis, self.source)


FACTORS: Mapping[str, Factor] = MappingProxyType(
    {
        factor.kind: factor
        for factor in (
            Factor(
                "cord", 5.0,
                "Cordage Institute CI 1401-06, section 4: 5 to 12 for fibre rope", "seen",
                "breaking load of a cord with its splices and bends",
            ),
            Factor(
                "webbing", 5.0,
                "ASME B30.9: 5 for synthetic web slings", "second hand",
                "breaking load of a strap with its loops",
            ),
            Factor(
                "cloth", 5.0,
                "as for synthetic web slings, ASME B30.9; its use for cloth is engineering judgement",
                "judgement",
                "strip strength of the cloth along warp and weft",
            ),
            Factor(
                "seam", 5.0,
                "as for synthetic web slings, ASME B30.9; its use for seams is engineering judgement",
                "judgement",
                "strength of seams and stitches",
            ),
            Factor(
                "metal", 2.0,
                "Aluminum Design Manual, E.1: 1.65 to yield, 1.95 to rupture; rounded up so that a sudden "
                "load of twice as much just reaches yield",
                "memory",
                "buckling and yield of metal bars and fittings",
            ),
            Factor(
                "laminate", 3.0,
                "engineering judgement: 1.5 times that of metal, since carbon and glass fibre break where metal bends",
                "judgement",
                "buckling and breaking of carbon and glass fibre bars",
            ),
            Factor(
                "wood", 2.8,
                "0.25 of the average for design, ASTM D245 approach; the library's strengths are 0.70 of the average",
                "memory",
                "buckling and crushing of wood",
            ),
            Factor(
                "hold", 2.0,
                "engineering judgement: a sudden load doubles the thrust, and the lock must not slip",
                "judgement",
                "holding force of a pole lock or of a fit",
            ),
        )
    }
)  # fmt: skip


@dataclass(frozen=True)
class Factors:
    """The factors of safety one design requires.

    Parameters
    ----------
    changed : mapping of str to float
        Factors the design sets itself, by kind.
    sudden : bool
        Whether the load is sudden: then half is required, down to 1. The factors are meant for a load put on
        slowly and have to cover that one, which is twice as large; no source, engineering judgement.

    Examples
    --------
    >>> Factors({"cord": 8.0})["cord"].value, Factors()["cord"].value, Factors(sudden=True)["cord"].value
    (8.0, 5.0, 2.5)
    """

    changed: Mapping[str, float] = field(default_factory=dict)
    sudden: bool = False

    def __repr__(self) -> str:
        return write_repr(
            self,
            *(f"{kind} {value:g}" for kind, value in self.changed.items()),
            "the rest as usual",
            "halved for a sudden load" if self.sudden else "",
        )

    def __getitem__(self, kind: str) -> Factor:
        """Return the factor required of a kind of part; one of the design's own says so."""
        asked = FACTORS[kind]
        if kind in self.changed:
            asked = asked._replace(value=self.changed[kind], source="the design, table [factors]", basis="stated")
        if self.sudden:
            asked = asked._replace(
                value=max(asked.value / 2, 1.0),
                source=f"{asked.source}; halved for a sudden load, engineering judgement",
            )
        return asked


WET = (0.80, 0.90)  # share of its strength that wet nylon keeps: textbook notes on nylon 6.6, 80 to 90 % of the dry one
WET_ROPE = 0.80  # of nylon rope: its wet yarns rub more and share a load less evenly
_WET_SOURCE = (
    "Tension Technology International, Table 1: nylon loses 10 to 15 % when wet; US DoD, UFC 4-159-03, 2005, "
    "Table 6-8: nylon lines 15 %"
)
_ROPE_SOURCE = (
    "Flory, Hearle and Goksoy, Yarn friction and abrasion characteristics, Marine Technology Society 1990, abstract: "
    "nylon rope loses the usual 20 % when wet"
)


@dataclass(frozen=True)
class Reductions:
    """Losses of strength of textiles before the factor of safety.

    Parameters
    ----------
    wet : bool
        Whether it must pass when wet.
    aged : float
        Share of its strength that cloth, cord, webbing and thread still have when retired.
    wet_keeps : float
        Share of its strength that wet nylon keeps; published are 80 to 90 %. Rope is taken to keep no more than 80 %.

    Examples
    --------
    >>> from tautlay.making import CapacityStep
    >>> new = Capacity(1000.0, "force", (CapacityStep("breaking load", "a test", "stated"),))
    >>> round(Reductions().apply(new, "bonded nylon").value), round(Reductions().apply(new, "bonded polyester").value)
    (850, 1000)
    """

    wet: bool = True
    aged: float = 1.0
    wet_keeps: float = 0.85

    def apply(self, capacity: Capacity, kind: str, *, rope: bool = False) -> Capacity:
        """Return the capacity of a wet and aged textile.

        Parameters
        ----------
        capacity : Capacity
            Of the new and dry textile.
        kind : str
            Generic type, such as ``ripstop nylon``.
        rope : bool
            Whether it is a cord, braided or laid.
        """
        if self.wet and "nylon" in kind:
            keeps, source = self.wet_keeps, _WET_SOURCE
            if rope and keeps >= WET_ROPE:
                keeps, source = WET_ROPE, _ROPE_SOURCE
            capacity = capacity.keep(keeps, f"wet nylon keeps {keeps:.0%}", source, "seen")
        if self.aged < 1.0:
            text = f"aged to {self.aged:.0%} of its strength"
            times = Multiplier("aged textiles, share kept", "age", self.aged)
            capacity = capacity.keep(self.aged, text, "the design, table [factors]", "stated", times=times)
        return capacity
