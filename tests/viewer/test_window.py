"""The window, driven without a display: buttons, keys, slider and clicks."""

import signal
from types import SimpleNamespace

import numpy as np
import pytest

from tautlay.cases.storage.shape import LINES, CellTag
from tautlay.cases.storage.stored_result import read_result
from tautlay.viewer import graphics
from tautlay.viewer.caption import BUTTONS, ROW
from tautlay.viewer.field import show_value, take_values
from tautlay.viewer.interrupt import close_on_signal
from tautlay.viewer.spots import SPOT_COLOUR
from tautlay.viewer.viewpoint import list_viewpoints
from tautlay.viewer.window import BUTTON, Window

SIZE = (700, 495)

pytestmark = pytest.mark.skipif("graphics.find_screen() == 'none'", reason="no OpenGL that works without a window")


@pytest.fixture(scope="module")
def window(shown):
    graphics.use_screen(graphics.find_screen())
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("tautlay.viewer.window.SIZE", SIZE)
        found = Window(read_result(shown), "larger-stress", "both", off_screen=True)
        found.plotter.iren.initialize()  # as showing it does: only then it listens
        yield found
        found.plotter.close()


@pytest.fixture(autouse=True)
def first_view(window):
    window.choose_stage(len(window.result.stages) - 1)
    if window.field != window.fields[0]:
        window.choose_field(window.fields[0])
    window.look_from(2)  # from above


def take_picture(window):
    return np.asarray(window.plotter.screenshot(None, return_img=True))[..., :3].astype(int)


def find_dot(window, point):
    """Return where a point is seen, dots from the lower left corner."""
    renderer = window.plotter.renderer
    renderer.SetWorldPoint(*point, 1.0)
    renderer.WorldToDisplay()
    return renderer.GetDisplayPoint()[:2]


def press(window, key):
    keyboard = window.plotter.iren.interactor
    keyboard.SetKeySym(key)
    keyboard.KeyPressEvent()


def click(window, point):
    at = [round(dot) for dot in find_dot(window, point)]
    window.plotter.iren._mouse_left_button_click(*at)


def test_hot_spots_are_where_the_result_says(window):
    picture = take_picture(window)
    wanted = [int(SPOT_COLOUR[i : i + 2], 16) for i in (1, 3, 5)]
    for number, spot in enumerate(window.result.spots, 1):
        actor = window.plotter.actors[f"hot spot {number}"]
        assert np.reshape(actor.bounds, (3, 2)).mean(axis=1) == pytest.approx(spot.loaded, abs=1e-6)
        x, y = find_dot(window, np.array(spot.loaded))
        assert np.abs(picture[picture.shape[0] - round(y), round(x)] - wanted).max() <= 3


def test_clicked_cloth_tells_its_values(window):
    shape = window.shape
    triangle = 2200
    click(window, shape.points[shape.triangles[triangle]].mean(axis=0))
    lines = window.readout.splitlines()
    assert lines[0].startswith("cloth, ")
    for place in (0, 1, 4, 5):
        field = window.fields[place]
        value = show_value(field, float(take_values(shape, field)[triangle]), "both")
        assert f"{field.title} {value}" in lines
    assert lines[-1] == ("slack", "wrinkled", "taut")[shape.state[triangle]]


def test_clicked_cords_and_bars_tell_their_forces(window):
    shape = window.shape
    ends = {
        part: shape.points[shape.segments[shape.part == part][0]].mean(axis=0) for part in CellTag if part in shape.part
    }
    click(window, ends[LINES[0]])
    assert window.readout == "head line\ntension 705 N (158 lbf)"
    click(window, ends[CellTag.HEAD_BAR])
    assert window.readout == f"head bar\nthrust 441 N (99.1 lbf)\n{1 / 2.6:.0%} of its capacity"


def test_keys_and_buttons_choose_the_field(window):
    before = take_picture(window)
    press(window, "5")
    assert window.field.key == "warp"
    assert [button.GetRepresentation().GetState() for button in window.buttons] == [0, 0, 0, 0, 1, 0]
    assert (take_picture(window) != before).any(axis=2).mean() > 0.005
    x, y = BUTTONS[0] * SIZE[0] + BUTTON / 2, (BUTTONS[1] + 4.5 * ROW) * SIZE[1]  # the second of six
    window.plotter.iren._mouse_left_button_click(round(x), round(y))
    assert window.field.key == "smaller-stress"
    assert not window.plotter.render_window.GetStereoRender()


def test_slider_stops_only_at_what_was_computed(window):
    drawn = window.slider.GetRepresentation()
    low = [window.shape.points[window.shape.triangles, 2].min()]
    for key, share, words in (("Left", 0.5, "50% of the weight"), ("Left", 0.0, "empty"), ("Left", 0.0, "empty")):
        press(window, key)
        assert window.result.stages[window.stage].share == share
        assert drawn.GetTitleText() == words
        low.append(window.shape.points[window.shape.triangles, 2].min())
        assert not [name for name in window.plotter.actors if name.startswith("hot spot")]
    assert low[0] < low[1] < low[2] == low[3]
    used = window.shape.points[window.shape.triangles].reshape(-1, 3)
    box = np.reshape(window.plotter.actors["cloth"].bounds, (3, 2))
    assert box == pytest.approx(np.stack([used.min(axis=0), used.max(axis=0)], axis=1), abs=1e-6)
    drawn.SetValue(1.2)
    window.slider.InvokeEvent("EndInteractionEvent")
    assert window.result.stages[window.stage].share == 0.5


def test_views_are_those_of_the_pictures(window):
    for number, key in enumerate(("F1", "F2", "F3", "F4")):
        press(window, key)
        seen = window.plotter.camera.direction
        assert seen == pytest.approx(-list_viewpoints(window.shape)[number].camera.eye, abs=1e-6)


def test_words_and_buttons_follow_the_size(window):
    for size in ([640, 480], list(SIZE)):
        window.plotter.window_size = size
        take_picture(window)
        assert window.caption.widget.GetRepresentation().GetImage().GetDimensions() == (*size, 1)


def test_a_person_and_one_stage(shown_lying):
    graphics.use_screen(graphics.find_screen())
    window = Window(read_result(shown_lying), "pressure", "imperial", off_screen=True)
    try:
        assert window.slider is None
        assert {"person", "shine"} <= set(window.plotter.actors)
        press(window, "Left")
        assert window.stage == 0
        shape = window.shape
        pressed = np.flatnonzero(shape.occupant.pressure)
        window.plotter.iren.initialize()
        window.look_from(2)
        window.plotter.camera.position = np.array(window.plotter.camera.position) * [1, 1, -1]  # from below
        window.plotter.renderer.ResetCameraClippingRange()
        window.plotter.render()
        click(window, shape.points[shape.triangles[pressed[len(pressed) // 2]]].mean(axis=0))
        assert "contact pressure 0.218 psi" in window.readout  # 1500 Pa; 1 psi = 6894.757 Pa: NIST SP 811 B.8
    finally:
        window.plotter.close()


@pytest.fixture
def heard():
    """Signals as they are at first: what runs the tests may ignore them, as shells do for jobs in the background."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


@pytest.mark.usefixtures("heard")
def test_a_signal_closes_the_window_and_is_then_heard():
    closed = []
    plotter = SimpleNamespace(
        iren=SimpleNamespace(terminate_app=lambda: closed.append(True)), add_timer_event=lambda **_: None
    )
    with pytest.raises(KeyboardInterrupt), close_on_signal(plotter):  # noqa: PT012
        signal.raise_signal(signal.SIGINT)
        assert closed == [True]
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler
