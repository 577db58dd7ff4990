"""The measures of a design written to a file."""

from pathlib import Path

from ...cases.design import Design
from ...cases.storage.atomic import write_beside, write_text
from ...cases.unit_display import Units
from .list_views import list_views
from .png_sheet import DOTS, paint_sheets
from .svg_sheet import write_file
from .view_sheet import lay_out_view


def draw_measures(design: Design, path: Path, *, units: Units = "both") -> None:
    """Draw a design with the keys and values of its sizes.

    Parameters
    ----------
    design : Design
        From ``read_design``; it need not be solved.
    path : Path
        ``.svg`` or ``.png``; written whole or not at all.
    units : {"metric", "imperial", "both"}
        Of the values.

    Raises
    ------
    OSError
        If the file cannot be written.
    """
    sheets = [lay_out_view(view, lambda row: row.write(units)) for view in list_views(design)]
    if path.suffix.lower() == ".svg":
        write_text(path, write_file(design.name, sheets))
        return
    with write_beside(path) as beside:
        paint_sheets(design.name, sheets).savefig(beside, dpi=DOTS, metadata={"Software": "tautlay"})
