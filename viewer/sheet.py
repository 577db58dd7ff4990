"""One sheet for one view: heading, view, scales, key, hot spots in words and on the cloth as cut."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, NamedTuple

from ..cases.display.headings import PrintHeading
from ..cases.storage.shape import Shape
from ..cases.storage.stored_result import EMPTY_LOAD, StoredResult
from ..cases.unit_display import Units
from .camera import Camera, project_points
from .field_list import Field
from .ghost import GHOST_COLOUR, find_ghost, find_rim
from .labels import draw_labels
from .legend import draw_key, draw_line_scales, draw_scale
from .look import ColourScheme, make_look
from .person import draw_person
from .picture import DOTS, DRAWN, NOTE, SHEET, head_result, write_top
from .render import Renderer
from .spots import draw_spot_map, draw_spots, list_spots
from .view import draw_hammock, draw_scale_bar, draw_trees, fit_view, format_clearance
from .viewpoint import Viewpoint

if TYPE_CHECKING:
    from matplotlib.artist import Artist

OWN = "Drawn without OpenGL: cords and bars show through cloth."
VIEW = (0.02, 0.165, 0.81, 0.74)  # of the sheet


def compose_view(result: StoredResult, view: Viewpoint, field: Field, units: Units, renderer: Renderer | None) -> Any:  # noqa: ANN401
    """Put one view of a result on a sheet.

    Parameters
    ----------
    result : StoredResult
        What was solved.
    view : Viewpoint
        From where, and which parts.
    field : Field
        What the cloth shows.
    units : {"metric", "imperial", "both"}
        Of everything that is written.
    renderer : Renderer or None
        Draws the view by OpenGL; None draws it without a graphics library.

    Returns
    -------
    matplotlib Figure
        Ready to be saved.
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure
    from matplotlib.lines import Line2D

    look = make_look(result.shape, field, result.bar_shares, units)
    figure = Figure(SHEET)
    FigureCanvasAgg(figure)
    axes = figure.add_axes(VIEW)
    fit_view(axes, view.frame, view.inset)
    if view.trees:
        draw_trees(axes, view.shape, view.camera)
    if renderer is None:
        draw_hammock(axes, view.shape, view.camera, look)
        draw_person(axes, view.shape, view.camera, DOTS)
    else:
        renderer.draw(axes, view, look, DOTS)
    more: dict[str, Artist] = {}
    if view.ghost:
        words = _draw_ghost(axes, result, view.camera)
        more[words] = Line2D([], [], color=GHOST_COLOUR, linewidth=1.0, linestyle="--")
    if view.labels:
        draw_labels(axes, view.shape, view.camera, units)
    draw_spots(axes, result.spots, view)
    title = f"{view.title}; {format_clearance(view.shape, units)}" if view.trees else view.title
    axes.text(0.5, 1.0, title, transform=axes.transAxes, ha="center", va="bottom", fontsize=9)
    draw_scale_bar(axes, (0.02, 0.18 if view.labels else 0.03), units)
    write_words(figure, result, PictureText(look, units, view.shape, more, "" if renderer else OWN))
    return figure


class PictureText(NamedTuple):
    """What the words of a sheet depend on.

    Parameters
    ----------
    look : ColourScheme
        What the colours mean.
    units : {"metric", "imperial", "both"}
        Of the words.
    shape : Shape
        What is shown.
    key : mapping of words to matplotlib artists
        More rows of the key.
    remark : str
        Put after the notes.
    part : str
        Which part of the load is shown, unless it is the whole.
    """

    look: ColourScheme
    units: Units
    shape: Shape
    key: "Mapping[str, Artist]"
    remark: str = ""
    part: str = ""


def write_words(figure: Any, result: StoredResult, page: PictureText) -> None:  # noqa: ANN401
    """Write everything around a view: heading, scales, key, hot spots and notes.

    Parameters
    ----------
    figure : matplotlib Figure
        The sheet.
    result : StoredResult
        What was solved.
    page : PictureText
        What is shown of it.
    """
    write_top(figure, _head(result, page.part))
    draw_scale(figure, page.look, page.units)
    draw_line_scales(figure, page.look, page.units)
    draw_key(figure, page.shape, page.look, page.key)
    list_spots(figure, result.spots, page.units)
    draw_spot_map(figure, result)
    note = NOTE if result.shape.occupant is None else NOTE + DRAWN
    figure.text(0.03, 0.027, note, fontsize=7.5, va="center", color="0.3")
    figure.text(0.03, 0.010, page.remark, fontsize=7.5, va="center", color="0.3")


def _head(result: StoredResult, part: str) -> PrintHeading:
    """Return the heading of a shape under a part of the load."""
    if part == EMPTY_LOAD:
        return PrintHeading(f"{result.name}: empty hammock", "No person; trees and lines as under the load.")
    whole = head_result(result.record)
    return whole._replace(title=f"{whole.title}, {part}") if part else whole


def _draw_ghost(axes: Any, result: StoredResult, camera: Camera) -> str:  # noqa: ANN401
    """Draw the rim of the unloaded cloth and return what it is."""
    ghost = find_ghost(result)
    rim = project_points(camera, ghost.points[find_rim(result.shape.triangles)])
    for colour, width in (("white", 2.0), (GHOST_COLOUR, 1.0)):
        axes.plot(*rim.T, color=colour, linewidth=width, linestyle=(0, (5, 3)), zorder=5)
    return ghost.words
