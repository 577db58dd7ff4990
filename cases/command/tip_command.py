"""The command that tells how far one can be pushed before one rolls out."""

from pathlib import Path

import click

from .option import FILE


@click.command()
@click.argument("design", type=FILE)
@click.option("--quiet", "-q", is_flag=True, help="Print only what was found.")
def tip(design: Path, *, quiet: bool) -> None:
    """Push the person of DESIGN sideways and tell where rolling out begins."""
    from ..design import read_design
    from ..solving.no_equilibrium import name_file
    from ..studies.lying.tipping import find_tip_margin, make_tip_sentence
    from ..unit_display import show_quantity, write_sentence

    plan = read_design(design)

    def tell(shift: float, push: float) -> None:
        words = "takes" if push >= 0.0 else "rolls on with"
        force = show_quantity(abs(push), "force", plan.units)
        click.echo(f"{show_quantity(shift, 'length', plan.units)} off the middle {words} {force}", err=True)

    with name_file(design):
        margin = find_tip_margin(plan, progress=None if quiet else tell)
    click.echo(f"{plan.name}: {write_sentence(make_tip_sentence(margin), plan.units)}")
