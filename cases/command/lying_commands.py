"""Commands for a lying person: the sideways tipping shift, and hanging for a target."""

from pathlib import Path

import click

FILE = click.Path(path_type=Path)
LENGTHS = click.Choice(["foot-strap-height", "head-strap-height", "line-length"])


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

    plan = read_design(design)

    def report(shift: float, push: float) -> None:
        force = show_quantity(push, "force", plan.units)
        click.echo(f"shift {show_quantity(shift, 'length', plan.units)}: push {force}", err=True)

    with name_file(design):
        margin = find_tip_margin(plan, progress=None if quiet else report)
    print_tip(plan.name, margin, plan.units, Console(highlight=False))


@click.command()
@click.argument("design", type=FILE)
@click.option("--target", "--wish", "target", required=True, help='Such as "no slide", "torso 3 deg" or "legs 5 deg".')
@click.option("--vary", type=LENGTHS, default="foot-strap-height", show_default=True, help="Length to change.")
def trim(design: Path, *, target: str, vary: str) -> None:
    """Find the strap height for a target pitch or no sliding."""
    from rich.console import Console

    from ..design import read_design
    from ..solving.no_equilibrium import name_file
    from ..studies.lying.before_after import print_trim
    from ..studies.lying.target import TargetError
    from ..studies.lying.trim import find_trim

    plan = read_design(design)
    try:
        with name_file(design):
            found = find_trim(plan, target, vary=vary.replace("-", "_"))
    except TargetError as error:
        raise click.BadParameter(str(error), param_hint="--target") from None
    print_trim(found, plan.units, Console(highlight=False))
