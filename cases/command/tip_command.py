"""The command that finds how far the person can be pushed before rolling out."""

from pathlib import Path

import click

from .option import FILE
from .say import say


@click.command()
@click.argument("design", type=FILE)
@click.option("--quiet", "-q", is_flag=True, help="Print no progress.")
def tip(design: Path, *, quiet: bool) -> None:
    """Find the sideways shift at which the person rolls out."""
    from rich.console import Console

    from ..design import read_design
    from ..solving.no_equilibrium import name_file
    from ..studies.lying.tipping import find_tip_margin
    from ..unit_display import show_quantity
    from .printing.tip_table import print_tip
    from .progress import show_line

    plan = read_design(design)

    def report(shift: float, push: float) -> None:
        force = show_quantity(push, "force", plan.units)
        say(f"shift {show_quantity(shift, 'length', plan.units)}: push {force}", err=True)

    with show_line(not quiet) as write, name_file(design):
        margin = find_tip_margin(plan, progress=None if quiet else report, report=write)
    print_tip(plan.name, margin, plan.units, Console(highlight=False))
