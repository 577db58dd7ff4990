"""Commands that hang a hammock anew and again: how far one can be pushed, and how to hang it for a wish."""

from pathlib import Path

import click

FILE = click.Path(path_type=Path)
LENGTHS = click.Choice(["foot-strap-height", "head-strap-height", "line-length"])


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


@click.command()
@click.argument("design", type=FILE)
@click.option("--wish", required=True, help='Such as "no slide", "trunk 3 deg" or "legs 5 deg".')
@click.option("--vary", type=LENGTHS, default="foot-strap-height", show_default=True, help="What may change.")
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
