"""The command line ``tautlay``. Everything heavy is imported where it is used: the help must be fast."""

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from .exit_codes import CHECK_FAILED, INTERRUPTED, STOPPED, explain_error
from .hang_command import hang
from .lighten_command import lighten
from .lying_commands import tip, trim
from .option import parse_option
from .rank_command import rank
from .report_command import report
from .sweep_command import sweep
from .view_command import view
from .weigh_command import weigh

if TYPE_CHECKING:
    from ..unit_display import Units

UNITS = click.Choice(["metric", "imperial", "both"])
CATEGORIES = click.Choice(["fabric", "cord", "webbing", "tube", "rod", "thread", "plate"])
LOADS = click.Choice(["distributed", "lying", "sitting", "sudden"])
FILE = click.Path(path_type=Path)


class Commands(click.Group):
    """A group whose commands end with a sentence and an exit code instead of a traceback."""

    def invoke(self, ctx: click.Context) -> Any:  # noqa: ANN401
        """Run a command; an error that is not caused by the user keeps its traceback."""
        try:
            return super().invoke(ctx)
        except KeyboardInterrupt:
            click.echo(STOPPED, err=True)
            ctx.exit(INTERRUPTED)
        except (click.ClickException, click.exceptions.Exit, click.Abort, BrokenPipeError):
            raise  # the last one is not reported: the reader of the output is gone
        except Exception as error:
            known = explain_error(error)
            if known is None:
                raise
            code, sentence = known
            click.echo(sentence, err=True)
            ctx.exit(code)


def read_mesh_size(ctx: click.Context, param: click.Parameter, value: str | None) -> float | None:
    """Return the mesh size in m; a length that cannot be read is bad usage."""
    return None if value is None else parse_option(value, "length", "mesh size", ctx, param)


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="tautlay")
def main() -> None:
    """Compute the loaded shape and the forces of a bridge hammock before the cloth is cut.

    Exit codes: 0 done; 1 a check failed and --strict was given; 2 bad input; 3 no equilibrium found;
    130 stopped by Ctrl-C.
    """


@main.command()
@click.argument("design", type=FILE)
@click.option("--load", type=LOADS, help="Load case; default: from the design.")
@click.option("--output", "-o", type=FILE, help="Folder for the result; default: results/DESIGN.")
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
@click.option("--strict", is_flag=True, help="End with exit code 1 if a check fails.")
@click.option(
    "--how-sure", is_flag=True, help="Estimate the range of each factor of safety and what to measure first (slower)."
)
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
    no_picture: bool,
    no_page: bool,
) -> None:
    """Compute loaded shape, forces and strength checks of DESIGN.

    Writes result.json, shape.vtu, the pictures shape.png and channel.png, the page report.html, and a copy of the
    design; with --load-steps also load_step_0.vtu and so on.
    """
    from ..design import read_design
    from ..mesh_size import MeshSizeError, count_triangles, foretell_wait

    try:
        plan = read_design(design, mesh_size=mesh_size)
    except MeshSizeError as error:
        raise click.BadParameter(str(error), ctx, param_hint="--mesh-size") from None
    folder = output or Path("results") / (f"{design.stem}-{load}" if load else design.stem)
    from ..storage.result_folder import check_folder

    check_folder(folder)
    from ..judging.clearance import Clearance
    from ..judging.cloth.hot_spot import RIM
    from ..solving.no_equilibrium import name_file
    from ..studies.solved_case import solve_case
    from .progress import show_line, show_progress
    from .result_pictures import draw_result

    if not quiet and (sentence := foretell_wait(count_triangles(plan.hammock, plan.mesh_size, RIM, units=plan.units))):
        click.echo(sentence, err=True)
    with show_progress(not quiet) as listener, name_file(design):
        result = solve_case(plan, load=load, load_steps=load_steps, progress=listener)
    if how_sure:
        from ..studies.sensitivity.range_search import find_factor_ranges

        with show_line(not quiet, "uncertainty") as write, name_file(design):
            result = result.add_factor_ranges(find_factor_ranges(result, progress=write))
    shown = units or plan.units
    result.save(folder, draw=partial(draw_result, units=shown, pictures=not no_picture, page=not no_page))
    if not quiet:
        from rich.console import Console

        from .printing.summary import print_summary

        print_summary(result.summary, result.findings, shown, Console(highlight=False), result.factor_ranges)
        click.echo(f"\nWritten to {folder}")
    clearance = Clearance(result.summary["shape"]["ground_clearance_m"])
    if strict and (result.findings.failed or not clearance.passed):
        ctx.exit(CHECK_FAILED)


@main.command()
@click.argument("design", type=FILE)
def check(design: Path) -> None:
    """Check DESIGN for errors without solving it."""
    from ..design import read_design

    plan = read_design(design)
    click.echo(f"OK: {plan.name} ({design}) has no errors.")


@main.command()
@click.argument("path", type=FILE, default=Path("my_hammock.toml"))
@click.option("--force", is_flag=True, help="Replace an existing file.")
def new(path: Path, *, force: bool) -> None:
    """Write a commented starter design to PATH.

    Default: my_hammock.toml.
    """
    from ..new_design import write_starter

    click.echo(f"Written to {write_starter(path, force=force)}")


@main.command()
@click.argument("category", type=CATEGORIES, required=False)
@click.option("--find", help="Only entries with this text in name or kind.")
@click.option("--units", type=UNITS, default="both", show_default=True, help="Units of the list.")
@click.option("--file", "files", type=FILE, multiple=True, help="Your own file of materials; may be repeated.")
def materials(category: str | None, *, find: str | None, units: "Units", files: tuple[Path, ...]) -> None:
    """List the material library and its sources.

    Status of a value: checked in the source, secondary source, derived, or unverified.
    """
    from rich.console import Console

    from ...materials import CATEGORIES as KNOWN
    from ...materials import read_library
    from .printing.material_table import print_categories, print_materials

    library, console = read_library(*files), Console(highlight=False)
    if category is None and find is None:
        print_categories(library, console)
        return
    found = {name: library.select(name, text=find) for name in ([category] if category else KNOWN)}
    if not any(found.values()):
        raise click.UsageError(f"nothing in the library matches {find!r}. `tautlay materials` lists all categories.")
    for name, entries in found.items():
        if entries:
            print_materials(name, entries, library, units, console)


main.add_command(hang)
main.add_command(lighten)
main.add_command(rank)
main.add_command(report)
main.add_command(sweep)
main.add_command(tip)
main.add_command(trim)
main.add_command(view)
main.add_command(weigh)
