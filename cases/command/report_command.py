"""The command that writes the report page of a result, or overlays two results."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from .option import FILE, FORCE, UNITS
from .say import say

if TYPE_CHECKING:
    from ..unit_display import Units


@click.command()
@click.argument("result", type=FILE)
@click.argument("other", type=FILE, required=False)
@click.option("--output", "-o", type=FILE, help="File to write; default: see above.")
@click.option("--units", type=UNITS, help="Units shown first; default: from the design.")
@FORCE
def report(result: Path, other: Path | None, *, output: Path | None, units: "Units | None", force: bool) -> None:
    """Write the HTML report of RESULT.

    The report is one self-contained file, report.html in that folder. With a second result OTHER it overlays both
    and lists their differences, in comparison.html in the working folder.
    """
    from ...viewer import write_comparison, write_report
    from ..storage.output_file import PAGE, check_output
    from ..storage.stored_result import list_files

    page = output or (result / "report.html" if other is None else Path("comparison.html"))
    check_output(page, PAGE, [file for each in (result, other) if each for file in list_files(each)], force=force)
    if other is None:
        write_report(result, page, units=units)
    else:
        write_comparison(result, other, page, units=units)
    say(f"Written to {page}")
