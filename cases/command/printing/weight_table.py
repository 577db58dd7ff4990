"""A weight list in words and a table for a terminal."""

from collections.abc import Iterator
from dataclasses import replace

from rich.console import Console, Group, RenderableType
from rich.table import Table
from rich.text import Text

from ....making import WeightGroup as Part
from ....materials import System, format_quantity, parse_quantity
from ...judging.checks.check import name_part
from ...judging.weighing.weight import Weight
from ...judging.weighing.weight_list import Total, WeightList
from ...unit_display import WIDTH, Units, find_main_system, list_systems, write_sentence
from .footnotes import MARKS, explain_marks

_UNITS: dict[System, tuple[str, int]] = {"metric": ("g", 1), "imperial": ("oz", 2)}  # and digits after the point
_DUAL = "dual-use"


def print_scales(scales: WeightList, name: str, units: Units, console: Console) -> None:
    """Print the weight of every part, subtotals and totals, and what was not weighed.

    Parameters
    ----------
    scales : WeightList
        Of one design.
    name : str
        Of the design.
    units : {"metric", "imperial", "both"}
        Columns of masses; amounts have one system only, imperial where that is asked for, else metric.
    console : Console
        Where to; nothing is wider than 80 columns.
    """
    parts: list[RenderableType] = [
        Text(f"{name}: {write_total(scales.add().mass, scales.packed.mass, units)}", style="bold"),
        _build_table(scales, units),
        *(Text(line) for line in _write_footnotes(scales, units)),
        *(Text(f"NOT WEIGHED: {each.part}; {write_sentence(each.reason, units)}") for each in scales.unweighed),
    ]
    console.print(Group(*parts), width=min(console.width, WIDTH))


def write_total(total: float, packed: float, units: Units) -> str:
    """Return the weight in one sentence, with and without dual-use parts.

    Parameters
    ----------
    total, packed : float
        Of everything, and of what is not dual-use, kg.
    units : {"metric", "imperial", "both"}
        Units.

    Examples
    --------
    >>> write_total(0.5, 0.25, "metric")
    'adds 250.0 g to your pack, and weighs 500.0 g with dual-use parts.'
    """
    if total == packed:
        return f"weighs {_write_mass(total, units)}."
    return (
        f"adds {_write_mass(packed, units)} to your pack, and weighs {_write_mass(total, units)} with dual-use parts."
    )


def _build_table(scales: WeightList, units: Units) -> Table:
    """Return the parts by groups, with subtotals and totals."""
    systems = list_systems(units)
    table = Table(box=None, pad_edge=False)
    table.add_column("part", ratio=5)
    table.add_column("material", ratio=4)
    table.add_column("to cut", justify="right", no_wrap=True)
    for system in systems:
        table.add_column(_UNITS[system][0], justify="right", no_wrap=True)
    table.add_column("", no_wrap=True)
    for group in Part:
        rows = list(_join_pairs([weight for weight in scales.weights if weight.group is group]))
        for weight in rows:
            amount = _write_amount(weight, find_main_system(units))
            cells = (_write_part(weight), weight.material, amount, *_write_cells(weight.mass, systems))
            table.add_row(*map(Text, (*cells, MARKS.get(weight.basis, ""))))
        if rows:
            _add_sum(table, f"total {group}", scales.add(group), systems)
            table.add_row()
    for title, total in _list_totals(scales):
        _add_sum(table, title, total, systems)
    return table


def _write_part(weight: Weight) -> str:
    """Return the name of a part, with why it stands where it stands: a line of webbing counts as a strap."""
    line = weight.group is Part.STRAPS and weight.part.endswith("line")
    return weight.part + (" (strap)" if line else "") + (" (dual-use)" if weight.carried else "")


def _add_sum(table: Table, title: str, total: Total, systems: tuple[System, ...]) -> None:
    """Add a line with a sum."""
    table.add_row(*map(Text, (title, "", "", *_write_cells(total.mass, systems))), style="bold")


def _list_totals(scales: WeightList) -> Iterator[tuple[str, Total]]:
    """Yield the sums that makers compare: without straps, with them, with bars that are not dual-use."""
    yield "without straps and bars", scales.add(Part.HAMMOCK, Part.SUSPENSION, carried=False)
    yield "without bars", scales.add(Part.HAMMOCK, Part.SUSPENSION, Part.STRAPS, carried=False)
    carried = scales.add(carried=True)
    if carried.mass:
        yield "with bars, pack weight", scales.packed
        yield _DUAL, carried
    yield "total", scales.add()


def _join_pairs(weights: list[Weight]) -> Iterator[Weight]:
    """Yield weights in which left and right of the same size are one."""
    joined: dict[tuple[str, str, float], list[Weight]] = {}
    for weight in weights:
        part = name_part(weight.part)
        joined.setdefault((part, weight.material, weight.mass), []).append(weight)
    for (part, _, mass), same in joined.items():
        first, count = same[0], sum(weight.count for weight in same)
        title = first.part if count == 1 else f"{count} x {part}"
        amount = first.amount and replace(first.amount, value=len(same) * first.amount.value)
        yield replace(first, part=title, mass=len(same) * mass, amount=amount)


def _write_amount(weight: Weight, system: System) -> str:
    """Return how much material it takes."""
    if weight.amount is None:
        return ""
    return format_quantity(weight.amount.value, weight.amount.dimension, system)


def _write_cells(mass: float, systems: tuple[System, ...]) -> list[str]:
    """Return a mass in the units of each column, without the unit."""
    cells = []
    for system in systems:
        unit, digits = _UNITS[system]
        cells.append(f"{mass / parse_quantity(f'1 {unit}', 'mass'):.{digits}f}")
    return cells


def _write_mass(mass: float, units: Units) -> str:
    """Return a mass with its unit."""
    systems = list_systems(units)
    written = [f"{cell} {_UNITS[system][0]}" for cell, system in zip(_write_cells(mass, systems), systems, strict=True)]
    return written[0] if len(written) == 1 else f"{written[0]} ({written[1]})"


def _write_footnotes(scales: WeightList, units: Units) -> Iterator[str]:
    """Yield the range of the total, and what the marks mean."""
    total = scales.add()
    yield (
        f"\nTotal range {_write_mass(total.least, units)} to {_write_mass(total.most, units)}: if everything comes "
        "out light, or everything heavy; values without a range count as exact. Weigh what you buy."
    )
    marks = explain_marks({weight.basis for weight in scales.weights}, "weigh yours")
    if marks:
        yield f"{'; '.join(marks)}. Where each comes from: --json FILE."
