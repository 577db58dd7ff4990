"""The command that checks a design for errors."""

from pathlib import Path

import click

from .option import FILE
from .say import say


@click.command()
@click.argument("design", type=FILE)
def check(design: Path) -> None:
    """Check DESIGN for errors without solving it."""
    from ..design import read_design

    plan = read_design(design)
    say(f"OK: {plan.name} ({design}) can be solved.\nWhether it is strong enough: tautlay solve {design}")
