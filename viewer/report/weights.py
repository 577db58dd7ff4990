"""The weights of a result as tables."""

from collections.abc import Iterator
from typing import NamedTuple

from markupsafe import Markup, escape

from ...cases.display.basis_words import show_basis
from ...cases.display.result_rows import list_part_masses
from ...cases.judging.weighing import Unweighed, Weights
from ...cases.judging.weighing.weight_record import WeightRecord
from .checks import mark_steps
from .wording import mark_quantity, mark_sentence

_WEIGHED = ("part", "material", "group", "count", "amount", "mass", "low", "high", "dual-use", "basis")


class WeightLine(NamedTuple):
    """One line of a table: what, how much, a remark, how deep it stands below the others."""

    title: str
    value: Markup
    remark: Markup = Markup()
    depth: int = 0


class SheetRow(NamedTuple):
    """One line of a weight list: its cells, and its derivation with source and basis of each step."""

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
    """Yield every mass of the weights of a result but those of single parts.

    Parameters
    ----------
    weights : Weights
        Of one result.
    """
    yield Mass("", "person", weights.person)
    yield Mass("", "all parts as computed", weights.hammock)
    for reading in list_part_masses(weights):
        yield Mass("parts", reading.title, reading.value)
    yield Mass("", "total", weights.total)
    yield Mass("", "total, low", weights.total_least)
    yield Mass("", "total, high", weights.total_most)
    yield Mass("", "added pack weight", weights.packed)
    yield Mass("", "added pack weight, low", weights.packed_least)
    yield Mass("", "added pack weight, high", weights.packed_most)
    yield Mass("", "dual-use", weights.carried_anyway)
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


def list_weight_tables(weights: Weights) -> Iterator[WeightTable]:
    """Yield what was weighed and what was not, part by part; no table without a row.

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
    """Return one part as it is shown."""
    amount = weight.amount
    cells = [
        mark_sentence(weight.part),
        mark_sentence(weight.material),
        escape(str(weight.group)),
        escape(str(weight.count)),
        Markup() if amount is None else mark_quantity(amount.value, amount.dimension),
        *(mark_quantity(mass, "mass") for mass in (weight.mass, weight.least, weight.most)),
        escape("yes" if weight.carried_anyway else "no"),
        escape(show_basis(weight.basis)),
    ]
    return SheetRow(cells, mark_steps(weight.amount_from))


def _mark_unweighed(each: Unweighed) -> SheetRow:
    """Return a part that was not weighed as it is shown."""
    return SheetRow([mark_sentence(each.part), mark_sentence(each.reason)], [])
