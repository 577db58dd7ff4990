"""The command that finds which tree spacings a design fits."""

import re
from pathlib import Path
from typing import TYPE_CHECKING

import click

from .exit_codes import CHECK_FAILED
from .option import FILE, FORCE, UNITS, parse_option
from .say import say

if TYPE_CHECKING:
    from ..studies.hang.hang_sheet import HangSheet
    from ..unit_display import Units

_STEPS = 6  # distances of a range
_MOST = 40  # distances and girths of one call


def read_lengths(ctx: click.Context, param: click.Parameter, texts: tuple[str, ...]) -> list[float]:
    """Return lengths, m; ``"4 m to 5 m"`` is six of them. What cannot be read is bad usage."""
    what = "tree distance" if param.name == "distances" else "tree girth"
    found: list[float] = []
    for text in texts:
        written = re.split(r"\s+to\s+", text.strip(), maxsplit=1)
        ends = [parse_option(end, "length", what, ctx, param) for end in written]
        steps = 1 if len(ends) == 1 else _STEPS
        found += [ends[0] + (ends[-1] - ends[0]) * step / max(steps - 1, 1) for step in range(steps)]
    if len(found) > _MOST:
        raise click.BadParameter(f"{len(found)} are too many; at most {_MOST} are solved at once.", ctx, param)
    return sorted(set(found))


def read_angle(ctx: click.Context, param: click.Parameter, text: str | None) -> float | None:
    """Return an angle, rad."""
    angle = None if text is None else parse_option(text, "angle", None, ctx, param)
    if angle is not None and not 0.0 < angle < 1.4:
        raise click.BadParameter("a hang angle must be between 0 and 80 degrees.", ctx, param)
    return angle


def read_height(ctx: click.Context, param: click.Parameter, text: str | None) -> float | None:
    """Return a height above the ground, m."""
    return None if text is None else parse_option(text, "length", None, ctx, param)


@click.command()
@click.argument("design", type=FILE)
@click.option(
    "--distance", "distances", multiple=True, callback=read_lengths, metavar="LENGTH",
    help='Tree spacing, "4 m" or "4 m to 5 m"; may be repeated; default: where it fits.',
)  # fmt: skip
@click.option(
    "--girth", "girths", multiple=True, callback=read_lengths, metavar="LENGTH",
    help="Tree girth, with a separate strap; may be repeated; default: from the design.",
)  # fmt: skip
@click.option("--angle", callback=read_angle, metavar="ANGLE", help="Hang angle to keep; default: from the design.")
@click.option(
    "--clearance", callback=read_height, metavar="LENGTH", help="Height above ground to keep; default: unchanged."
)
@click.option("--units", type=UNITS, help="Units of the tables; default: from the design.")
@click.option("--json", "file", type=FILE, help="Also write the tables to this file.")
@FORCE
@click.option("--quiet", "-q", is_flag=True, help="Print only the tables, no progress.")
@click.option("--strict", is_flag=True, help="End with exit code 1 if it does not fit everywhere.")
@click.pass_context
def hang(
    ctx: click.Context,
    design: Path,
    *,
    distances: list[float],
    girths: list[float],
    angle: float | None,
    clearance: float | None,
    units: "Units | None",
    file: Path | None,
    force: bool,
    quiet: bool,
    strict: bool,
) -> None:
    """Find which tree spacings DESIGN fits.

    Lists angles, tree loads, sag and ground clearance for each spacing, under the spread weight; then the lines and
    straps that keep the hang angle between other trees.
    """
    from rich.console import Console

    from ..design import read_design
    from ..solving.no_equilibrium import name_file
    from ..storage.output_file import HANG_SHEETS, check_output
    from ..studies.hang.hang_sheet import make_hang_sheet
    from ..studies.hang.other_trees import set_girth
    from ..unit_display import write_sentence
    from .printing.hang_table import print_hang_sheet, print_sling_spans
    from .progress import show_line

    plan = read_design(design)
    if file is not None:
        check_output(file, HANG_SHEETS, plan.files, force=force)
    try:
        plans = [set_girth(plan, girth) for girth in girths] or [plan]
    except ValueError as error:
        sentence = write_sentence(error.args[0], units or plan.units)
        raise click.BadParameter(sentence, ctx, param_hint="--girth") from None
    with show_line(not quiet) as write, name_file(design):
        sheets = [make_hang_sheet(each, distances, angle=angle, clearance=clearance, report=write) for each in plans]
    console = Console(highlight=False)
    for sheet in sheets:
        print_hang_sheet(sheet, units or plan.units, console)
    print_sling_spans(plans, units or plan.units, console)
    if file is not None:
        _write_json(sheets, file)
        say(f"Written to {file}")
    if strict and not all(spot.fits for sheet in sheets for spot in sheet.spots):
        ctx.exit(CHECK_FAILED)


def _write_json(sheets: "list[HangSheet]", file: Path) -> None:
    """Write sheets to a file, all of it or nothing."""
    from ..storage.atomic import write_json
    from ..storage.codec import encode
    from ..studies.hang.hang_record import record_hang_sheet

    design = sheets[0].design
    content = {
        "design": {"name": design.name, "file": design.file_name},
        "person": {"stature_m": design.person.stature, "mass_kg": design.person.mass},
        "sheets": [encode(record_hang_sheet(sheet)) for sheet in sheets],
    }
    write_json(file, content)
