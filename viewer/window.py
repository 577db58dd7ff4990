"""The window: a hammock to turn, with buttons for the fields, a slider for the load, and values where one clicks."""

from collections.abc import Callable
from typing import Any

import numpy as np

from ..cases.storage.shape import FloatArray, Shape
from ..cases.storage.stored_result import StoredResult
from ..cases.unit_display import Units
from .caption import BUTTONS, ROW, SLIDER, Caption, CaptionText, place_view
from .field import find_field, list_fields, take_values
from .field_list import Field
from .flesh import make_skin
from .ghost import find_ghost
from .interrupt import close_on_signal
from .look import ColourScheme, make_look
from .readout import describe_segment, describe_triangle
from .render import aim_plotter
from .scene import add_cloth, add_ghost, add_lines, add_person, add_spots, add_surroundings
from .viewpoint import list_viewpoints

SIZE = (1400, 990)  # dots, as wide to high as a sheet
BUTTON = 15  # dots
TEXT = "#202020"
VIEWS = 4


class Window:
    """A result in a window; it is shown by :meth:`open`.

    Parameters
    ----------
    result : StoredResult
        What was solved.
    field : str
        What the cloth shows at first.
    units : {"metric", "imperial", "both"}
        Of all words.
    off_screen : bool
        Whether nothing appears on the display.

    Attributes
    ----------
    plotter : pyvista Plotter
    stage : int
        Which of the computed loads is shown.
    readout : str
        Values of the point picked last.
    """

    def __init__(self, result: StoredResult, field: str, units: Units, *, off_screen: bool = False) -> None:
        import pyvista

        self.result, self.units, self.field = result, units, find_field(result.shape, field)
        self.stage, self.readout = len(result.stages) - 1, ""
        self.fields = list_fields(result.shape)
        self.skins: dict[int, Any] = {}
        self.cloth: Any = None
        self.slider: Any = None
        self.buttons: list[Any] = []
        self.size = SIZE
        title = f"tautlay: {result.name}"
        self.plotter: Any = pyvista.Plotter(off_screen=off_screen, window_size=list(SIZE), title=title)
        self.plotter.enable_anti_aliasing("ssaa")
        self.plotter.enable_depth_peeling(4)
        add_ghost(self.plotter, result.shape.triangles, find_ghost(result))
        add_surroundings(self.plotter, result.shape)
        self.caption = Caption(self.plotter)
        self.redraw()
        self._add_controls()
        self.look_from(0)

    @property
    def shape(self) -> Shape:
        """The shape that is shown."""
        return self.result.stages[self.stage].shape

    @property
    def look(self) -> ColourScheme:
        """What the colours mean; the scales are those of the whole load."""
        look = make_look(self.result.shape, self.field, self.result.bar_shares, self.units)
        return look._replace(most=float(take_values(self.shape, self.field).max()))

    def redraw(self) -> None:
        """Show the field and the load that are chosen."""
        look = self.look
        self.cloth = add_cloth(self.plotter, self.shape, look)
        add_lines(self.plotter, self.shape, look)
        if self.stage not in self.skins:
            self.skins[self.stage] = make_skin(self.shape)
        add_person(self.plotter, self.skins[self.stage])
        whole = self.stage == len(self.result.stages) - 1
        add_spots(self.plotter, self.result.spots if whole else ())
        self.show_readout("")

    def show_readout(self, readout: str) -> None:
        """Write all words again, with what is known of a point."""
        self.readout = readout
        self._write()
        self.plotter.render()

    def choose_field(self, field: Field) -> None:
        """Show another field."""
        self.field = field
        for each, button in zip(self.fields, self.buttons, strict=True):
            button.GetRepresentation().SetState(int(each == field))
        self.redraw()

    def choose_stage(self, stage: int) -> None:
        """Show another of the computed loads."""
        kept = min(max(stage, 0), len(self.result.stages) - 1)
        if kept == self.stage:
            return
        self.stage = kept
        if self.slider is not None:
            self.slider.GetRepresentation().SetValue(kept)
            self.slider.GetRepresentation().SetTitleText(self.result.stages[kept].words)
        self.redraw()

    def pick(self, point: FloatArray, picker: Any) -> None:  # noqa: ANN401
        """Show the values of the point that was clicked."""
        if picker.GetActor() is self.cloth:
            self.show_readout(describe_triangle(self.shape, picker.GetCellId(), self.units))
        else:
            self.show_readout(describe_segment(self.shape, self.look, np.asarray(point), self.units))

    def look_from(self, number: int) -> None:
        """Look from one of the standard views."""
        view = list_viewpoints(self.shape)[number]
        aim_plotter(self.plotter, view.camera, place_view(view, *self.plotter.window_size))
        self.plotter.render()

    def open(self) -> None:
        """Show the window until it is closed."""
        with close_on_signal(self.plotter):
            self.plotter.show()

    def fit(self) -> None:
        """Let words and buttons follow the size of the window; called before each rendering."""
        size = tuple(self.plotter.window_size)
        if size == self.size:
            return
        self.size = size
        self._place_buttons()
        self._write()

    def _write(self) -> None:
        """Write the words over the view."""
        self.caption.write(CaptionText(self.result, self.look, self.stage, self.units, self.fields, self.readout))

    def _add_controls(self) -> None:
        """Add buttons, slider, keys and clicks."""
        for place, field in enumerate(self.fields):
            button = self.plotter.add_radio_button_widget(
                lambda field=field: self.choose_field(field), "fields", value=field == self.field, size=BUTTON,
                border_size=3, color_on=TEXT, color_off="grey",
            )  # fmt: skip
            self.buttons.append(button)
            self._listen(str(place + 1), self.choose_field, field)
        self._place_buttons()
        for place in range(VIEWS):
            self._listen(f"F{place + 1}", self.look_from, place)
        if len(self.result.stages) > 1:
            self.slider = self._add_slider([stage.words for stage in self.result.stages])
        for key, step in (("Left", -1), ("Right", 1)):
            self._listen(key, lambda step: self.choose_stage(self.stage + step), step)
        self.plotter.enable_surface_point_picking(
            self.pick, left_clicking=True, show_point=False, show_message=False, use_picker=True, tolerance=0.002,
            clear_on_no_selection=False,
        )  # fmt: skip
        self.plotter.renderer.AddObserver("StartEvent", lambda *_: self.fit())

    def _place_buttons(self) -> None:
        """Put each button before its words."""
        width, height = self.size
        for place, button in enumerate(self.buttons):
            x = BUTTONS[0] * width
            y = (BUTTONS[1] + ROW * (len(self.buttons) - 1 - place) + ROW / 2) * height - BUTTON / 2
            button.GetRepresentation().PlaceWidget([x, x + BUTTON, y, y + BUTTON, 0.0, 0.0])

    def _add_slider(self, names: list[str]) -> Any:  # noqa: ANN401
        """Return the slider of the load; it stops at what was computed only."""
        slider = self.plotter.add_text_slider_widget(
            lambda name: self.choose_stage(names.index(name)), names, value=len(names) - 1, pointa=SLIDER[0],
            pointb=SLIDER[1], color=TEXT, interaction_event="end",
        )  # fmt: skip
        drawn = slider.GetRepresentation()
        drawn.SetSliderLength(0.012)
        drawn.SetSliderWidth(0.018)
        drawn.SetTubeWidth(0.004)
        drawn.SetEndCapWidth(0.010)
        drawn.SetEndCapLength(0.004)
        drawn.SetTitleHeight(0.017)
        return slider

    def _listen(self, key: str, work: Callable[[Any], None], given: Any) -> None:  # noqa: ANN401
        """Do ``work`` when a key is pressed, and keep VTK from doing what it does with that key (3 makes it stereo)."""

        def answer() -> None:
            self.plotter.iren.interactor.SetKeyCode("\0")
            work(given)

        self.plotter.add_key_event(key, answer)
