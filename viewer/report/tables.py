"""The other tables of the page: forces, shape, lay and comfort, materials."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from markupsafe import Markup, escape

from ...cases.display.basis_words import show_basis
from ...cases.display.reading import Reading, show_reading
from ...cases.display.result_rows import (
    list_channel,
    list_comfort,
    list_forces,
    list_shape,
    list_stretch,
    write_shares,
)
from ...cases.judging.comfort.comfort import Comfort
from ...cases.judging.comfort.measure_list import MEASURES
from ...cases.judging.material_list import MaterialRecord, MaterialValue
from ...cases.result_record import ResultRecord
from ...cases.unit_display import SYSTEMS
from .weights import WeightLine
from .wording import mark_pair, mark_quantity, mark_sentence


class ComfortRow(NamedTuple):
    """One measure of comfort: what, how much, what to aim for, how it is computed, its basis."""

    title: str
    value: Markup
    better: Markup
    formula: str
    sure: str


class TitledTable(NamedTuple):
    """A table with its heading."""

    title: str
    lines: list[WeightLine]


def list_groups(record: ResultRecord) -> Iterator[TitledTable]:
    """Yield the tables of plain readings.

    Parameters
    ----------
    record : ResultRecord
        Of one result.
    """
    forces, shape = list_forces(record.forces, record.anchors, record.trees), list_shape(record.shape, record.weights)
    channel, stretch = record.channel, record.stretch
    yield TitledTable("Forces", _mark_readings(forces))
    shares = WeightLine("cloth by area", escape(write_shares(record.fabric)))
    yield TitledTable("Shape and cloth", [*_mark_readings(shape), shares])
    yield TitledTable("Side channels", _mark_twice(*(list_channel(channel, system) for system in SYSTEMS)))
    yield TitledTable("Stretch under load", _mark_twice(*(list_stretch(stretch, system) for system in SYSTEMS)))


def list_comfort_rows(comfort: Comfort | None) -> list[ComfortRow]:
    """Return the measures of the lay; nothing without a person in contact."""
    if comfort is None:
        return []
    return [
        ComfortRow(line.title, _mark_value(line), mark_sentence(line.remark), measure.formula, measure.sure)
        for line, measure in zip(list_comfort(comfort), MEASURES, strict=True)
    ]


class Value(NamedTuple):
    """One number of a material."""

    quantity: str
    value: Markup
    limits: Markup
    status: str
    source: str


class MaterialRow(NamedTuple):
    """A material: its name and kind, what it is used for, its numbers."""

    name: str
    kind: str
    used_for: str
    values: list[Value]


def list_materials(materials: Iterable[MaterialRecord]) -> list[MaterialRow]:
    """Return what the hammock is made of, each number with its source and status."""
    return [
        MaterialRow(
            material.name,
            f"{material.category}, {material.kind}",
            ", ".join(material.used_for),
            [_mark_number(value) for value in material.values],
        )
        for material in materials
    ]


def _mark_number(value: MaterialValue) -> Value:
    """Return one number of a material as it is shown."""
    limits = Markup()
    if value.range:
        low, high = (mark_quantity(limit, value.dimension) for limit in value.range)
        limits = Markup("{} to {}").format(low, high)
    source = "; ".join(text for text in (value.source, value.note) if text)
    number = mark_quantity(value.value, value.dimension)
    return Value(value.quantity, number, limits, show_basis(value.status), source)


def _mark_readings(readings: Iterable[Reading]) -> list[WeightLine]:
    """Return readings as they are shown."""
    return [WeightLine(line.title, _mark_value(line), mark_sentence(line.remark)) for line in readings]


def _mark_twice(metric: Iterable[Reading], imperial: Iterable[Reading]) -> list[WeightLine]:
    """Return readings whose remarks are written in one system of units at a time."""
    return [
        WeightLine(line.title, _mark_value(line), mark_sentence(line.remark))
        if line.remark == other.remark
        else WeightLine(line.title, _mark_value(line), mark_pair(line.remark, other.remark))
        for line, other in zip(metric, imperial, strict=True)
    ]


def _mark_value(line: Reading) -> Markup:
    """Return the value of a reading."""
    return mark_pair(*(show_reading(line, system) for system in SYSTEMS))
