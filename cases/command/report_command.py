"""The command that writes the report page of a result, or overlays two results."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from .option import FILE, UNITS

if TYPE_CHECKING:
    from ..unit_display import Units


@click.command()
@click.argument("result", type=FILE)
@click.argument("other", type=FILE, required=False)
@click.option("--output", "-o", type=FILE, help="File to write; default: see above.")
@click.option("--units", type=UNITS, help="Units shown first; default: from the design.")
def report(result: Path, other: Path | None, *, output: Path | None, units: "Units | None") -> None:
    """Write the HTML report of RESULT.

    The report is one self-contained file, report.html in that folder. With a second result OTHER it overlays both
    and lists their differences, in comparison.html in the working folder.
    """
    from ...viewer import write_comparison, write_report

    if other is None:
        page = output or result / "report.html"
        write_report(result, page, units=units)
    else:
        page = output or Path("comparison.html")
        write_comparison(result, other, page, units=units)
    click.echo(f"Written to {page}")
