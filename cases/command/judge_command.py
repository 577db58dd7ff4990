"""The command that judges a design under everything it has to stand."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from .exit_codes import CHECK_FAILED
from .option import FILE, FORCE, UNITS
from .say import say
from .solve_command import read_mesh_size

if TYPE_CHECKING:
    from ..studies.judge.judgement import Judgement
    from ..unit_display import Units


@click.command()
@click.argument("design", type=FILE)
@click.option(
    "--mesh-size",
    callback=read_mesh_size,
    metavar="LENGTH",
    help='Side of a triangle, such as "25 mm"; default: from the design.',
)
@click.option("--json", "json_file", type=FILE, help="Also write every requirement to this file.")
@click.option("--page", "page_file", type=FILE, help="Also write a page to this file.")
@FORCE
@click.option("--units", type=UNITS, help="Units of the table; default: from the design.")
@click.option("--quiet", "-q", is_flag=True, help="Print nothing but errors.")
@click.option("--strict", is_flag=True, help="End with exit code 1 if a requirement is not met.")
@click.pass_context
def judge(
    ctx: click.Context,
    design: Path,
    *,
    mesh_size: float | None,
    json_file: Path | None,
    page_file: Path | None,
    force: bool,
    units: "Units | None",
    quiet: bool,
    strict: bool,
) -> None:
    """Judge DESIGN under every load it must withstand.

    Solves it for every person under every load of its table [judge] (default: lying, sitting and sudden), which also
    sets limits to lay, clearance and weight. Prints of each requirement the worst case, and what it would take to pass.
    """
    from ..design import read_design
    from ..mesh_size import MeshSizeError
    from ..storage.output_file import JUDGEMENT, PAGE, check_outputs

    try:
        plan = read_design(design, mesh_size=mesh_size)
    except MeshSizeError as error:
        raise click.BadParameter(str(error), ctx, param_hint="--mesh-size") from None
    check_outputs(((json_file, JUDGEMENT), (page_file, PAGE)), plan.files, force=force)
    from ..studies.judge.judgement import judge_design
    from .progress import show_line

    with show_line(not quiet, "reading the mesh") as write:
        found = judge_design(plan, progress=write)
    shown = units or plan.units
    if not quiet:
        from rich.console import Console

        from .printing.judge_table import print_judgement

        print_judgement(found, shown, Console(highlight=False))
    _write(found, json_file, page_file, shown)
    if strict and not found.verdict.passed:
        ctx.exit(CHECK_FAILED)


def _write(found: "Judgement", json_file: Path | None, page_file: Path | None, units: "Units") -> None:
    """Write the files that are wanted."""
    if json_file is not None:
        from ..storage.atomic import write_json
        from ..storage.codec import encode
        from ..studies.judge.judgement_record import record_judgement

        write_json(json_file, encode(record_judgement(found)))
        say(f"Written to {json_file}")
    if page_file is not None:
        from ...viewer import write_judge_page

        write_judge_page(found, page_file, units=units)
        say(f"Written to {page_file}")
