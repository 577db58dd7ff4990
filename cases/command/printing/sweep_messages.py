"""Messages about a sweep before, while and after it is solved."""

from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from textwrap import fill

from ...judging.checks.check import write_utilisation
from ...studies.sweep.exclusion import explain_exclusion
from ...studies.sweep.forecast import Forecast
from ...studies.sweep.mesh_warning import note_mesh
from ...studies.sweep.plan import Job
from ...studies.sweep.queue import SweepCallback, SweepProgress
from ...studies.sweep.sweep import Sweep
from ...studies.sweep.sweep_row import (
    RowStatus,
    SweepRow,
    find_lightest,
    list_unchecked,
    list_unjudged,
    write_best,
    write_pass,
)
from ...unit_display import WIDTH, show_quantity, write_sentence
from ..say import say

_REASONS = 3  # of one kind that are shown


def write_plan(sweep: Sweep, jobs: Sequence[Job], forecast: Forecast) -> str:
    """Return how many designs a sweep has, how fine they are meshed, how long they take and which cannot be made."""
    refused = [job for job in jobs if job.design is None]
    loads, count = dict.fromkeys(case.title for job in jobs for case in job.cases), len(jobs)
    lines = [
        f"{sweep.name}: {count} {'design' if count == 1 else 'designs'} of {sweep.triangles:,} triangles each, "
        f"{'each under ' if len(loads) > 1 else 'load case '}{' and '.join(loads)}."
    ]
    names = ", ".join(choice.name for choice in sweep.choices)
    lines.append(f"Varied: {names}.")
    if refused:
        lines.append(f"{len(refused)} cannot be made; the reason is stored:")
        lines += [f"  {job.variant.number}: {job.refusal}" for job in refused[:_REASONS]]
        lines += [f"  and {len(refused) - _REASONS} more."] if len(refused) > _REASONS else []
    lines.append(
        f"To solve: {forecast.left} of {count}, about {_write_time(forecast.seconds)}, more on a slow machine."
        if forecast.left
        else "All are solved."
    )
    return "\n".join(fill(line, WIDTH, subsequent_indent="  ") for line in lines)


def write_end(rows: Sequence[SweepRow], sweep: Sweep) -> str:
    """Return how the designs of a sweep ended, the lightest that passes, and what to know before sewing."""
    count = Counter(row.status for row in rows)
    passing = [row for row in rows if row.holds]
    lines = [
        f"{len(rows)} {'design' if len(rows) == 1 else 'designs'}: "
        f"{count[RowStatus.SOLVED]} solved, {len(passing)} {write_pass(rows)}."
    ]
    if unjudged := list_unjudged(rows):
        lines.append(f"NOT JUDGED: {', '.join(unjudged)}. What passes here may fail there.")
    words = {
        RowStatus.REFUSED: "cannot be made",
        RowStatus.NO_REST: "have no equilibrium",
        RowStatus.BROKEN: "crashed the program (please report)",
        RowStatus.LOST: "abandoned after repeated worker crashes",
        RowStatus.OPEN: "not solved yet; run the sweep again to resume",
    }
    for status, what in words.items():
        if count[status]:
            first = next(row for row in rows if row.status is status)
            lines.append(f"{count[status]} {what}. The first, {first.number} ({first.title}): {first.reason}")
    best = find_lightest(passing)
    if best is not None:
        lines.append(
            f"Lightest {write_best(rows)}: {best.number} ({best.title}), "
            f"{show_quantity(best.figures['packed_kg'], 'mass', sweep.base.units)}, closest to its limit, "
            f"{write_utilisation(best.figures['least_margin'])} used: {best.governs}."
        )
    elif (reason := explain_exclusion(rows)) is not None:
        lines.append(reason)
    if unchecked := list_unchecked(passing):
        lines.append(f"NOT CHECKED in some of them: {', '.join(unchecked)}.")
    lines += _list_doubts(sweep)
    return "\n".join(fill(line, WIDTH, subsequent_indent="  ") for line in lines)


def _list_doubts(sweep: Sweep) -> Iterator[str]:
    """Yield what to know before one of the designs is sewn."""
    for choice in sweep.choices:
        if any(path[0] in ("person", "load") for path in choice.paths):
            example = f': --where "{choice.name} = {choice.options[0].label}"' if choice.options else ""
            yield (
                f"{choice.name} is the use, not the design: what passes for one may fail for another. Rank each alone"
                f"{example}."
            )
    note = note_mesh(sweep.mesh_size, hot_spots=sweep.hot_spots)
    if note is not None:
        yield write_sentence(note, sweep.base.units)


@contextmanager
def show_designs(wanted: bool) -> Iterator[SweepCallback | None]:
    """Give a listener that shows on the terminal how many designs are done and how long the rest takes.

    Parameters
    ----------
    wanted : bool
        Whether the user wants to see it; a pipe gets none in any case.
    """
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn

    console = Console(stderr=True)
    if not wanted or not console.is_terminal:
        yield None
        return
    columns = (
        MofNCompleteColumn(),
        BarColumn(20),
        TimeRemainingColumn(),
        TextColumn("{task.description}", markup=False),
    )
    with Progress(*columns, console=console, transient=True, speed_estimate_period=120.0) as bar:
        task = bar.add_task("starting the workers", total=None)

        def show(news: SweepProgress) -> None:
            bar.update(task, total=news.total - news.kept, completed=news.done - news.kept, description=news.last)

        yield show


@contextmanager
def tell_kept(file: Path) -> Iterator[None]:
    """Say what is kept of work that is stopped.

    Parameters
    ----------
    file : Path
        Of results.
    """
    try:
        yield
    except KeyboardInterrupt:
        if file.is_file():
            say(f"Finished designs are kept in {file}. Run the same command again to resume.", err=True)
        raise


def _write_time(seconds: float) -> str:
    """Return a time in words."""
    if seconds < 90.0:
        return f"{max(seconds, 1.0):.0f} seconds"
    return f"{seconds / 60:.0f} minutes" if seconds < 5400.0 else f"{seconds / 3600:.1f} hours"
