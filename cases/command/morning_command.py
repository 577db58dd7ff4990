"""The command that tells how a hammock hangs after a night, soaked, warm or cold."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from .exit_codes import CHECK_FAILED
from .option import FILE, LOADS, UNITS, parse_option

if TYPE_CHECKING:
    from ..unit_display import Units

_LONGEST = 520 * 7 * 86400.0  # s, ten years: beyond what anything was measured for


def read_time(ctx: click.Context, param: click.Parameter, text: str) -> float:
    """Return a time, s."""
    found = parse_option(text, "duration", None, ctx, param)
    if found > _LONGEST:
        raise click.BadParameter("must be 520 weeks at most.", ctx, param)
    return found


def read_temperature(ctx: click.Context, param: click.Parameter, text: str | None) -> float | None:
    """Return a temperature, degC; None where none is given."""
    from ...making.creep import COLDEST, WARMEST
    from ...materials import QuantityError, parse_temperature
    from ...materials.temperature import find_fahrenheit

    if text is None:
        return None
    try:
        found = parse_temperature(text)
    except QuantityError as error:
        raise click.BadParameter(str(error), ctx, param) from None
    if not COLDEST <= found <= WARMEST:
        low, high = map(find_fahrenheit, (COLDEST, WARMEST))
        allowed = f"between {COLDEST:.0f} and {WARMEST:.0f} degC ({low:.0f} to {high:.0f} degF)"
        raise click.BadParameter(f"must be {allowed}.", ctx, param)
    return found


@click.command()
@click.argument("design", type=FILE)
@click.option("--after", default="8 h", callback=read_time, metavar="TIME", help='Time under load; default "8 h".')
@click.option("--wet", is_flag=True, help="Cloth, cords and straps are soaked.")
@click.option("--at", callback=read_temperature, metavar="TEMPERATURE", help='Temperature; default "20 degC".')
@click.option("--load", type=LOADS, help="Load case; default: from the design.")
@click.option("--units", type=UNITS, help="Units of the table; default: from the design.")
@click.option("--quiet", "-q", is_flag=True, help="Print no progress.")
@click.option("--strict", is_flag=True, help="End with exit code 1 if it may hang too low or a check may fail by then.")
@click.pass_context
def morning(
    ctx: click.Context,
    design: Path,
    *,
    after: float,
    wet: bool,
    at: float | None,
    load: str | None,
    units: "Units | None",
    quiet: bool,
    strict: bool,
) -> None:
    """Find how DESIGN hangs in the morning.

    Cords, straps and cloth creep under load and soften when wet: how much lower the person lies, whether ground
    clearance and checks still hold, what it weighs soaked, and what no source tells.
    """
    from rich.console import Console

    from ...making.creep import ROOM, Weather
    from ..design import read_design
    from ..solving.no_equilibrium import name_file
    from ..studies.morning.morning import find_morning
    from .printing.morning_table import print_morning
    from .progress import show_line

    plan = read_design(design)
    weather = Weather(after, wet, ROOM if at is None else at)
    with show_line(not quiet) as write, name_file(design):
        found = find_morning(plan, weather, load=load, report=write)
    print_morning(plan.name, found, units or plan.units, Console(highlight=False))
    if strict and (found.may_sink or found.lost):
        ctx.exit(CHECK_FAILED)
