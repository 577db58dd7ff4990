"""The command that solves a design."""

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from .exit_codes import CHECK_FAILED
from .option import FILE, LOADS, UNITS, parse_option
from .say import say

if TYPE_CHECKING:
    from ..result import Result
    from ..unit_display import Units


def read_mesh_size(ctx: click.Context, param: click.Parameter, value: str | None) -> float | None:
    """Return the mesh size in m; a length that cannot be read is bad usage."""
    return None if value is None else parse_option(value, "length", "mesh size", ctx, param)


@click.command()
@click.argument("design", type=FILE)
@click.option("--load", type=LOADS, help="Load case; default: from the design.")
@click.option(
    "--output", "-o", type=FILE, help="Folder for the result; default: results/DESIGN, with --load results/DESIGN-LOAD."
)
@click.option(
    "--mesh-size",
    callback=read_mesh_size,
    metavar="LENGTH",
    help='Side of a triangle, such as "25 mm"; default: from the design.',
)
@click.option(
    "--load-steps",
    type=click.IntRange(0, 20),
    default=0,
    metavar="N",
    help="Also solve under 0, 1/N, 2/N ... of the weight, for the slider of `tautlay view`.",
)
@click.option("--units", type=UNITS, help="Units of the tables; default: from the design.")
@click.option("--quiet", "-q", is_flag=True, help="Print nothing but errors.")
@click.option("--strict", is_flag=True, help="End with exit code 1 if a check fails or nobody can lie in it.")
@click.option(
    "--how-sure", is_flag=True, help="Estimate the range of each factor of safety and what to measure first (slower)."
)
@click.option(
    "--samples",
    type=click.IntRange(16, 4096),
    metavar="N",
    help="With --how-sure: also solve N hammocks with all inputs drawn at once, for chances and bands.",
)
@click.option("--details", is_flag=True, help="Print every table and all cautions instead of the first screen.")
@click.option("--no-picture", is_flag=True, help="Draw no pictures.")
@click.option("--no-page", is_flag=True, help="Write no report page.")
@click.pass_context
def solve(
    ctx: click.Context,
    design: Path,
    *,
    load: str | None,
    output: Path | None,
    mesh_size: float | None,
    load_steps: int,
    units: "Units | None",
    quiet: bool,
    strict: bool,
    how_sure: bool,
    samples: int | None,
    details: bool,
    no_picture: bool,
    no_page: bool,
) -> None:
    """Compute loaded shape, forces and strength checks of DESIGN.

    Writes result.json, shape.vtu, the pictures shape.png and channel.png, the page report.html, and a copy of the
    design; with --load-steps also load_step_0.vtu and so on.
    """
    if samples is not None and not how_sure:
        raise click.UsageError("--samples belongs to --how-sure. Add --how-sure, or leave --samples out.", ctx)
    from ..design import read_design
    from ..mesh_size import MeshSizeError, count_triangles, foretell_wait

    try:
        plan = read_design(design, mesh_size=mesh_size)
    except MeshSizeError as error:
        raise click.BadParameter(str(error), ctx, param_hint="--mesh-size") from None
    folder = output or Path("results") / (f"{design.stem}-{load}" if load else design.stem)
    from ..storage.result_folder import check_folder

    check_folder(folder, inputs=plan.files)
    from ..judging.cloth.hot_spot import RIM
    from ..solving.no_equilibrium import name_file
    from ..studies.solved_case import solve_case
    from .progress import show_line, show_progress
    from .result_pictures import draw_result

    if not quiet and (sentence := foretell_wait(count_triangles(plan.hammock, plan.mesh_size, RIM, units=plan.units))):
        say(sentence, err=True)
    with show_progress(not quiet) as listener, name_file(design):
        result = solve_case(plan, load=load, load_steps=load_steps, progress=listener)
    if how_sure:
        from ..studies.scatter.how_sure import find_how_sure

        with show_line(not quiet, "uncertainty") as write, name_file(design):
            result = result.add_factor_ranges(find_how_sure(result, samples, progress=write))
    shown = units or plan.units
    result.save(folder, draw=partial(draw_result, units=shown, pictures=not no_picture, page=not no_page))
    if not quiet:
        _print_result(result, shown, folder, details=details, page=not no_page)
    if strict and result.verdict.failed:
        ctx.exit(CHECK_FAILED)


def _print_result(result: "Result", units: "Units", folder: Path, *, details: bool, page: bool) -> None:
    """Print the first screen of a result, or all its tables, and where the rest is."""
    from rich.console import Console

    from ..display.safety_cautions import CAUTIONS
    from .printing.details import print_details
    from .printing.overview import print_overview

    write = print_details if details else print_overview
    write(result.record, result.findings, units, Console(highlight=False), result.factor_ranges)
    if not details:
        rest = f"{folder / 'report.html'}" if page else "tautlay solve --details"
        say(f"All {len(CAUTIONS)} cautions, sources and tables: {rest}")
    say(f"Written to {folder}")
