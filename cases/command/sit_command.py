"""The command that tells whether the head clears the head bar when the person sits up."""

from pathlib import Path

import click

from .option import FILE, FORCE
from .say import say


@click.command()
@click.argument("design", type=FILE)
@click.option("--output", "-o", type=FILE, help="Picture to write, .png: the posture in which the bar is nearest.")
@click.option("--quiet", "-q", is_flag=True, help="Print no progress.")
@FORCE
def sit(design: Path, *, output: Path | None, quiet: bool, force: bool) -> None:
    """Find how near the head bar comes on sitting up."""
    from rich.console import Console

    from ..design import read_design
    from ..solving.no_equilibrium import name_file
    from ..storage.output_file import PICTURE, check_output
    from ..studies.lying.sitting_up import sit_up
    from .printing.sit_table import print_sit
    from .progress import show_line

    plan = read_design(design)
    if output is not None:
        if output.suffix.lower() != ".png":
            raise click.BadParameter(f"{output} must end in .png.", param_hint="--output")
        check_output(output, PICTURE, plan.files, force=force)
    with show_line(not quiet) as write, name_file(design):
        found = sit_up(plan, report=write)
    print_sit(plan.name, found, plan.units, Console(highlight=False))
    if output is not None and found.worst.nearest is not None:
        from ...viewer.picture import draw_posture

        draw_posture(found.worst.nearest, output, title=f"{plan.name}, sitting up", units=plan.units)
        say(f"Written to {output}")
