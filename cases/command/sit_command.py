"""The command that tells whether the head clears the head bar when the person sits up."""

from pathlib import Path

import click

from .option import FILE


@click.command()
@click.argument("design", type=FILE)
@click.option("--quiet", "-q", is_flag=True, help="Print no progress.")
def sit(design: Path, *, quiet: bool) -> None:
    """Find how near the head bar comes on sitting up."""
    from rich.console import Console

    from ..design import read_design
    from ..solving.no_equilibrium import name_file
    from ..studies.lying.sitting_up import sit_up
    from .printing.sit_table import print_sit
    from .progress import show_line

    plan = read_design(design)
    with show_line(not quiet) as write, name_file(design):
        found = sit_up(plan, report=write)
    print_sit(plan.name, found, plan.units, Console(highlight=False))
