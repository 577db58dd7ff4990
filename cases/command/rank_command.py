"""The command that compares the designs of a sweep."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from .option import FILE, UNITS

if TYPE_CHECKING:
    from ..studies.compare.ranking import Ranking
    from ..studies.sweep.store import SweepRecord
    from ..studies.sweep.sweep_row import SweepRow
    from ..unit_display import Units


@click.command()
@click.argument("file", type=FILE)
@click.option("--sweep", metavar="NAME", help="Which sweep of the file; left out: the one written last.")
@click.option("--sort", metavar="KEY", help="Figure or choice, best first; left out: packed_kg. A wrong one lists all.")
@click.option(
    "--where",
    multiple=True,
    metavar="TEXT",
    help='Only designs of which this is true, such as "packed_kg < 300 g", "cloth = NAME", "governs ~ splice".',
)
@click.option("--holding", is_flag=True, help="Only designs that hold.")
@click.option("--most", type=click.IntRange(1), metavar="N", help="Rows to print; left out: what fits.")
@click.option(
    "--against",
    nargs=2,
    multiple=True,
    metavar="KEY KEY",
    help="Only designs that no other beats in these figures; may be repeated for more.",
)
@click.option("--effects", is_flag=True, help="Tell what each choice moves, and by how much.")
@click.option("--csv", "csv_file", type=FILE, help="Write all columns to this file.")
@click.option("--parquet", "parquet_file", type=FILE, help="Write all columns to this file.")
@click.option("--page", "page_file", type=FILE, help="Write a page with plots to this file.")
@click.option(
    "--write-design",
    type=(click.IntRange(1), FILE),
    metavar="N FILE",
    help="Write design N as a design file, with its comments.",
)
@click.option("--units", type=UNITS, help="Left out: as in the design.")
def rank(
    file: Path,
    *,
    sweep: str | None,
    sort: str | None,
    where: tuple[str, ...],
    holding: bool,
    most: int | None,
    against: tuple[tuple[str, str], ...],
    effects: bool,
    csv_file: Path | None,
    parquet_file: Path | None,
    page_file: Path | None,
    write_design: tuple[int, Path] | None,
    units: "Units | None",
) -> None:
    """Compare the designs in FILE, which `tautlay sweep` wrote.

    Designs that hold come first, best first; then those that do not and those that were not solved, with the reason.
    """
    from textwrap import fill

    from rich.console import Console

    from ..studies.compare.choice_effects import find_effects
    from ..studies.compare.export import write_csv, write_parquet
    from ..studies.compare.pareto_front import LEAST, choose_figures, find_pareto_front
    from ..studies.compare.ranking import rank_rows
    from ..studies.compare.reload_sweep import summarise_sweep
    from ..studies.sweep.mesh_warning import note_mesh
    from ..unit_display import WIDTH, find_units, write_sentence
    from .printing.rank_table import print_effects, print_ranking

    written = (csv_file, parquet_file, page_file, write_design and write_design[1])
    _keep_apart(file, [path for path in written if path is not None])
    heading, rows = _read_sweep(file, sweep)
    ranking = rank_rows(rows, sort=sort, where=where, holding=holding)
    keys = tuple(dict.fromkeys(key for pair in against for key in pair)) or choose_figures(ranking.rows)
    if against:
        find_pareto_front(rows, keys)  # what is asked of all designs makes sense, even if no design is left
    unbeaten = find_pareto_front(ranking.rows, keys) if ranking.rows and (against or len(keys) >= LEAST) else None
    asked, console = units or find_units(heading.units), Console(highlight=False)
    print_ranking(heading, ranking, unbeaten, console, units=asked, most=most, against=bool(against))
    summary = summarise_sweep(heading)
    note = note_mesh(summary.mesh_size, hot_spots=summary.hot_spots)
    if note is not None:
        click.echo(fill(write_sentence(note, asked), WIDTH))
    if effects:
        moved = [find_effects(ranking.rows, key, summary.combine) for key in _choose_moved(ranking, keys)]
        print_effects(moved, asked, console)
    for path, write in ((csv_file, write_csv), (parquet_file, write_parquet)):
        if path is not None:
            write(ranking.to_columns(keys if against else None), path)
            click.echo(f"Written to {path}")
    if page_file is not None:
        from ...viewer import write_sweep_page

        write_sweep_page(heading, ranking, page_file, against=keys, units=asked)
        click.echo(f"Written to {page_file}")
    if write_design is not None:
        _write_design(heading, rows, *write_design)


def _keep_apart(file: Path, written: list[Path]) -> None:
    """Refuse to write over the results, or two things to one file."""
    from ..studies.compare.value_columns import RankingError

    places = [path.absolute() for path in (file, *written)]
    for number, path in enumerate(written, 1):
        same = path.exists() and file.exists() and path.samefile(file)
        if same or places[number] in places[:number]:
            raise RankingError(f"{path}: this file is named twice; name another, or the one would replace the other.")


def _choose_moved(ranking: "Ranking", keys: tuple[str, ...]) -> list[str]:
    """Return the figures of which effects are told: what is sorted by, weight and margin or what counts."""
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
            raise RankingError(f"{file} holds no sweep yet; `tautlay sweep` writes one.")
        names = [heading.name for heading in headings]
        if name is not None and name not in names:
            listed = f"{suggest_name(name, names)}there are {escape_text('; '.join(names))}"
            raise RankingError(f"{file} has no sweep {show_value(name)}; {listed}.")
        heading = headings[names.index(name) if name is not None else 0]
        return heading, store.list_rows(heading.name)


def _write_design(heading: "SweepRecord", rows: "list[SweepRow]", number: int, path: Path) -> None:
    """Write one design of a sweep to a file, and tell what its user should know."""
    from ...materials import escape_text
    from ..studies.compare.export_design import write_extract
    from ..studies.compare.row_verdict import format_verdict
    from ..studies.compare.value_columns import RankingError, name_design

    row = next((row for row in rows if row.number == number), None)
    if row is None:
        raise RankingError(
            f"the sweep {escape_text(heading.name)} has no design {number}; they are numbered from 1 to {len(rows)}."
        )
    extract = write_extract(heading, row, path)
    click.echo(escape_text(f"Written to {path}: design {number}, {name_design(row)}: {format_verdict(row)}"))
    if extract.moved:
        click.echo(f"Its files of materials lie elsewhere; it names them {', '.join(extract.moved)}.")
