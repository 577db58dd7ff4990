"""The command that tells how to hang a hammock for a wish."""

from pathlib import Path

import click

from ..studies.lying.varied_length import VARIED
from .option import FILE

LENGTHS = [key.replace("_", "-") for key in VARIED]


@click.command()
@click.argument("design", type=FILE)
@click.option("--wish", required=True, help='Such as "no slide", "trunk 3 deg" or "legs 5 deg".')
@click.option("--vary", type=click.Choice(LENGTHS), default=LENGTHS[0], show_default=True, help="What may change.")
def trim(design: Path, *, wish: str, vary: str) -> None:
    """Find the strap height or line length of DESIGN that fulfils a wish, between the same trees, and what it does."""
    from rich.console import Console

    from ..design import read_design
    from ..solving.no_equilibrium import name_file
    from ..studies.lying.before_after import print_trim
    from ..studies.lying.target import WishError
    from ..studies.lying.trim import find_trim

    plan = read_design(design)
    try:
        with name_file(design):
            found = find_trim(plan, wish, vary=vary.replace("-", "_"))
    except WishError as error:
        raise click.BadParameter(str(error), param_hint="--wish") from None
    print_trim(found, plan.units, Console(highlight=False))
