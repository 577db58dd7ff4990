"""The lightest design, as words and a table for a terminal."""

from textwrap import fill
from typing import TYPE_CHECKING

from ...studies.choose.choice_words import list_sentences
from ...studies.choose.outcome import ChooseResult, NextLighter
from ...unit_display import WIDTH, Units, find_main_system, show_quantity

if TYPE_CHECKING:
    from rich.console import Console


def print_choice(found: ChooseResult, units: Units, console: "Console") -> None:
    """Print what was chosen, how sure that is, and why nothing lighter.

    Parameters
    ----------
    found : ChooseResult
        What was found.
    units : {"metric", "imperial", "both"}
        Units.
    console : Console
        Where to.
    """
    for line in list_sentences(found, units):
        console.print(fill(line, WIDTH, subsequent_indent="  "), markup=False)
    if found.lighter:
        console.print("\nWhy not lighter: one thing changed, the rest as chosen", markup=False)
        _print_lighter(found.lighter, units, console)


def _print_lighter(lighter: tuple[NextLighter, ...], units: Units, console: "Console") -> None:
    """Print why nothing lighter was chosen."""
    from rich.table import Table
    from rich.text import Text

    table = Table(box=None, padding=(0, 1, 0, 0), width=WIDTH)
    for title, right in (("open", False), ("instead", False), ("saves", True), ("what fails", False)):
        table.add_column(title, justify="right" if right else "left", ratio=None if right else 1)
    for each in lighter:
        saves = show_quantity(each.saves, "mass", find_main_system(units))
        table.add_row(*map(Text, (each.choice, each.instead, saves, each.reason)))
    console.print(table)
