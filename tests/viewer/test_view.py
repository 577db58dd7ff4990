"""The set of pictures, with and without OpenGL, and the words that go with them."""

import dataclasses
import json
import re
import shutil
import sys

import numpy as np
import pytest
from click.testing import CliRunner
from matplotlib.image import imread

from tautlay.cases.command.cli import main
from tautlay.cases.storage.shape import BARS, CellTag, write_shape
from tautlay.cases.storage.stored_result import ResultError, read_result
from tautlay.viewer import DisplayError, draw_album, graphics, show
from tautlay.viewer.album import WAYS
from tautlay.viewer.camera import project_points
from tautlay.viewer.caption import CaptionText, draw_words
from tautlay.viewer.field import find_scale, list_fields, show_value, take_values
from tautlay.viewer.field_list import FIELDS, NAMES
from tautlay.viewer.flesh import flatten_skin, make_skin, measure_depth
from tautlay.viewer.ghost import EMPTY, FLAT, find_ghost, find_rim, lay_flat
from tautlay.viewer.hatching import place_marks
from tautlay.viewer.legend_words import BAR_TITLE, CORDS
from tautlay.viewer.look import find_bar_share, make_look, paint_cloth
from tautlay.viewer.mannequin import Balls
from tautlay.viewer.render import Renderer
from tautlay.viewer.sheet import OWN, compose_view
from tautlay.viewer.spots import SPOT_COLOUR
from tautlay.viewer.viewpoint import list_viewpoints, view_spot

from ._sheet_words import list_words, read_sheet

GL = pytest.mark.skipif("graphics.find_screen() == 'none'", reason="no OpenGL that works without a window")


class Blank:
    """Draws nothing, so that words can be tested quickly."""

    def draw(self, axes, view, look, dots):
        pass


@pytest.fixture
def coarse(monkeypatch):
    """Few dots, so that pictures come quickly."""
    for module in ("album", "sheet", "show_result"):
        monkeypatch.setattr(f"tautlay.viewer.{module}.DOTS", 40)


@pytest.fixture(params=["solved", "lying"])
def result(request, shown, shown_lying):
    return read_result(shown if request.param == "solved" else shown_lying)


@pytest.mark.parametrize(
    ("units", "foreign"), [("both", "-"), ("imperial", r"N|N/m|m|cm|kPa|mm"), ("metric", r"lbf|lbf/in|in|psi|ft")]
)
@pytest.mark.parametrize("place", range(5))
def test_no_words_are_cut_off_or_cover_each_other(result, units, foreign, place):
    views = [*list_viewpoints(result.shape), view_spot(result.shape, 1, result.spots[0])]
    field = list_fields(result.shape)[place - 1]  # every sheet another field
    figure = compose_view(result, views[place], field, units, Blank())
    text = "\n".join(read_sheet(figure))
    for wanted in (result.name, field.title, CORDS, BAR_TITLE, views[place].title, *map(str, range(1, 4))):
        assert wanted in text
    assert re.findall(rf"[0-9] (?:{foreign})\b", text.replace("over 25 mm", "")) == []


def test_forced_to_none_everything_comes_out(shown, tmp_path, coarse):
    outcome = CliRunner(env={graphics.FORCED: "none"}).invoke(main, ["view", str(shown), "--pictures", str(tmp_path)])
    assert outcome.exit_code == 0, outcome.output
    names = sorted(path.name for path in tmp_path.iterdir())
    views = ["view_foot.png", "view_side.png", "view_three_quarter.png", "view_top.png"]
    assert names == [*(f"hot_spot_{number}.png" for number in (1, 2, 3)), *views]
    assert outcome.output.splitlines() == [f"7 pictures in {tmp_path}, {WAYS['none']}."]
    for name in names:
        ink = (imread(tmp_path / name)[..., :3].min(-1) < 0.95).mean()
        assert 0.03 < ink < 0.8, name


@pytest.mark.slow
def test_forced_to_none_a_person_comes_out(shown_lying, tmp_path):
    album = draw_album(shown_lying, tmp_path, screen="none")
    for file in album.files:
        assert 0.03 < (imread(file)[..., :3].min(-1) < 0.95).mean() < 0.8, file


def test_without_opengl_the_sheet_says_so(shown):
    result = read_result(shown)
    figure = compose_view(result, list_viewpoints(result.shape)[3], FIELDS[0], "both", None)
    assert OWN in [word for word, _ in list_words(figure)]


def test_markup_in_a_name_comes_out_as_text(shown, tmp_path):
    """Neither HTML nor the formulas that matplotlib knows; letter by letter the name is what the sheet says."""
    shutil.copytree(shown, tmp_path / "result")
    evil = r"</script><script>alert(1)</script> $\frac{1}{2}$ {name} %s & _x^2_"
    change(tmp_path / "result", lambda found: found["design"].update(name=evil))
    result = read_result(tmp_path / "result")
    figure = compose_view(result, list_viewpoints(result.shape)[0], FIELDS[0], "both", Blank())
    (title,) = [text for text in figure.texts if evil in text.get_text()]
    assert title.get_text() == f"{evil}: loaded shape, spread weight"
    assert not title.get_parse_math()
    figure.canvas.draw()  # a formula with a fault would end here
    words = CaptionText(
        result, make_look(result.shape, FIELDS[0], result.bar_shares), 0, "both", list_fields(result.shape), ""
    )
    assert draw_words(words, 700, 495).shape == (495, 700, 4)


def test_left_out_folder_is_that_of_the_result(shown, tmp_path, monkeypatch, coarse):
    monkeypatch.setattr(
        "tautlay.viewer.album._list_pages", lambda result, field: [(list_viewpoints(result.shape)[1], field)]
    )
    shutil.copytree(shown, tmp_path / "result")
    outcome = CliRunner(env={graphics.FORCED: "none"}).invoke(main, ["view", str(tmp_path / "result"), "--pictures"])
    assert outcome.exit_code == 0, outcome.output
    assert (tmp_path / "result" / "view_side.png").is_file()


def find_marks(figure):
    return {
        line.get_label(): line.get_xydata()[0]
        for axes in figure.axes
        for line in axes.lines
        if str(line.get_label()).startswith("hot spot")
    }


@pytest.mark.parametrize("place", range(4))
def test_marks_sit_where_the_result_says(shown, place):
    result = read_result(shown)
    rows = json.loads((shown / "result.json").read_text(encoding="utf-8"))["hot_spots"]
    view = list_viewpoints(result.shape)[place]
    figure = compose_view(result, view, FIELDS[0], "metric", Blank())
    marks = find_marks(figure)
    assert len(marks) == len(rows) == 3
    for number, row in enumerate(rows, 1):
        assert marks[f"hot spot {number}"] == pytest.approx(project_points(view.camera, np.array(row["loaded_m"])))
    # and in the dots of the picture
    figure.canvas.draw()
    image = np.asarray(figure.canvas.buffer_rgba())
    x, y = figure.axes[0].transData.transform(marks["hot spot 2"])
    wanted = [int(SPOT_COLOUR[i : i + 2], 16) for i in (1, 3, 5)]
    assert np.abs(image[round(image.shape[0] - y), round(x), :3].astype(int) - wanted).max() <= 3


@pytest.mark.parametrize("number", range(3))
def test_close_up_has_its_spot_in_the_middle_and_looks_square_at_the_cloth(shown_lying, number):
    result = read_result(shown_lying)
    spot = result.spots[number]
    view = view_spot(result.shape, number + 1, spot)
    assert view.frame.mean(axis=0) == pytest.approx(project_points(view.camera, np.array(spot.loaded)))
    corners = result.shape.points[result.shape.triangles]
    nearest = int(np.linalg.norm(corners.mean(1) - spot.loaded, axis=1).argmin())
    edges = np.diff(corners[nearest], axis=0)
    assert edges @ view.camera.eye == pytest.approx(0.0, abs=1e-9)
    assert view.camera.eye[2] < 0  # from below, where nobody lies


@GL
def test_colours_by_opengl_are_those_of_the_scale(shown):
    """From above, in the middles of triangles; marks, mesh lines, cords and folds hide some."""
    result = read_result(shown)
    view, look = list_viewpoints(result.shape)[2], make_look(result.shape, FIELDS[0], result.bar_shares)
    from matplotlib.figure import Figure

    figure = Figure((8, 5))
    axes = figure.add_axes((0, 0, 1, 1))
    low, high = view.frame.min(axis=0), view.frame.max(axis=0)
    axes.set_xlim(low[0], high[0])
    axes.set_ylim(low[1], low[1] + (high[0] - low[0]) * 5 / 8)
    Renderer(result.shape, graphics.find_screen()).draw(axes, view, look, 160)
    (image,) = axes.images
    dots = image.get_array()
    left, right, bottom, top = image.get_extent()
    seen = project_points(view.camera, result.shape.points[result.shape.triangles].mean(1))
    rows = ((top - seen[:, 1]) / (top - bottom) * dots.shape[0]).astype(int)
    columns = ((seen[:, 0] - left) / (right - left) * dots.shape[1]).astype(int)
    away = np.abs(dots[rows, columns, :3] - 255 * paint_cloth(result.shape, look)[:, :3]).max(axis=1)
    assert (away < 16).mean() > 0.8


@GL
def test_by_opengl_everything_comes_out_too(shown_lying, tmp_path, coarse):
    album = draw_album(shown_lying, tmp_path, field="pressure", units="metric")
    assert album.way == WAYS[graphics.find_screen()]
    assert len(album.files) == 7
    for file in album.files:
        assert 0.03 < (imread(file)[..., :3].min(-1) < 0.95).mean() < 0.8, file


@pytest.mark.parametrize(
    "killer", ["import os, signal; os.kill(os.getpid(), signal.SIGSEGV)", "print('nothing')", "raise SystemExit(1)"]
)
def test_a_child_that_dies_or_draws_nothing_means_no_graphics(monkeypatch, killer):
    monkeypatch.setattr(graphics, "_TRIAL", killer)
    monkeypatch.delenv(graphics.FORCED, raising=False)
    monkeypatch.setenv("DISPLAY", ":0")
    assert graphics._probe.__wrapped__(("egl", "osmesa", "display")) == "none"
    assert graphics._probe.__wrapped__(("display",)) == "none"


def test_ways_are_tried_in_order_and_the_answer_is_kept(monkeypatch):
    tried = []
    monkeypatch.setattr(graphics, "_draws", lambda way: tried.append(way) or way == "osmesa")
    monkeypatch.delenv(graphics.FORCED, raising=False)
    graphics._probe.cache_clear()
    try:
        assert [graphics.find_screen(), graphics.find_screen()] == ["osmesa"] * 2
        assert tried == ["egl", "osmesa"]
        assert graphics.find_screen(window=True) == "none"
        assert tried == ["egl", "osmesa", "display"]
    finally:
        graphics._probe.cache_clear()


def test_a_display_is_only_tried_where_there_is_one(monkeypatch):
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.delenv("DISPLAY", raising=False)
    monkeypatch.setattr(graphics.subprocess, "run", lambda *_, **__: pytest.fail("a child was started"))
    assert not graphics._draws("display")


@pytest.fixture
def no_graphics(monkeypatch):
    monkeypatch.setenv(graphics.FORCED, "none")


def test_no_window_is_a_sentence(shown, no_graphics):
    outcome = CliRunner().invoke(main, ["view", str(shown)])
    assert outcome.exit_code == 2
    assert outcome.stderr.startswith("No window can be opened here")
    assert outcome.stderr.count("\n") == 1
    with pytest.raises(DisplayError, match="No window can be opened here"):
        show(shown)


def test_a_notebook_gets_a_picture(shown, no_graphics, monkeypatch, coarse):
    monkeypatch.setitem(sys.modules, "ipykernel", object())
    picture = show(str(shown), field="weft", units="imperial")
    assert picture.format == "PNG"
    assert picture.size == (467, 330)


@pytest.mark.parametrize(
    ("damage", "sentence"),
    [
        (lambda folder: (folder / "result.json").unlink(), "has no result.json. Choose a folder"),
        (lambda folder: (folder / "result.json").write_text("{", encoding="utf-8"), "is damaged"),
        (lambda folder: (folder / "result.json").write_text("[]", encoding="utf-8"), "another version"),
        (
            lambda folder: change(folder, lambda found: found.pop("load_steps")),
            "another version: load_steps is missing",
        ),
        (
            lambda folder: change(folder, lambda found: found["hot_spots"][0].pop("thread")),
            r"another version: hot_spots\[0\].thread is missing",
        ),
        (lambda folder: change(folder, lambda found: found.update(checks=3)), "is damaged .checks is 3, not a list."),
        (
            lambda folder: change(folder, lambda found: found["forces"].update(head_line_N="strong")),
            "is damaged .forces.head_line_N is 'strong', not a number.",
        ),
        (lambda folder: (folder / "shape.vtu").unlink(), "shape.vtu cannot be read"),
        (lambda folder: (folder / "shape.vtu").write_text("<VTK", encoding="utf-8"), "not a VTU file"),
        (lambda folder: (folder / "load_step_0.vtu").unlink(), "load_step_0.vtu cannot be read"),
    ],
)
def test_what_is_no_result_is_one_sentence_and_exit_code_2(shown, tmp_path, damage, sentence):
    folder = tmp_path / "result"
    shutil.copytree(shown, folder)
    damage(folder)
    outcome = CliRunner().invoke(main, ["view", str(folder), "--pictures"])
    assert outcome.exit_code == 2, outcome.output
    assert outcome.stderr.count("\n") == 1
    assert re.search(sentence, outcome.stderr)
    assert not list(folder.glob("*.png"))


def change(folder, work):
    found = json.loads((folder / "result.json").read_text(encoding="utf-8"))
    work(found)
    (folder / "result.json").write_text(json.dumps(found), encoding="utf-8")


def test_a_file_is_no_folder(shown):
    with pytest.raises(ResultError, match=r"is a file\. Choose its folder\."):
        read_result(shown / "shape.vtu")


def test_load_steps_of_another_mesh_are_refused(shown, saddle, tmp_path):
    shutil.copytree(shown, tmp_path / "result")
    fewer = {
        item: getattr(saddle, item)[:-1]
        for item in ("triangles", "larger_stress", "smaller_stress", "direction", "state", "warp_share", "weft_share")
    }
    write_shape(dataclasses.replace(saddle, **fewer), tmp_path / "result" / "load_step_0.vtu")
    with pytest.raises(ResultError, match="of another mesh"):
        read_result(tmp_path / "result")


def test_pressure_needs_a_person(shown, tmp_path):
    outcome = CliRunner().invoke(main, ["view", str(shown), "--pictures", str(tmp_path), "--field", "pressure"])
    assert (outcome.exit_code, outcome.stderr.count("\n")) == (2, 1)
    assert "needs a person in contact" in outcome.stderr
    with pytest.raises(DisplayError, match=r"unknown field 'colour'\. Choose from larger-stress"):
        draw_album(shown, tmp_path, field="colour")


def test_names_on_the_command_line_are_those_of_the_fields():
    option = next(item for item in main.commands["view"].params if item.name == "field")
    assert list(option.type.choices) == list(NAMES)


@pytest.mark.parametrize(
    ("value", "metric", "imperial"), [(6894.757, "6.89 kPa", "1.00 psi"), (1000.0, "1.00 kPa", "0.145 psi")]
)
def test_pressure_in_both_units(value, metric, imperial):
    """1 psi = 6.894757 kPa: NIST SP 811 B.8."""
    assert show_value(NAMES["pressure"], value, "metric") == metric
    assert show_value(NAMES["pressure"], value, "imperial") == imperial


def test_every_scale_leaves_out_one_hundredth_of_the_area(lain):
    edges = np.diff(lain.points[lain.triangles], axis=1)
    areas = np.linalg.norm(np.cross(edges[:, 0], edges[:, 1]), axis=1)
    for field in list_fields(lain):
        end, most = find_scale(lain, field)
        values = take_values(lain, field)
        assert areas[values > end].sum() <= 0.01 * areas.sum()
        assert most == values.max()


def test_squares_grow_in_area_with_the_value(saddle):
    marks = place_marks(saddle, NAMES["warp"], find_scale(saddle, NAMES["warp"])[0])
    across, along = marks.corners[:, 2] - marks.corners[:, 0], marks.corners[:, 3] - marks.corners[:, 1]
    size = np.linalg.norm(np.cross(across, along), axis=1)
    middle = marks.corners.mean(1)
    nearest = [int(np.linalg.norm(saddle.points[saddle.triangles].mean(1) - at, axis=1).argmin()) for at in middle]
    ratio = size / saddle.warp_share[nearest]
    kept = saddle.warp_share[nearest] <= find_scale(saddle, NAMES["warp"])[0]
    assert ratio[kept] == pytest.approx(ratio[kept][0], rel=1e-9)


def test_strokes_lie_along_the_larger_tension(saddle):
    """And for the smaller stress square to it."""
    for key, cosine in (("direction", 1.0), ("smaller-stress", 0.0)):
        marks = place_marks(saddle, NAMES[key], find_scale(saddle, NAMES[key])[0])
        runs = marks.corners[:, 0] - marks.corners[:, 2]
        length = np.linalg.norm(runs, axis=1)
        strokes = np.linalg.norm(marks.corners[:, 1] - marks.corners[:, 3], axis=1) < 0.005
        assert strokes.sum() > 50
        share = np.abs(runs[strokes] @ saddle.direction[0]) / length[strokes]
        assert share == pytest.approx(cosine, abs=1e-6)


def test_bars_under_half_the_thrust_show_half_the_share(saddle):
    look = make_look(saddle, FIELDS[0], {CellTag.HEAD_BAR: 0.4})
    (thrust,) = saddle.force[saddle.part == CellTag.HEAD_BAR]
    assert find_bar_share(int(CellTag.HEAD_BAR), thrust / 2, look) == pytest.approx(0.2)
    assert find_bar_share(int(CellTag.FOOT_BAR), thrust, look) is None


def test_share_of_a_bar_is_that_of_its_lowest_factor(shown):
    result = read_result(shown)
    checks = json.loads((shown / "result.json").read_text(encoding="utf-8"))["checks"]
    for bar in BARS:
        least = min(row["safety_factor_found"] or np.inf for row in checks if row["part"] == bar.title)
        assert result.bar_shares[bar] == pytest.approx(1 / least)


def test_ghost_is_the_empty_hammock_or_the_cloth_as_cut(shown, shown_lying):
    """Laid flat no length changes; the rim goes once round."""
    with_steps, without = read_result(shown), read_result(shown_lying)
    assert find_ghost(with_steps).words == EMPTY
    assert np.array_equal(find_ghost(with_steps).points, with_steps.stages[0].shape.points)
    assert find_ghost(without).words == FLAT
    flat = lay_flat(without.shape)
    rows = without.shape.triangles
    lengths = [np.linalg.norm(np.diff(points[rows], axis=1), axis=2) for points in (flat, without.shape.flat)]
    assert lengths[0] == pytest.approx(lengths[1])
    rim = find_rim(rows)
    assert rim[0] == rim[-1]
    assert len(np.unique(rim)) == len(rim) - 1 == 2 * (60 + 36)


def test_skin_of_a_ball_is_a_sphere():
    low, depth = measure_depth(Balls(np.array([[0.3, -0.2, 1.0]]), np.array([0.1])))
    at = np.stack(np.meshgrid(*(np.arange(count) * 0.012 for count in depth.shape), indexing="ij"), -1) + low
    away = np.linalg.norm(at - [0.3, -0.2, 1.0], axis=-1)
    near = away < 0.119
    assert depth[near] == pytest.approx(0.1 - away[near], abs=1e-9)
    assert depth[~near].max() <= -0.019


def test_skin_does_not_go_through_the_cloth(lain):
    import pyvista

    assert make_skin(dataclasses.replace(lain, occupant=None)) is None
    ball = pyvista.Sphere(radius=0.03, center=lain.points[lain.triangles[1000]].mean(axis=0))
    flat = flatten_skin(ball, lain)
    cloth = pyvista.PolyData.from_regular_faces(lain.points, lain.triangles)
    below = flat.compute_implicit_distance(cloth)["implicit_distance"]
    before = ball.compute_implicit_distance(cloth)["implicit_distance"]
    up = np.sign(lain.points[:, 2].max() - 0.5)
    assert (up * before).min() < -0.02
    assert (up * below).min() > 0.0
