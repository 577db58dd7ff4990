"""The command that plans a trial at home."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from .option import FILE, FORCE, UNITS, parse_option
from .say import say

if TYPE_CHECKING:
    from ..studies.trial.trial_plan import TrialPlan
    from ..unit_display import Units


def read_distance(ctx: click.Context, param: click.Parameter, text: str | None) -> float | None:
    """Return a distance of trees, m."""
    return None if text is None else parse_option(text, "length", "tree distance", ctx, param)


@click.command()
@click.argument("design", type=FILE)
@click.option(
    "--distance", callback=read_distance, metavar="LENGTH",
    help="Tree spacing of the trial; default: from the design, or where its hang angle comes out.",
)  # fmt: skip
@click.option("--page", "page_file", type=FILE, help="Page to write; default: DESIGN_trial.html.")
@click.option("--json", "json_file", type=FILE, help="Also write every expected value to this file.")
@FORCE
@click.option("--units", type=UNITS, help="Units of table and page; default: from the design.")
@click.option("--quiet", "-q", is_flag=True, help="Print nothing but errors.")
def trial(
    design: Path,
    *,
    distance: float | None,
    page_file: Path | None,
    json_file: Path | None,
    force: bool,
    units: "Units | None",
    quiet: bool,
) -> None:
    """Plan a trial of DESIGN at home: water in bags and a rule.

    Computes heights, spans and line tensions under 20, 40 and 60 kg and under the proof load, with the range that is
    likely, and writes a page to print. `tautlay fit` takes what was measured.
    """
    from ..design import read_design
    from ..solving.no_equilibrium import name_file
    from ..storage.output_file import PAGE, TRIAL, check_outputs
    from ..studies.trial.trial_plan import make_trial_plan
    from .progress import show_line

    plan = read_design(design)
    page = page_file or Path(f"{design.stem}_trial.html")
    check_outputs(((json_file, TRIAL), (page, PAGE)), plan.files, force=force)
    with show_line(not quiet, "reading the mesh") as write, name_file(design):
        found = make_trial_plan(plan, distance=distance, report=write)
    shown = units or plan.units
    if not quiet:
        from rich.console import Console

        from .printing.trial_table import print_trial

        print_trial(found, shown, Console(highlight=False))
    _write(found, page, json_file, shown)


def _write(found: "TrialPlan", page: Path, json_file: Path | None, units: "Units") -> None:
    """Write page and file."""
    from ...viewer import write_trial_page

    if json_file is not None:
        from ..storage.atomic import write_json
        from ..storage.codec import encode
        from ..studies.trial.trial_record import record_trial

        header = {"name": found.design.name, "file": found.design.file_name}
        write_json(json_file, {"design": header, **encode(record_trial(found))})
        say(f"Written to {json_file}")
    write_trial_page(found, page, units=units)
    say(f"Written to {page}")
