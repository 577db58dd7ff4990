"""The command that shows a result: in a window, or as pictures."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from ...viewer.field_list import FIELDS, NAMES
from .option import FILE, UNITS

if TYPE_CHECKING:
    from ..unit_display import Units


@click.command()
@click.argument("result", type=FILE)
@click.option(
    "--pictures",
    is_flag=False,
    flag_value="",
    metavar="[FOLDER]",
    help="Open no window but draw pictures into FOLDER; left out: the folder of the result.",
)
@click.option(
    "--field",
    type=click.Choice(list(NAMES)),
    default=FIELDS[0].key,
    show_default=True,
    help="What the cloth shows at first.",
)
@click.option("--units", type=UNITS, help="Units of all words; left out: as in the design.")
def view(result: Path, *, pictures: str | None, field: str, units: "Units | None") -> None:
    """Show RESULT, a folder that solve has written, in a window; with --pictures draw it without one."""
    from ...viewer import draw_album, show

    if pictures is None:
        show(result, field=field, units=units)
        return
    album = draw_album(result, Path(pictures) if pictures else None, field=field, units=units)
    click.echo(f"{len(album.files)} pictures in {album.files[0].parent}, {album.way}.")
