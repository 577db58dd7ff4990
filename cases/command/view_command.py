"""The command that shows a result: in a window, or as pictures."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from ...viewer.field_list import FIELDS, NAMES
from .option import FILE, FORCE, UNITS
from .say import say

if TYPE_CHECKING:
    from ..unit_display import Units


@click.command()
@click.argument("result", type=FILE)
@click.option(
    "--pictures",
    is_flag=False,
    flag_value="",
    metavar="[FOLDER]",
    help="Draw pictures into FOLDER instead; default: the folder of the result.",
)
@click.option(
    "--field",
    type=click.Choice(list(NAMES)),
    default=FIELDS[0].key,
    show_default=True,
    help="Field shown on the cloth at first.",
)
@click.option("--units", type=UNITS, help="Units; default: from the design.")
@FORCE
def view(result: Path, *, pictures: str | None, field: str, units: "Units | None", force: bool) -> None:
    """Show RESULT in a window or draw pictures.

    RESULT is a folder that `tautlay solve` wrote.
    """
    from ...viewer import draw_album, show

    if pictures is None:
        show(result, field=field, units=units)
        return
    album = draw_album(result, Path(pictures) if pictures else None, field=field, units=units, force=force)
    say(f"{len(album.files)} pictures in {album.files[0].parent}, {album.way}.")
