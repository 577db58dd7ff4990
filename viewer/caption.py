"""The words of a sheet laid over a window, so that both read the same, and what belongs to the window alone."""

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from ..cases.storage.stored_result import StoredResult
from ..cases.unit_display import Units
from .field_list import Field
from .ghost import GHOST_COLOUR, find_ghost
from .look import ColourScheme
from .picture import SHEET
from .sheet import VIEW, PictureText, write_words
from .viewpoint import Viewpoint

ONE_STAGE = "Only the whole load is computed. `tautlay solve --load-steps 4` computes parts of it."
HELP = "click: values    1 to {count}: field    F1 to F4: view    arrows: load    drag: turn    wheel: zoom    q: close"
BUTTONS, ROW = (0.03, VIEW[1] + 0.012), 0.024  # lower left corner and distance of the buttons, of the window
SLIDER = ((0.40, 0.235), (0.74, 0.235))
_SPREAD = 1.15  # of a view in the window over one on a sheet


class CaptionText(NamedTuple):
    """What the words over a window depend on.

    Parameters
    ----------
    result : StoredResult
        What was solved.
    look : ColourScheme
        What the colours mean.
    stage : int
        Which of the computed loads is shown.
    units : {"metric", "imperial", "both"}
        Of the words.
    fields : tuple of Field
        Which can be chosen, from top to bottom.
    readout : str
        What is known of the point that was picked; lines.
    """

    result: StoredResult
    look: ColourScheme
    stage: int
    units: Units
    fields: tuple[Field, ...]
    readout: str


class Caption:
    """An image over the whole window of a plotter."""

    def __init__(self, plotter: Any) -> None:  # noqa: ANN401  (pyvista has no types)
        self.plotter = plotter
        self.widget: Any = None

    def write(self, words: CaptionText) -> None:
        """Write everything again, as large as the window is now."""
        import pyvista

        image = draw_words(words, *self.plotter.window_size)
        grid = pyvista.ImageData(dimensions=(image.shape[1], image.shape[0], 1))
        grid.point_data["colour"] = image[::-1].reshape(-1, 4)
        if self.widget is None:
            self.widget = self.plotter.add_logo_widget(grid, position=(0.0, 0.0), size=(1.0, 1.0))
            self.widget.ProcessEventsOff()
            self.widget.GetRepresentation().SetShowBorderToOff()
        self.widget.GetRepresentation().SetImage(grid)
        self.widget.GetRepresentation().BuildRepresentation()


def draw_words(words: CaptionText, width: int, height: int) -> NDArray[np.uint8]:
    """Return the words as an image (height, width, 4), clear in the place of the view.

    Parameters
    ----------
    words : CaptionText
        What is written.
    width, height : int
        Dots.
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure
    from matplotlib.lines import Line2D

    figure = Figure((SHEET[0], SHEET[0] * height / width), dpi=width / SHEET[0])
    canvas: Any = FigureCanvasAgg(figure)
    figure.patch.set_alpha(0.0)
    shown = words.result.stages[words.stage]
    key = {find_ghost(words.result).words: Line2D([], [], color=GHOST_COLOUR, linewidth=1.5)}
    part = shown.words if shown.share < 1.0 else ""
    write_words(figure, words.result, PictureText(words.look, words.units, shown.shape, key, part=part))
    _write_controls(figure, words)
    canvas.draw()
    return _clear_view(np.asarray(canvas.buffer_rgba()))


def _write_controls(figure: Any, words: CaptionText) -> None:  # noqa: ANN401
    """Write what buttons and keys do, and the values of the point that was picked."""
    from matplotlib.patches import Rectangle

    count = len(words.fields)
    ground = (BUTTONS[0] + 0.017, BUTTONS[1]), 0.19, ROW * count  # words stay readable before a tree
    figure.add_artist(Rectangle(*ground, facecolor="white", alpha=0.8, edgecolor="none"))
    figure.text(0.03, 0.922, HELP.format(count=count), fontsize=8, va="center", color="0.3")
    for place, field in enumerate(words.fields):
        chosen = "bold" if field == words.look.field else "normal"
        y = BUTTONS[1] + ROW * (count - 1 - place) + ROW / 2
        figure.text(BUTTONS[0] + 0.02, y, f"{place + 1}  {field.title}", fontsize=8.5, va="center", weight=chosen)
    if len(words.result.stages) == 1:
        figure.text(sum(end[0] for end in SLIDER) / 2, SLIDER[0][1], ONE_STAGE, fontsize=8, ha="center")
    if words.readout:
        box = {"facecolor": "white", "edgecolor": "0.5", "boxstyle": "round,pad=0.5"}
        figure.text(0.038, 0.89, words.readout, fontsize=8.5, va="top", bbox=box, linespacing=1.4)


def _clear_view(drawn: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """Return an image with a white ground around the place of the view, so that nothing disturbs the words there."""
    image = drawn.copy()
    rows, columns = image.shape[0], image.shape[1]
    around = np.ones((rows, columns), dtype=bool)
    left, bottom, width, height = VIEW
    around[round((1 - bottom - height) * rows) : round((1 - bottom) * rows), : round((left + width) * columns)] = False
    clear = image[..., 3:] / 255.0
    mixed = np.round(clear * image[..., :3] + (1 - clear) * 255).astype(np.uint8)
    image[around, :3], image[around, 3] = mixed[around], 255
    return image


def place_view(view: Viewpoint, width: int, height: int) -> tuple[float, float, float, float]:
    """Return what a window of some size, dots, must show so that a view lies where the words leave room.

    Parameters
    ----------
    view : Viewpoint
        What is to be seen.
    width, height : int
        Dots.

    Returns
    -------
    tuple of float
        Left, right, bottom and top in the plane of the picture, m.
    """
    size = np.array([width, height])
    low, high = view.frame.min(axis=0), view.frame.max(axis=0)
    scale = float((_SPREAD * (high - low) / (size * VIEW[2:])).max())  # m per dot
    off = 0.5 - np.array(VIEW[:2]) - np.array(VIEW[2:]) / 2  # from the middle of the view to that of the window
    middle = (low + high) / 2 + off * scale * size
    (left, bottom), (right, top) = middle - scale * size / 2, middle + scale * size / 2
    return float(left), float(right), float(bottom), float(top)
