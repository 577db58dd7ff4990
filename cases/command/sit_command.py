"""The command that tells whether the head clears the head bar on sitting up, and how one sits across."""

from pathlib import Path

import click

from .option import FILE, FORCE
from .say import say

_WAYS = ("both", "up", "across")


@click.command()
@click.argument("design", type=FILE)
@click.option("--way", type=click.Choice(_WAYS), default="both", show_default=True, help="Up along, across, or both.")
@click.option(
    "--output", "-o", type=FILE, help="Picture to write, .png: where the bar is nearest, or the seat with --way across."
)
@click.option("--quiet", "-q", is_flag=True, help="Print no progress.")
@FORCE
def sit(design: Path, *, way: str, output: Path | None, quiet: bool, force: bool) -> None:
    """Tell how one sits up along the hammock, and across to get in."""
    from rich.console import Console

    from ..design import read_design
    from ..solving.no_equilibrium import name_file
    from ..storage.output_file import PICTURE, check_output
    from .progress import show_line

    plan = read_design(design)
    if output is not None:
        if output.suffix.lower() != ".png":
            raise click.BadParameter(f"{output} must end in .png.", param_hint="--output")
        check_output(output, PICTURE, plan.files, force=force)
    console, drawn = Console(highlight=False), None
    if way != "across":
        from ..studies.lying.sitting_up import sit_up
        from .printing.sit_table import print_sit

        with show_line(not quiet) as write, name_file(design):
            raised = sit_up(plan, report=write)
        print_sit(plan.name, raised, plan.units, console)
        drawn = (raised.worst.nearest, "sitting up")
    if way != "up":
        from ..studies.lying.sitting_across import sit_across
        from .printing.across_table import print_across

        if way == "both":
            say("")
        with show_line(not quiet) as write, name_file(design):
            across = sit_across(plan, report=write)
        print_across(plan.name, across, plan.units, console)
        drawn = drawn or (across.shape, "sitting across")
    if output is not None and drawn is not None and drawn[0] is not None:
        from ...viewer.picture import draw_posture

        draw_posture(drawn[0], output, title=f"{plan.name}, {drawn[1]}", units=plan.units)
        say(f"Written to {output}")
