"""Report pages written to files."""

from pathlib import Path

from ...cases.storage.atomic import write_text
from ...cases.storage.stored_result import read_result
from ...cases.unit_display import Units
from .page import compose_comparison, compose_report


def write_report(folder: Path, html_path: Path, *, units: Units | None = None) -> None:
    """Write the page of a result.

    Parameters
    ----------
    folder : Path
        Result folder; pictures in it go into the page.
    html_path : Path
        File to write, whole or not at all.
    units : {"metric", "imperial", "both"} or None
        What the page shows first; None is as in the design.

    Raises
    ------
    ResultError, VtuError
        If there is no result, or it cannot be read.
    OSError
        If the page cannot be written.

    Examples
    --------
    >>> write_report(Path("x"), Path("report.html"))
    Traceback (most recent call last):
    tautlay.cases.storage.result_json.ResultError: x has no result.json. Choose a folder that `tautlay solve` wrote.
    """
    write_text(html_path, compose_report(read_result(folder), units=units))


def write_comparison(first: Path, second: Path, html_path: Path, *, units: Units | None = None) -> None:
    """Write the page that shows two results side by side.

    Parameters
    ----------
    first, second : Path
        Result folders.
    html_path : Path
        File to write, whole or not at all.
    units : {"metric", "imperial", "both"} or None
        What the page shows first; None is as in the first design.

    Raises
    ------
    ResultError, VtuError
        If one of them cannot be read.
    OSError
        If the page cannot be written.

    Examples
    --------
    >>> write_comparison(Path("x"), Path("y"), Path("both.html"))
    Traceback (most recent call last):
    tautlay.cases.storage.result_json.ResultError: x has no result.json. Choose a folder that `tautlay solve` wrote.
    """
    write_text(html_path, compose_comparison(read_result(first), read_result(second), units=units))
