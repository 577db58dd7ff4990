"""The first screen of a cutting pattern."""

from collections.abc import Iterator

from rich.console import Console, Group, RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from ...patterns.pattern import Pattern
from ...unit_display import WIDTH, Units, find_main_system, list_systems, show_quantity, write_sentence


def print_pattern(pattern: Pattern, console: Console) -> None:
    """Print the pieces, the cloth to buy, and what a maker must know before cutting.

    Parameters
    ----------
    pattern : Pattern
        What was drafted.
    console : Console
        Where to; nothing is wider than 80 columns.
    """
    units = pattern.design.units
    count = sum(piece.number for piece in pattern.pieces)
    parts: list[RenderableType] = [
        Text(f"{pattern.design.name}: {count} {'piece' if count == 1 else 'pieces'} of cloth to cut", style="bold"),
        *_list_notes(pattern, units),
        Text(""),
        _tabulate_pieces(pattern, units),
        Text(""),
        _tabulate_cloth(pattern, units),
    ]
    console.print(Group(*parts), width=min(console.width, WIDTH))


def _list_notes(pattern: Pattern, units: Units) -> Iterator[RenderableType]:
    """Yield what a maker must know; what must not be cut says FAIL."""
    for note in pattern.check():
        sentence = write_sentence(note.sentence, units)
        yield Padding(Text(f"{'FAIL: ' if note.fails else '! '}{sentence}"), (0, 0, 0, 1))


def _tabulate_pieces(pattern: Pattern, units: Units) -> Table:
    """Return a table of the pieces."""
    table = Table(box=None, pad_edge=False)
    table.add_column("piece", ratio=3)
    table.add_column("cut", justify="right", no_wrap=True)
    table.add_column("length", justify="right", ratio=3)
    table.add_column("width", justify="right", ratio=3)
    table.add_column("material", ratio=4)
    for piece in pattern.pieces:
        sizes = [show_quantity(each, "length", find_main_system(units), 4) for each in piece.size]
        table.add_row(*map(Text, (piece.name, str(piece.number), *sizes, piece.fabric.name)))
    return table


def _tabulate_cloth(pattern: Pattern, units: Units) -> Table:
    """Return a table of the cloth to buy."""
    table = Table(box=None, pad_edge=False)
    table.add_column("buy", ratio=4)
    table.add_column("usable width", justify="right", ratio=4)
    table.add_column("reason", ratio=6)
    for cloth in pattern.shopping.cloth:
        lengths = " or ".join(cloth.buy(system) for system in list_systems(units))
        width = show_quantity(cloth.width, "length", find_main_system(units))
        table.add_row(
            *map(Text, (f"{lengths}, {cloth.fabric}", width, write_sentence(cloth.reason, find_main_system(units))))
        )
    return table
