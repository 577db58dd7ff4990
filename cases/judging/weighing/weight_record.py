"""Masses as a result keeps them: what the structure carries, and what is on the scales."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated

from ....making import Basis, CapacityStep, WeightGroup
from ...record import FieldUnit, Kilograms, Missing, Record, SIValue, measure
from .weight import Unweighed, Weight
from .weight_list import WeightList


@dataclass(frozen=True, repr=False)
class AmountStep(Record):
    """One step towards an amount of material: what is taken, its source, how sure it is.

    ``times`` holds nothing: what an amount is multiplied with counts as exact.
    """

    text: str
    source: str
    basis: Basis
    times: None = None


@dataclass(frozen=True, repr=False)
class WeightRecord(Record):
    r"""One part on the scales.

    Parameters
    ----------
    part, material : str
        What it is, and what it is made of.
    group : WeightGroup
        What it counts to.
    count : int
        How many, of things that are counted.
    amount : SIValue or None
        How much material it takes, a, m or m2; None for things that are counted.
    mass : float
        :math:`m = a \mu` with the mass :math:`\mu` of a unit of the material, kg.
    least, most : float
        The same at the ends of the likely ranges, kg.
    carried_anyway : bool
        Whether it is carried anyway.
    basis : str
        Of the least sure value it rests on.
    amount_from : tuple of AmountStep
        How the amount comes about.
    """

    part: str
    material: str
    group: WeightGroup
    count: int
    amount: Annotated[SIValue | None, Missing.LEFT_OUT]
    mass: Kilograms
    least: Kilograms
    most: Kilograms
    carried_anyway: bool
    basis: Basis
    amount_from: tuple[AmountStep, ...]


@dataclass(frozen=True, repr=False)
class ModelledMasses(Record):
    """What the structure carries.

    Parameters
    ----------
    person : float
        kg.
    hammock : float
        All parts in finished sizes, without hems, seams, splices and hardware, kg.
    parts : mapping of str to float
        The same part by part, kg.
    """

    person: Kilograms
    hammock: Kilograms
    parts: Annotated[Mapping[str, float], FieldUnit("kg")]


@dataclass(frozen=True, repr=False)
class Scales(Record):
    """Everything on the scales.

    Parameters
    ----------
    total, total_least, total_most : float
        Sum of all, as taken, at the lower and at the upper end of every range, kg.
    packed, packed_least, packed_most : float
        Without what is carried anyway, kg.
    carried_anyway : float
        kg.
    groups : mapping of WeightGroup to float
        Sums without what is carried anyway, kg.
    weighed : tuple of WeightRecord
        Part by part.
    not_weighed : tuple of Unweighed
        What the design does not tell.
    """

    total: Kilograms
    total_least: Kilograms
    total_most: Kilograms
    packed: Kilograms
    packed_least: Kilograms
    packed_most: Kilograms
    carried_anyway: Kilograms
    groups: Annotated[Mapping[WeightGroup, float], FieldUnit("kg")]
    weighed: tuple[WeightRecord, ...]
    not_weighed: tuple[Unweighed, ...]


@dataclass(frozen=True, repr=False)
class Weights(Scales, ModelledMasses):
    """What the structure carries, and what is on the scales."""


def record_scales(scales: WeightList) -> Scales:
    """Return a list of weights in plain numbers and words.

    Parameters
    ----------
    scales : WeightList
        Of one design.
    """
    total, packed = scales.add(), scales.packed
    return Scales(
        total=total.mass,
        total_least=total.least,
        total_most=total.most,
        packed=packed.mass,
        packed_least=packed.least,
        packed_most=packed.most,
        carried_anyway=scales.add(carried=True).mass,
        groups={group: scales.add(group, carried=False).mass for group in WeightGroup},
        weighed=tuple(_record_weight(weight) for weight in scales.weights),
        not_weighed=tuple(Unweighed(each.part, str(each.reason)) for each in scales.unweighed),
    )


def _record_weight(weight: Weight) -> WeightRecord:
    """Return one weight in plain numbers and words."""
    amount = weight.amount
    return WeightRecord(
        part=weight.part,
        material=weight.material,
        group=weight.group,
        count=weight.count,
        amount=None if amount is None else measure(amount.value, amount.dimension),
        mass=weight.mass,
        least=weight.limits[0],
        most=weight.limits[1],
        carried_anyway=weight.carried,
        basis=weight.basis,
        amount_from=() if amount is None else tuple(_record_step(step) for step in amount.steps),
    )


def _record_step(step: CapacityStep) -> AmountStep:
    """Return one step of an amount."""
    return AmountStep(step.text, step.source, step.basis)
