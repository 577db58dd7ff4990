"""The command that finds the lightest design among all that a file leaves open."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from .exit_codes import INTERRUPTED
from .option import FILE, FORCE, UNITS
from .say import say
from .written_design import tell_design

if TYPE_CHECKING:
    from ..studies.choose.open_design import OpenDesign
    from ..studies.choose.outcome import ChooseResult
    from ..unit_display import Units


@click.command()
@click.argument("file", type=FILE)
@click.option("--output", "-o", type=FILE, help="File of results; default: results/FILE.sqlite.")
@click.option("--write-design", "design_file", type=FILE, help="Write the lightest design as a design file.")
@click.option("--page", "page_file", type=FILE, help="Also write a page to this file.")
@FORCE
@click.option(
    "--processes",
    type=click.IntRange(1, 256),
    help="Worker processes; default: one for each core, or for each start if those are more.",
)
@click.option("--scheduler", metavar="ADDRESS", help="Use the workers of a dask scheduler.")
@click.option("--units", type=UNITS, help="Units of the tables; default: from the design.")
@click.option("--quiet", "-q", is_flag=True, help="Show no progress.")
@click.pass_context
def choose(
    ctx: click.Context,
    file: Path,
    *,
    output: Path | None,
    design_file: Path | None,
    page_file: Path | None,
    force: bool,
    processes: int | None,
    scheduler: str | None,
    units: "Units | None",
    quiet: bool,
) -> None:
    """Find the lightest design of all that FILE leaves open.

    It must earn the verdict of `tautlay judge`.

    FILE names a design and what may vary in it, as a sweep file does: materials, lengths, bars, places. Of a finite set
    the lightest is proven: everything lighter is solved and fails, or is excluded. Sizes between two ends are
    searched from several starts, without proof. Of a finite set, goal in FILE names another value, or several of which
    it finds all that nothing beats. A stopped search resumes where it stopped.
    """
    from rich.console import Console

    from ..studies.choose.choosing import search_design
    from ..studies.choose.open_design import read_open_design
    from ..studies.sweep.worker_pool import PoolSettings
    from .printing.choose_table import print_choice
    from .printing.sweep_messages import tell_kept
    from .progress import show_line

    asked = read_open_design(file)
    _check_outputs(asked, file, design_file, page_file, force=force)
    target = output or Path("results") / f"{file.stem}.sqlite"
    with tell_kept(target), show_line(not quiet, "reading the designs") as report:
        found = search_design(asked, target, settings=PoolSettings(processes, scheduler), report=report)
    print_choice(found, units or asked.sweep.base.units, Console(highlight=False))
    say(f"\nWritten to {target}; `tautlay rank {target}` compares what was solved.")
    if design_file is not None:
        _write_design(found, target, design_file, force=force)
    if page_file is not None:
        from ...viewer import write_choose_page

        write_choose_page(found, page_file, units=units)
        say(f"Written to {page_file}")
    if found.stopped:
        say(f"Finished designs are kept in {target}. Run the same command again to resume.", err=True)
        ctx.exit(INTERRUPTED)


def _check_outputs(
    asked: "OpenDesign", file: Path, design_file: Path | None, page_file: Path | None, *, force: bool
) -> None:
    """Raise for files that must not be replaced, before anything is solved."""
    from ..storage.output_file import DESIGN, PAGE, check_outputs

    check_outputs(((design_file, DESIGN), (page_file, PAGE)), (file, *asked.sweep.base.files), force=force)


def _write_design(found: "ChooseResult", file: Path, design_file: Path, *, force: bool) -> None:
    """Write what was chosen as a design file."""
    from ..studies.compare.export_design import extract_stored

    if found.chosen is None:
        say(f"{design_file} is not written: nothing passes.")
        return
    extract = extract_stored(file, found.chosen.sweep, found.chosen.row.choices, design_file, force=force)
    tell_design(design_file, extract, "" if found.chosen.confirmed else ", not confirmed")
