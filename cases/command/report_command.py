"""The command that writes the report page of a result, or lays two results side by side."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from .option import FILE, UNITS

if TYPE_CHECKING:
    from ..unit_display import Units


@click.command()
@click.argument("result", type=FILE)
@click.argument("other", type=FILE, required=False)
@click.option("--output", "-o", type=FILE, help="File to write; left out: see above.")
@click.option("--units", type=UNITS, help="Units shown first; left out: as in the design.")
def report(result: Path, other: Path | None, *, output: Path | None, units: "Units | None") -> None:
    """Write the page of RESULT, a folder that `tautlay solve` wrote.

    It is one file, report.html in that folder, that asks nothing of any other place. With a second result OTHER the
    page lays both over each other and tells in what they differ; it is then comparison.html in the working folder.
    """
    from ...viewer import write_comparison, write_report

    if other is None:
        page = output or result / "report.html"
        write_report(result, page, units=units)
    else:
        page = output or Path("comparison.html")
        write_comparison(result, other, page, units=units)
    click.echo(f"Written to {page}")
