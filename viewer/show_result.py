"""Show a result from a script or a notebook."""

import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ..cases.storage.stored_result import StoredResult, read_result
from ..cases.unit_display import Units
from .field import find_field
from .field_list import FIELDS
from .graphics import DisplayError, find_screen, use_screen
from .picture import DOTS

if TYPE_CHECKING:
    from ..cases.result import Result

NO_WINDOW = (
    "No window can be opened here: no display with OpenGL was found. "
    "Draw pictures instead, with `tautlay view RESULT --pictures` or `tautlay.viewer.draw_album`."
)


def show(result: "Result | str | Path", *, field: str = FIELDS[0].key, units: Units | None = None) -> Any:  # noqa: ANN401
    """Show a result in a window until it is closed; in a notebook as a picture.

    Parameters
    ----------
    result : Result or path
        From ``solve_case``, or the folder of a result.
    field : str
        What the cloth shows at first, as ``tautlay view --field`` names it.
    units : {"metric", "imperial", "both"} or None
        Of all words; None is as in the design.

    Returns
    -------
    PIL.Image.Image or None
        In a notebook the three-quarter view, else nothing.

    Raises
    ------
    ResultError, VtuError
        If there is no result to show.
    DisplayError
        If no window can be opened here, or there is no such field.
    """
    kept = _read(result)
    find_field(kept.shape, field)
    words: Units = kept.units if units is None else units
    if "ipykernel" in sys.modules:
        return _draw(kept, field, words)
    way = find_screen(window=True)
    if way == "none":
        raise DisplayError(NO_WINDOW)
    use_screen(way)
    from .window import Window

    Window(kept, field, words).open()
    return None


def _read(result: "Result | str | Path") -> StoredResult:
    """Return what a folder or a result just solved holds."""
    if isinstance(result, str | Path):
        return read_result(Path(result))
    with tempfile.TemporaryDirectory() as place:
        result.save(Path(place) / "result")
        return read_result(Path(place) / "result")


def _draw(result: StoredResult, field: str, units: Units) -> Any:  # noqa: ANN401
    """Return the three-quarter view as an image."""
    from io import BytesIO

    from PIL import Image

    from .render import Renderer
    from .sheet import compose_view
    from .viewpoint import list_viewpoints

    way = find_screen()
    renderer = None if way == "none" else Renderer(result.shape, way)
    view = list_viewpoints(result.shape)[0]
    page = BytesIO()
    compose_view(result, view, find_field(result.shape, field), units, renderer).savefig(page, dpi=DOTS, format="png")
    return Image.open(page)
