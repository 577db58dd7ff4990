"""The command that compares the designs of a sweep."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from .option import FILE, FORCE, UNITS
from .say import say
from .written_design import tell_design

if TYPE_CHECKING:
    from ..studies.compare.ranking import Ranking
    from ..studies.sweep.store import SweepRecord
    from ..studies.sweep.sweep_row import SweepRow
    from ..unit_display import Units


@click.command()
@click.argument("file", type=FILE)
@click.option("--sweep", metavar="NAME", help="Which sweep of the file; default: the last written.")
@click.option("--sort", metavar="KEY", help="Column, best first; default: packed_kg; see --columns.")
@click.option(
    "--where",
    multiple=True,
    metavar="TEXT",
    help='Only designs that meet this, such as "packed_kg < 300 g", "cloth = NAME", "governs ~ splice".',
)
@click.option("--passing", "--holding", "passing", is_flag=True, help="Only designs that pass every check.")
@click.option("--columns", is_flag=True, help="List all columns for --sort, --where and --against, one per line.")
@click.option("--most", type=click.IntRange(1), metavar="N", help="Rows to print; default: what fits.")
@click.option(
    "--against",
    nargs=2,
    multiple=True,
    metavar="KEY KEY",
    help="Only Pareto-optimal designs in these two values; may be repeated for more.",
)
@click.option("--effects", is_flag=True, help="Show the effect of each choice.")
@click.option("--csv", "csv_file", type=FILE, help="Write all columns to this file.")
@click.option("--parquet", "parquet_file", type=FILE, help="Write all columns to this file.")
@click.option("--page", "page_file", type=FILE, help="Write a page with plots to this file.")
@click.option(
    "--write-design",
    type=(click.IntRange(1), FILE),
    metavar="N FILE",
    help="Write design N as a design file, with its comments.",
)
@FORCE
@click.option("--units", type=UNITS, help="Units of the tables; default: from the design.")
def rank(
    file: Path,
    *,
    sweep: str | None,
    sort: str | None,
    where: tuple[str, ...],
    passing: bool,
    columns: bool,
    most: int | None,
    against: tuple[tuple[str, str], ...],
    effects: bool,
    csv_file: Path | None,
    parquet_file: Path | None,
    page_file: Path | None,
    write_design: tuple[int, Path] | None,
    force: bool,
    units: "Units | None",
) -> None:
    """Compare the designs of a sweep in FILE.

    FILE is written by `tautlay sweep`. Designs that pass come first, best first; then those that fail and those
    without a result, with the reason.
    """
    from textwrap import fill

    from rich.console import Console

    from ..studies.compare.choice_effects import find_effects
    from ..studies.compare.pareto_front import LEAST, choose_figures, find_pareto_front
    from ..studies.compare.ranking import rank_rows
    from ..studies.compare.reload_sweep import summarise_sweep
    from ..studies.sweep.mesh_warning import note_mesh
    from ..unit_display import WIDTH, find_units, write_sentence
    from .printing.rank_table import print_effects, print_ranking

    _check_outputs(file, csv_file, parquet_file, page_file, write_design and write_design[1], force=force)
    heading, rows = _read_sweep(file, sweep)
    if columns:
        _print_columns(rows)
        return
    ranking = rank_rows(rows, sort=sort, where=where, holding=passing)
    keys = tuple(dict.fromkeys(key for pair in against for key in pair)) or choose_figures(ranking.rows)
    if against:
        find_pareto_front(rows, keys)  # raises for wrong keys, even if no design is left
    unbeaten = find_pareto_front(ranking.rows, keys) if ranking.rows and (against or len(keys) >= LEAST) else None
    shown, console = units or find_units(heading.units), Console(highlight=False)
    print_ranking(heading, ranking, unbeaten, console, units=shown, most=most, against=bool(against))
    summary = summarise_sweep(heading)
    note = note_mesh(summary.mesh_size, hot_spots=summary.hot_spots)
    if note is not None:
        say(fill(write_sentence(note, shown), WIDTH))
    if effects:
        moved = [find_effects(ranking.rows, key, summary.combine) for key in _choose_moved(ranking, keys)]
        print_effects(moved, shown, console)
    _write_tables(ranking, keys if against else None, csv_file, parquet_file)
    if page_file is not None:
        from ...viewer import write_sweep_page

        write_sweep_page(heading, ranking, page_file, against=keys, units=shown)
        say(f"Written to {page_file}")
    if write_design is not None:
        _write_design(heading, rows, *write_design, force=force)


def _print_columns(rows: "list[SweepRow]") -> None:
    """Print every column of a sweep, one a line."""
    from ..studies.compare.value_columns import list_columns

    for name, title in list_columns(rows).items():
        say(f"{name:<24}  {title}".rstrip())


def _write_tables(ranking: "Ranking", keys: tuple[str, ...] | None, csv: Path | None, parquet: Path | None) -> None:
    """Write the columns of a ranking to files, as far as they are wanted."""
    from ..studies.compare.export import write_csv, write_parquet

    for path, write in ((csv, write_csv), (parquet, write_parquet)):
        if path is not None:
            write(ranking.to_columns(keys), path)
            say(f"Written to {path}")


def _check_outputs(file: Path, *written: Path | None, force: bool) -> None:
    """Raise for table, table, page and design that must not be written, as far as they are wanted."""
    from ..storage.output_file import CSV, DESIGN, PAGE, PARQUET, check_outputs

    check_outputs(zip(written, (CSV, PARQUET, PAGE, DESIGN), strict=True), [file], force=force)


def _choose_moved(ranking: "Ranking", keys: tuple[str, ...]) -> list[str]:
    """Return the values whose effects are shown: the sort column, and weight and reserve factor or --against."""
    from ..studies.compare.value_columns import list_figures

    sorted_by = [figure.key for figure in list_figures(ranking.rows) if figure.key == ranking.sort]
    return list(dict.fromkeys([*sorted_by, *keys]))


def _read_sweep(file: Path, name: str | None) -> "tuple[SweepRecord, list[SweepRow]]":
    """Return a sweep of a file of results and its designs."""
    from ...materials import escape_text, show_value
    from ..design_issue import suggest_name
    from ..studies.compare.value_columns import RankingError
    from ..studies.sweep.store import open_store

    with open_store(file) as store:
        headings = store.list_sweeps()
        if not headings:
            raise RankingError(f"{file} has no sweep yet. `tautlay sweep` writes one.")
        names = [heading.name for heading in headings]
        if name is not None and name not in names:
            listed = f"{suggest_name(name, names)}There are {escape_text('; '.join(names))}"
            raise RankingError(f"{file} has no sweep {show_value(name)}. {listed}.")
        heading = headings[names.index(name) if name is not None else 0]
        return heading, store.list_rows(heading.name)


def _write_design(heading: "SweepRecord", rows: "list[SweepRow]", number: int, path: Path, *, force: bool) -> None:
    """Write one design of a sweep to a file, with its verdict and the files it needs."""
    from ...materials import escape_text
    from ..studies.compare.export_design import write_extract
    from ..studies.compare.row_verdict import format_verdict
    from ..studies.compare.value_columns import RankingError, name_design

    row = next((row for row in rows if row.number == number), None)
    if row is None:
        raise RankingError(f"the sweep {escape_text(heading.name)} has no design {number}. Choose 1 to {len(rows)}.")
    extract = write_extract(heading, row, path, force=force)
    tell_design(path, extract, f": design {number}, {name_design(row)}: {format_verdict(row)}")
