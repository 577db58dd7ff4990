"""Sitting across as a table and sentences for a terminal."""

from math import degrees

from rich.console import Console, Group
from rich.table import Table
from rich.text import Text

from ...studies.lying.across_sentences import TENS, make_across_sentences
from ...studies.lying.sitting_across import SittingAcross
from ...unit_display import WIDTH, Units, find_main_system, show_alike, show_quantity, write_sentence

_HEADINGS = ("hips left", "rim high", "left cord", "on a thigh", "at most", "tilt", "by hand", "friction")


def print_across(name: str, found: SittingAcross, units: Units, console: Console) -> None:
    """Print every place at which a person sits across, and what it means.

    Parameters
    ----------
    name : str
        Of the design.
    found : SittingAcross
        From :func:`~tautlay.cases.studies.lying.sitting_across.sit_across`.
    units : {"metric", "imperial", "both"}
        Units; of both the table has the metric ones.
    console : Console
        Where to; nothing is wider than 80 columns.
    """
    table, system = Table(box=None, pad_edge=False), find_main_system(units)
    for heading in _HEADINGS:
        table.add_column(heading, justify="right", no_wrap=True)
    stages = found.stages
    columns = (
        show_alike([stage.place for stage in stages], "length", system),
        show_alike([stage.rim_height for stage in stages], "length", system),
        show_alike([stage.near_cord for stage in stages], "force", system),
        show_alike([stage.rim.line_load for stage in stages], "line_load", system),
        [show_quantity(round(stage.pressure, TENS), "stress", system, 2) for stage in stages],
        [f"{degrees(stage.tilt):.0f} deg" for stage in stages],
        [f"{degrees(stage.tilt_by_hand):.0f} deg" for stage in stages],
        [f"{stage.friction:.2f}" for stage in stages],
    )
    for row in zip(*columns, strict=True):
        table.add_row(*map(Text, row))
    told = [Text(write_sentence(sentence, units)) for sentence in make_across_sentences(found)]
    title = Text(f"{name}: sitting across to get in, facing left")
    console.print(Group(table, Text(), title, *told), width=min(console.width, WIDTH))
