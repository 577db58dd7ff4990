"""The command that checks a design for errors."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from .option import FILE
from .say import say

if TYPE_CHECKING:
    from ..design import Design


@click.command()
@click.argument("design", type=FILE)
def check(design: Path) -> None:
    """Check DESIGN for errors without solving it."""
    from ..design import read_design
    from ..judging.checks.bury_rule import note_buries
    from ..unit_display import write_sentence

    plan = read_design(design)
    say(f"OK: {plan.name} ({design}) is complete and can be solved.")
    for fault in note_buries(plan.hammock, plan.workmanship):
        say(f"FAIL: {write_sentence(fault, plan.units)}")
    for note in _list_notes(plan):
        say(f"Note: {write_sentence(note, plan.units)}")
    say(f"To see whether it is strong enough: tautlay solve {design}")


def _list_notes(design: "Design") -> Iterator[str]:
    """Yield what can be solved and is yet hardly meant."""
    from ...hammock import find_design_warnings
    from ...materials import make_sentence
    from ..design_geometry import trace_design

    yield from find_design_warnings(design.hammock, design.person)
    lowest = float(trace_design(design).side[:, 1].min())
    if lowest < 0.0:
        yield make_sentence(
            "The side cords would hang {depth:length} below the ground, as estimated before solving. Raise the straps "
            "(strap_height) or shorten the lines (line_length).",
            depth=-lowest,
        )
