"""Sitting up as a sentence and a table for a terminal."""

from math import degrees

from rich.console import Console, Group
from rich.table import Table
from rich.text import Text

from ...studies.lying.sitting_up import SittingUp, make_sit_sentence
from ...unit_display import WIDTH, Units, show_alike, write_sentence


def print_sit(name: str, found: SittingUp, units: Units, console: Console) -> None:
    """Print whether the head bar is cleared, and every posture on the way up that comes nearer to it.

    Parameters
    ----------
    name : str
        Of the design.
    found : SittingUp
        From :func:`~tautlay.cases.studies.lying.sitting_up.sit_up`.
    units : {"metric", "imperial", "both"}
        Units.
    console : Console
        Where to; nothing is wider than 80 columns.
    """
    table = Table(box=None, pad_edge=False)
    for heading in ("torso tilt", "from bar", "hands give", "seat held"):
        table.add_column(heading, justify="right", no_wrap=True)
    table.add_column("")
    way = found.worst
    gaps = show_alike([stage.clearance for stage in way.stages], "length", units)
    holds = show_alike([stage.hold for stage in way.stages], "force", units)
    for stage, gap, hold in zip(way.stages, gaps, holds, strict=True):
        mark = f"{stage.part}, nearest" if stage is way.least else stage.part
        table.add_row(*map(Text, (f"{degrees(stage.tilt):.0f} deg", gap, f"{round(stage.moment)} N m", hold, mark)))
    sentence = Text(f"{name}: {write_sentence(make_sit_sentence(found), units)}")
    console.print(Group(table, Text(), sentence), width=min(console.width, WIDTH))
