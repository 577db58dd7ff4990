"""The weights of a result as tables."""

from collections.abc import Iterator
from typing import NamedTuple

from markupsafe import Markup, escape

from ...cases.judging.weighing import Unweighed, Weights
from ...cases.judging.weighing.weight_record import WeightRecord
from .checks import find_basis, mark_steps
from .wording import mark_name, mark_quantity, mark_sentence

_WEIGHED = ("part", "material", "group", "count", "amount", "mass", "least", "most", "carried anyway", "basis")


class WeightLine(NamedTuple):
    """One line of a table: what, how much, a remark, how deep it stands below the others."""

    title: str
    value: Markup
    remark: Markup = Markup()
    depth: int = 0


class SheetRow(NamedTuple):
    """One line of a sheet: its cells, and the steps to it with source and how sure each is."""

    cells: list[Markup]
    steps: list[tuple[Markup, Markup, str]]


class WeightTable(NamedTuple):
    """A table of things that are alike."""

    title: str
    headings: list[str]
    rows: list[SheetRow]


class Mass(NamedTuple):
    """One mass, kg, under a heading or under none."""

    heading: str
    title: str
    mass: float


def list_masses(weights: Weights) -> Iterator[Mass]:
    """Yield every mass of the weights of a result but those of single things on the scales.

    Parameters
    ----------
    weights : Weights
        Of one result.
    """
    yield Mass("", "person", weights.person)
    yield Mass("", "hammock", weights.hammock)
    for part, mass in weights.parts.items():
        yield Mass("parts", mark_name(part), mass)
    yield Mass("", "total", weights.total)
    yield Mass("", "total least", weights.total_least)
    yield Mass("", "total most", weights.total_most)
    yield Mass("", "packed", weights.packed)
    yield Mass("", "packed least", weights.packed_least)
    yield Mass("", "packed most", weights.packed_most)
    yield Mass("", "carried anyway", weights.carried_anyway)
    for group, mass in weights.groups.items():
        yield Mass("groups", str(group), mass)


def list_weights(weights: Weights) -> Iterator[WeightLine]:
    """Yield the masses of a result as lines, headings above those that stand under one.

    Parameters
    ----------
    weights : Weights
        Of one result.
    """
    above = ""
    for heading, title, mass in list_masses(weights):
        if heading and heading != above:
            yield WeightLine(heading, Markup())
        yield WeightLine(title, mark_quantity(mass, "mass"), Markup(), 1 if heading else 0)
        above = heading


def list_sheets(weights: Weights) -> Iterator[WeightTable]:
    """Yield what was weighed and what was not, thing by thing; no table without a row.

    Parameters
    ----------
    weights : Weights
        Of one result.
    """
    if weights.weighed:
        yield WeightTable("weighed", list(_WEIGHED), [_mark_weight(weight) for weight in weights.weighed])
    if weights.not_weighed:
        rows = [_mark_unweighed(each) for each in weights.not_weighed]
        yield WeightTable("not weighed", ["part", "reason"], rows)


def _mark_weight(weight: WeightRecord) -> SheetRow:
    """Return one thing on the scales as it is shown."""
    amount = weight.amount
    cells = [
        mark_sentence(weight.part),
        mark_sentence(weight.material),
        escape(str(weight.group)),
        escape(str(weight.count)),
        Markup() if amount is None else mark_quantity(amount.value, amount.dimension),
        *(mark_quantity(mass, "mass") for mass in (weight.mass, weight.least, weight.most)),
        escape("yes" if weight.carried_anyway else "no"),
        escape(find_basis(weight.basis)),
    ]
    return SheetRow(cells, mark_steps(weight.amount_from))


def _mark_unweighed(each: Unweighed) -> SheetRow:
    """Return what the design does not tell as it is shown."""
    return SheetRow([mark_sentence(each.part), mark_sentence(each.reason)], [])
