"""The standard set of pictures of a result: four views, and a close-up of each hot spot."""

from importlib.metadata import version
from pathlib import Path
from typing import NamedTuple

from ..cases.storage.atomic import write_beside
from ..cases.storage.output_file import PICTURE, check_output
from ..cases.storage.stored_result import StoredResult, read_result
from ..cases.unit_display import Units
from .field import find_field
from .field_list import FIELDS, NAMES, Field
from .graphics import DisplayKind, find_screen
from .picture import DOTS
from .render import Renderer
from .sheet import compose_view
from .viewpoint import Viewpoint, list_viewpoints, view_spot

WAYS: dict[DisplayKind, str] = {
    "display": "drawn by OpenGL on the display",
    "egl": "drawn by OpenGL without a display (EGL)",
    "osmesa": "drawn by OpenGL without a display (OSMesa)",
    "none": "drawn without OpenGL, since none works here or TAUTLAY_SCREEN excludes it: colours and words are the "
    "same, but cords and bars show through cloth",
}


class Album(NamedTuple):
    """Files that were written, and by which way they were drawn, in words."""

    files: tuple[Path, ...]
    way: str


def draw_album(
    source: Path,
    folder: Path | None = None,
    *,
    field: str = FIELDS[0].key,
    units: Units | None = None,
    screen: DisplayKind | None = None,
    force: bool = False,
) -> Album:
    """Draw three-quarter, side, top and foot view of a result, and a close-up of each hot spot.

    Parameters
    ----------
    source : Path
        Folder of the result.
    folder : Path or None
        Where to write; made if it is not there. None is the folder of the result.
    field : str
        What the cloth shows in the four views, as ``tautlay view --field`` names it; a close-up shows the share of the
        strength of the thread it is about.
    units : {"metric", "imperial", "both"} or None
        Of everything that is written; None is as in the design.
    screen : {"display", "egl", "osmesa", "none"} or None
        By which way; None finds out.
    force : bool
        Whether files of these names that tautlay did not write are replaced.

    Returns
    -------
    Album
        ``view_three_quarter.png`` and so on, ``hot_spot_1.png`` and so on.

    Raises
    ------
    ResultError, VtuError
        If there is no result to draw.
    DisplayError
        If the environment asks for a way that does not exist.
    OSError
        If a picture cannot be written, or would replace another file.
    """
    result, place = read_result(source), source if folder is None else folder
    chosen = find_field(result.shape, field)
    way = find_screen() if screen is None else screen
    renderer = None if way == "none" else Renderer(result.shape, way)
    pages = {place / f"{view.name}.png": (view, shown) for view, shown in _list_pages(result, chosen)}
    for file in pages:
        check_output(file, PICTURE, force=force)
    for file, (view, shown) in pages.items():
        figure = compose_view(result, view, shown, result.units if units is None else units, renderer)
        with write_beside(file) as beside:
            figure.savefig(beside, dpi=DOTS, metadata={"Software": f"tautlay {version('tautlay')}"})
    return Album(tuple(pages), WAYS[way])


def _list_pages(result: StoredResult, field: Field) -> list[tuple[Viewpoint, Field]]:
    """Return what each picture shows."""
    views = [(view, field) for view in list_viewpoints(result.shape)]
    return [
        *views,
        *((view_spot(result.shape, number, spot), NAMES[spot.thread]) for number, spot in enumerate(result.spots, 1)),
    ]
