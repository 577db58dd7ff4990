"""The command that finds lighter materials for a design."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from .option import FILE, FORCE, LOADS, UNITS
from .say import say
from .written_design import tell_design

if TYPE_CHECKING:
    from ..studies.lighten.lightening import LightenResult
    from ..unit_display import Units


@click.command()
@click.argument("design", type=FILE)
@click.option(
    "--part",
    "keys",
    multiple=True,
    metavar="KEY",
    help="Part that may change, such as body.fabric; may be repeated; default: all.",
)
@click.option(
    "--load",
    "loads",
    multiple=True,
    type=LOADS,
    help="Load case it must pass; may be repeated; default: all that [judge] names.",
)
@click.option(
    "--limit",
    "limits",
    multiple=True,
    metavar="TEXT",
    help='Limit to keep, such as "back_sag_m < 25 cm"; may be repeated.',
)
@click.option(
    "--most",
    type=click.IntRange(1, 5000),
    default=60,
    show_default=True,
    help="Combinations to solve if there are many.",
)
@click.option("--output", "-o", type=FILE, help="File of results; default: results/DESIGN-lighter.sqlite.")
@click.option("--processes", type=click.IntRange(1, 256), help="Worker processes; default: one for each core.")
@click.option("--scheduler", metavar="ADDRESS", help="Use the workers of a dask scheduler.")
@click.option("--write-design", "design_file", type=FILE, help="Write the lightest combination as a design file.")
@FORCE
@click.option("--units", type=UNITS, help="Units of the tables; default: from the design.")
@click.option("--quiet", "-q", is_flag=True, help="Show no progress.")
def lighten(
    design: Path,
    *,
    keys: tuple[str, ...],
    loads: tuple[str, ...],
    limits: tuple[str, ...],
    most: int,
    output: Path | None,
    processes: int | None,
    scheduler: str | None,
    design_file: Path | None,
    force: bool,
    units: "Units | None",
    quiet: bool,
) -> None:
    """Find lighter materials with which DESIGN still passes.

    Shows for each swap the saving, reserve factor, change of back sag and governing check, and the lightest
    combination that passes for everybody under every load and keeps every limit, of [judge] and of --limit.
    """
    from rich.console import Console

    from ..design import read_design
    from ..storage.output_file import DESIGN, check_output
    from ..studies.lighten.lightening import LightenSettings, lighten_design
    from ..studies.sweep.worker_pool import PoolSettings
    from .printing.lighten_table import print_lightening
    from .printing.sweep_messages import show_designs, tell_kept

    if design_file is not None:
        check_output(design_file, DESIGN, read_design(design).files, force=force)
    target = output or Path("results") / f"{design.stem}-lighter.sqlite"
    with tell_kept(target), show_designs(not quiet) as listener:
        terms = LightenSettings(keys, loads, limits, most)
        found = lighten_design(design, target, terms, settings=PoolSettings(processes, scheduler), progress=listener)
    print_lightening(found, units or found.design.units, Console(highlight=False))
    say(f"\nWritten to {target}")
    if design_file is not None:
        _write_design(found, target, design_file, force=force)


def _write_design(found: "LightenResult", file: Path, design_file: Path, *, force: bool) -> None:
    """Write the lightest combination as a design file."""
    from ..studies.compare.export_design import extract_stored

    if found.best.evaluation is None:
        say(f"{design_file} is not written: no lighter combination passes.")
        return
    extract = extract_stored(file, found.sweep, found.best.evaluation.row.choices, design_file, force=force)
    tell_design(design_file, extract)
