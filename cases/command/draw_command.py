"""The command that draws a design with its measures."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from .option import FILE, FORCE, UNITS
from .say import say

if TYPE_CHECKING:
    from ..unit_display import Units


@click.command()
@click.argument("design", type=FILE)
@click.option("--output", "-o", type=FILE, help="File to write, .svg or .png; default: DESIGN.svg.")
@click.option("--units", type=UNITS, help="Units of the values; default: from the design.")
@FORCE
def draw(design: Path, *, output: Path | None, units: "Units | None", force: bool) -> None:
    """Draw DESIGN with its dimensions, without solving it.

    From above, from the side, at a tree, the bars, a corner, the channel cut across, ends of cords: every length and
    angle that the file states, by number, with its key and value.
    """
    from ...viewer import draw_measures
    from ..design import read_design
    from ..storage.output_file import DRAWING, PICTURE, check_output

    file = output or Path(design.with_suffix(".svg").name)
    kind = {".svg": DRAWING, ".png": PICTURE}.get(file.suffix.lower())
    if kind is None:
        raise click.BadParameter(f"{file} must end in .svg or .png.", param_hint="--output")
    plan = read_design(design)
    check_output(file, kind, plan.files, force=force)
    draw_measures(plan, file, units=units or plan.units)
    say(f"Written to {file}")
