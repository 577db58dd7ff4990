"""A tipping margin as a sentence and a table for a terminal."""

from rich.console import Console, Group
from rich.table import Table
from rich.text import Text

from ...studies.lying.tipping import TipMargin, make_tip_sentence
from ...unit_display import WIDTH, Units, show_alike, show_quantity, write_sentence


def print_tip(name: str, margin: TipMargin, units: Units, console: Console) -> None:
    """Print the largest sideways shift and every shift that was tried, smallest first.

    Parameters
    ----------
    name : str
        Of the design.
    margin : TipMargin
        From :func:`~tautlay.cases.studies.lying.tipping.find_tip_margin`.
    units : {"metric", "imperial", "both"}
        Units.
    console : Console
        Where to; nothing is wider than 80 columns.
    """
    table = Table(box=None, pad_edge=False)
    for heading in ("sideways shift", "push needed"):
        table.add_column(heading, justify="right", no_wrap=True)
    table.add_column("")
    shifts = show_alike([trial.shift for trial in margin.trials], "length", units)
    for trial, shift in zip(margin.trials, shifts, strict=True):
        if trial.end is not None:
            table.add_row(*map(Text, (shift, "", write_sentence(trial.end, units))))
            continue
        mark = "highest push" if trial.shift == margin.shift else ""
        table.add_row(*map(Text, (shift, show_quantity(trial.push, "force", units), mark)))
    sentence = Text(f"{name}: {write_sentence(make_tip_sentence(margin), units)}")
    console.print(Group(table, Text(), sentence), width=min(console.width, WIDTH))
