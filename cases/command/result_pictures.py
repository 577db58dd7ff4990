"""Pictures of a result, drawn while its folder is being written."""

from pathlib import Path

from ..unit_display import Units


def draw_result(source: Path, png_path: Path, *, units: Units, pictures: bool, page: bool) -> None:
    """Draw the shape and, beside it, the channel of the result in a folder, then the page that holds them.

    Parameters
    ----------
    source : Path
        Folder with the result.
    png_path : Path
        Picture of the shape; everything else is written beside it.
    units : {"metric", "imperial", "both"}
        Of the pictures, and what the page shows first.
    pictures, page : bool
        What is wanted.
    """
    if pictures:
        from ...viewer import draw_fold, draw_shape

        draw_shape(source, png_path, units=units)
        draw_fold(source, png_path.with_name("channel.png"), units=units)
    if page:
        from ...viewer import write_report

        write_report(source, png_path.with_name("report.html"), units=units)
