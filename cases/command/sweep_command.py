"""The command that solves everything a sweep file describes."""

from pathlib import Path

import click

from .exit_codes import NO_EQUILIBRIUM
from .option import FILE
from .say import say


@click.command()
@click.argument("file", type=FILE)
@click.option("--output", "-o", type=FILE, help="File of results; default: results/FILE.sqlite.")
@click.option("--dry-run", is_flag=True, help="Show how many designs there are and how long they take; solve nothing.")
@click.option("--processes", type=click.IntRange(1, 256), help="Worker processes; default: one for each core.")
@click.option(
    "--scheduler", metavar="ADDRESS", help="Use the workers of a dask scheduler, such as tcp://10.0.0.4:8786."
)
@click.option("--cold", is_flag=True, help="Start every design from the flat cloth, not from the shape of another.")
@click.option("--quiet", "-q", is_flag=True, help="Print nothing but errors.")
@click.pass_context
def sweep(
    ctx: click.Context,
    file: Path,
    *,
    output: Path | None,
    dry_run: bool,
    processes: int | None,
    scheduler: str | None,
    cold: bool,
    quiet: bool,
) -> None:
    """Solve every variant that FILE describes.

    A stopped sweep resumes where it stopped. Designs that cannot be made or have no equilibrium are stored with the
    reason.
    """
    from ..studies.sweep.forecast import check_room, foretell_work
    from ..studies.sweep.plan import StartFrom, plan_jobs
    from ..studies.sweep.run import open_runner
    from ..studies.sweep.sweep_file import read_sweep
    from ..studies.sweep.worker_pool import PoolSettings, count_cores
    from .printing.sweep_messages import show_designs, tell_kept, write_end, write_plan
    from .progress import show_line

    asked = read_sweep(file)
    target = output or Path("results") / f"{file.stem}.sqlite"
    with show_line(not quiet, "reading the designs") as report:
        jobs = plan_jobs(asked, start_from=StartFrom.COLD if cold else StartFrom.NEAREST, report=report)
    check_room(asked, len(jobs), target)
    forecast = foretell_work(asked, jobs, target, processes or count_cores())
    if dry_run or not quiet:
        say(write_plan(asked, jobs, forecast))
    if dry_run:
        return
    pools = PoolSettings(processes, scheduler)
    with tell_kept(target), show_designs(not quiet) as listener, open_runner(target, pools) as runner:
        rows = runner.run_jobs(asked, jobs, listener)
    if not quiet:
        say(f"\n{write_end(rows, asked)}")
        say(f"\nWritten to {target}; `tautlay rank {target}` compares them.")
    if any(row.status.is_owed for row in rows):
        say("Some designs were not solved because of an error of the program or of the machine.", err=True)
        ctx.exit(NO_EQUILIBRIUM)
