"""One part of the weight list, and one that could not be weighed."""

from dataclasses import dataclass

from ....making import Amount, Basis, WeightGroup, find_unit_mass, find_weakest
from ....materials import Material
from ...record import Record


@dataclass(frozen=True)
class Weight:
    """One part of the weight list.

    Parameters
    ----------
    part : str
        What it is.
    material : str
        What it is made of; of a thing that was weighed, ``as weighed``.
    group : WeightGroup
        What it counts to.
    mass : float
        kg.
    limits : (float, float)
        The same at the ends of the likely ranges of material and amount, kg.
    basis : Basis
        Of the least certain value it is based on.
    amount : Amount or None
        How much material, m or m2; None for things that are counted.
    count : int
        How many, of things that are counted.
    carried : bool
        Whether it is dual-use: in your pack anyway.
    """

    part: str
    material: str
    group: WeightGroup
    mass: float
    limits: tuple[float, float]
    basis: Basis
    amount: Amount | None = None
    count: int = 1
    carried: bool = False

    def __repr__(self) -> str:
        """Return part, material and mass; the steps to the amount are long."""
        return f"Weight({self.part!r:.60}, {self.material!r:.60}, {self.mass:.3g} kg)"


@dataclass(frozen=True, repr=False)
class Unweighed(Record):
    """A part that could not be weighed.

    Parameters
    ----------
    part : str
        Which part.
    reason : str
        What the design does not state, and what to add; may be a ``Sentence``.
    """

    part: str
    reason: str


def weigh_amount(part: str, material: Material, amount: Amount, group: WeightGroup, *, count: int = 1) -> Weight:
    """Return the mass of an amount of material.

    Parameters
    ----------
    part : str
        What it is.
    material : Material
        What it is made of.
    amount : Amount
        m2 of cloth and sheet, m of everything else; all ``count`` together.
    group : WeightGroup
        What it counts to.
    count : int
        How many there are.

    Examples
    --------
    >>> from tautlay.making import CapacityStep
    >>> from tautlay.materials import Fabric, read_library
    >>> cloth = read_library().find(Fabric, "ripstop nylon 37 g/m2")
    >>> amount = Amount(2.0, "area", (CapacityStep("cut", "the design", "stated"),))
    >>> body = weigh_amount("body", cloth, amount, WeightGroup.HAMMOCK)
    >>> round(body.mass * 1e3, 1), body.basis
    (74.6, 'second hand')
    """
    unit = find_unit_mass(material)
    ends = [mass * value for mass in (unit.least, unit.most) for value in amount.limits]
    basis = find_weakest((unit.basis, amount.basis))
    return Weight(part, material.name, group, unit.value * amount.value, (min(ends), max(ends)), basis, amount, count)
