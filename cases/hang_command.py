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
    from .design import read_design
    from .no_equilibrium import name_file
    from .reading import show_quantity
    from .tipping import find_tip_margin

    plan = read_design(design)

    def tell(shift: float, push: float) -> None:
        words = f"{show_quantity(shift, 'length', plan.units)} off the middle takes "
        click.echo(words + show_quantity(push, "force", plan.units), err=True)

    with name_file(design):
        margin = find_tip_margin(plan, progress=None if quiet else tell)
    click.echo(
        f"{plan.name}: the middle of the body can be pushed {show_quantity(margin.shift, 'length', plan.units)} to the "
        f"side, which takes {show_quantity(margin.push, 'force', plan.units)} ({margin.share:.0%} of the weight). "
        f"Beyond, the person {margin.end}. Smooth cloth, slow push: whoever moves or swings tips sooner."
    )


@click.command()
@click.argument("design", type=FILE)
@click.option("--wish", required=True, help='"no slide", "trunk 3 deg" or "legs 5 deg".')
@click.option("--vary", type=LENGTHS, default="foot-strap-height", show_default=True, help="What may change.")
def trim(design: Path, *, wish: str, vary: str) -> None:
    """Find the strap height or line length of DESIGN that fulfils a wish, between the same trees."""
    from .design import read_design
    from .measures import MEASURES
    from .no_equilibrium import name_file
    from .reading import show_quantity
    from .trim import WishError, find_trim

    plan = read_design(design)
    key = vary.replace("-", "_")
    before = getattr(plan.hammock.suspension, key)
    try:
        with name_file(design):
            found = find_trim(plan, wish, vary=key)
    except WishError as error:
        raise click.BadParameter(str(error), param_hint="--wish") from None
    measure = next(measure for measure in MEASURES if measure.key == found.measure)
    reached = found.result.summary["comfort"][found.measure]
    click.echo(
        f"{plan.name}: {key} = {show_quantity(found.value, 'length', plan.units, 4)} instead of "
        f"{show_quantity(before, 'length', plan.units, 4)}, trees "
        f"{show_quantity(found.result.model.tree_distance, 'length', plan.units)} apart. Then: {measure.title} "
        f"{show_quantity(reached, measure.dimension, plan.units)}."
    )
