"""The command that finds how to hang a hammock for a target."""

from pathlib import Path

import click

from ..design_issue import write_choices
from ..studies.lying.varied_length import VARIED
from .option import FILE

LENGTHS = [key.replace("_", "-") for key in VARIED]


@click.command()
@click.argument("design", type=FILE)
@click.option("--target", "--wish", "target", required=True, help='Such as "no slide", "torso 3 deg" or "legs 5 deg".')
@click.option(
    "--vary", type=click.Choice(LENGTHS), default=LENGTHS[0], show_default=True, metavar="LENGTH",
    help=f"Length to change: {write_choices(LENGTHS)}.",
)  # fmt: skip
def trim(design: Path, *, target: str, vary: str) -> None:
    """Find the strap height for a target tilt or no sliding."""
    from rich.console import Console

    from ..design import read_design
    from ..solving.no_equilibrium import name_file
    from ..studies.lying.target import TargetError
    from ..studies.lying.trim import find_trim
    from .printing.trim_table import print_trim
    from .progress import show_line

    plan = read_design(design)
    try:
        with show_line(True) as write, name_file(design):
            found = find_trim(plan, target, vary=vary.replace("-", "_"), report=write)
    except TargetError as error:
        raise click.BadParameter(str(error), param_hint="--target") from None
    print_trim(found, plan.units, Console(highlight=False))
