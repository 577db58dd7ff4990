"""The command that tells what of a design could be lighter."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from ...hammock.load_case import DESIGN_LOADS
from .option import FILE, LOADS, UNITS

if TYPE_CHECKING:
    from ..unit_display import Units


@click.command()
@click.argument("design", type=FILE)
@click.option(
    "--part", "keys", multiple=True, metavar="KEY", help="That may change, such as body.fabric; may be repeated."
)
@click.option(
    "--load",
    "loads",
    multiple=True,
    type=LOADS,
    help=f"It must hold; may be repeated; left out: {', '.join(DESIGN_LOADS)}.",
)
@click.option(
    "--limit", "limits", multiple=True, metavar="TEXT", help='To keep, such as "back_sag_m < 25 cm"; may be repeated.'
)
@click.option(
    "--most",
    type=click.IntRange(1, 5000),
    default=60,
    show_default=True,
    help="Combinations to solve if there are many.",
)
@click.option("--output", "-o", type=FILE, help="File of results; left out: results/NAME OF THE DESIGN-lighter.sqlite.")
@click.option("--processes", type=click.IntRange(1, 256), help="On this machine; left out: one for each core.")
@click.option("--scheduler", metavar="ADDRESS", help="Let the workers of a dask scheduler do it.")
@click.option("--units", type=UNITS, help="Left out: as in the design.")
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
    units: "Units | None",
    quiet: bool,
) -> None:
    """Tell for every part of DESIGN what lighter material of the library it could be made of.

    What each saves, what it costs in margin and lay, what would govern then, and the lightest combination that passes
    every check and keeps every limit.
    """
    from rich.console import Console

    from ..studies.lighten.lightening import LightenSettings, lighten_design
    from ..studies.sweep.worker_pool import PoolSettings
    from .printing.lighten_table import print_lightening
    from .printing.sweep_messages import show_designs

    target = output or Path("results") / f"{design.stem}-lighter.sqlite"
    with show_designs(not quiet) as listener:
        terms = LightenSettings(keys, loads or DESIGN_LOADS, limits, most)
        found = lighten_design(design, target, terms, hands=PoolSettings(processes, scheduler), progress=listener)
    print_lightening(found, units or found.design.units, Console(highlight=False))
    click.echo(f"\nWritten to {target}")
