"""The command that weighs a design without solving it."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from .option import FILE, FORCE, UNITS
from .say import say

if TYPE_CHECKING:
    from ..unit_display import Units


@click.command()
@click.argument("design", type=FILE)
@click.option("--units", type=UNITS, help="Units of the table; default: from the design.")
@click.option("--json", "file", type=FILE, help="Also write every part to this file.")
@FORCE
def weigh(design: Path, *, units: "Units | None", file: Path | None, force: bool) -> None:
    """List the weight of every part of DESIGN.

    Cloth with its seam allowances, thread, cords with their splices, straps, hardware and bars; subtotals, totals, and
    what the design does not state.
    """
    from rich.console import Console

    from ..design import read_design
    from ..judging.weighing import record_scales, weigh_design
    from ..storage.atomic import write_json
    from ..storage.codec import encode
    from ..storage.output_file import SCALES, check_output
    from .printing.weight_table import print_scales

    plan = read_design(design)
    if file is not None:
        check_output(file, SCALES, plan.files, force=force)
    scales = weigh_design(plan)
    print_scales(scales, plan.name, units or plan.units, Console(highlight=False))
    if file is not None:
        content = {"design": {"name": plan.name, "file": plan.file_name}, **encode(record_scales(scales))}
        write_json(file, content)
        say(f"Written to {file}")
