import dataclasses
import re

import numpy as np
import pytest
from matplotlib import colormaps
from matplotlib.collections import LineCollection
from matplotlib.colors import to_hex
from matplotlib.figure import Figure
from matplotlib.image import imread

from tautlay.cases.display.headings import write_heading
from tautlay.cases.judging.comfort.cloth_slice import cut_cloth, find_slope
from tautlay.cases.result_record import DesignHeader, ResultRecord
from tautlay.cases.storage.atomic import write_json
from tautlay.cases.storage.result_json import ResultError, encode_result
from tautlay.cases.storage.shape import CellTag, Occupant, write_shape
from tautlay.cases.storage.vtu import VtuError
from tautlay.hammock import LoadCase
from tautlay.viewer import draw_shape
from tautlay.viewer.camera import aim_camera, project_points
from tautlay.viewer.cloth import draw_cloth
from tautlay.viewer.field import find_scale
from tautlay.viewer.field_list import FIELDS
from tautlay.viewer.legend_words import BAR_TITLE, CORDS
from tautlay.viewer.look import BAR_COLOUR, ColourScheme
from tautlay.viewer.mannequin import Balls, shape_mannequin
from tautlay.viewer.person import HIDDEN, SEEN, draw_person
from tautlay.viewer.picture import compose_sheet as compose
from tautlay.viewer.raster import frame_balls, look_at_balls, measure_cover
from tautlay.viewer.section import draw_section
from tautlay.viewer.view import TREE_COLOUR, Inset, find_trees, fit_view

from .._records import make_record
from ._sheet_words import list_words, read_sheet


def compose_sheet(shape, name, units="both", **load):
    return compose(shape, write_heading(name, **load), units)


@pytest.mark.parametrize("who", ["saddle", "lain"])
@pytest.mark.parametrize("scale", [1.0, 40.0])
def test_no_words_are_cut_off_or_cover_each_other(request, who, scale):
    shape = request.getfixturevalue(who)
    strong = dataclasses.replace(shape, force=shape.force * scale, larger_stress=shape.larger_stress * scale)
    name = "A name of the greatest length that a design may have, seventy of them!"
    assert len(name) == 70
    longest = max(LoadCase, key=lambda load: len(write_heading(name, load, 2.25).title))
    heading = write_heading(name, longest, 2.25)
    figure = compose(strong, heading, bar_shares={CellTag.HEAD_BAR: 0.4, CellTag.FOOT_BAR: 1.2})
    read_sheet(figure)


@pytest.mark.parametrize("who", ["saddle", "lain"])
@pytest.mark.parametrize("reach", [1.9, 2.4, 4.0])
def test_no_words_cover_a_tree(request, who, reach):
    shape = request.getfixturevalue(who)
    points = shape.points.copy()
    points[-2:, 0] = [-reach, reach]
    figure = compose_sheet(dataclasses.replace(shape, points=points), "Saddle")
    words = list(list_words(figure))
    posts = list_posts(figure)
    assert len(posts) == 2
    for post in posts:
        box = post.get_window_extent()
        assert [word for word, place in words if place.overlaps(box)] == []


def list_posts(figure):
    """Return the trunks that are drawn."""
    return [each for axes in figure.axes for each in axes.patches if to_hex(each.get_facecolor()) == TREE_COLOUR]


def test_trunks_are_as_thick_as_they_are(saddle):
    """60 and 18 cm, to the scale of the view; where no girth is told 18 cm."""
    trunk = np.zeros(len(saddle.points))
    trunk[-2:] = (0.60, 0.18)
    told, untold = (
        list_posts(compose_sheet(shape, "Saddle")) for shape in (dataclasses.replace(saddle, trunk=trunk), saddle)
    )
    assert sorted(abs(post.get_width()) for post in told) == pytest.approx([0.18, 0.60])
    assert [abs(post.get_width()) for post in untold] == pytest.approx([0.18, 0.18])
    for post in told:  # the line ends on the bark, the trunk lies beyond
        assert post.get_x() * post.get_width() > 0


def test_labels_tell_the_forces_in_both_units(saddle):
    words = " ".join(word for word, _ in list_words(compose_sheet(saddle, "Saddle")))
    # 441 N is 99.1 lbf, 705 N is 158 lbf: NIST SP 811 B.8
    for wanted in ("thrust 441 N (99.1 lbf)", "705 N (158 lbf)", "left 402 N", "max 331 N", "N/m", "lbf/in"):
        assert wanted in words


@pytest.mark.parametrize(("who", "count"), [("saddle", 3), ("lain", 4)])
def test_every_view_has_one_scale_both_ways(request, who, count):
    figure = compose_sheet(request.getfixturevalue(who), "Saddle")
    views = [axes for axes in figure.axes if not axes.axison and axes.get_label() not in (CORDS, BAR_TITLE)]
    assert len(views) == count
    for axes in views:
        box = axes.get_window_extent()
        across = box.width / np.ptp(axes.get_xlim())
        assert across == pytest.approx(box.height / np.ptp(axes.get_ylim()), rel=1e-9)


def test_picture_is_written_and_not_blank(saddle, tmp_path):
    write_shape(saddle, tmp_path / "shape.vtu")
    draw_shape(tmp_path, tmp_path / "shape.png", title="Costs $5 & more_or_less")
    image = imread(tmp_path / "shape.png")
    assert image.shape[0] > 1000
    assert 0.1 < (image[..., :3].min(-1) < 0.99).mean() < 0.5
    assert sorted(path.name for path in tmp_path.iterdir()) == ["shape.png", "shape.vtu"]


@pytest.mark.parametrize("who", ["saddle", "lain"])
def test_colours_of_the_scale_are_kept_in_the_file(request, tmp_path, who):
    """Up the middle of the scale no colour is off by more than half a step of the 96 that are kept."""
    shape = request.getfixturevalue(who)
    write_shape(shape, tmp_path / "shape.vtu")
    draw_shape(tmp_path, tmp_path / "shape.png", title="Saddle")
    image = imread(tmp_path / "shape.png")[..., :3]
    (bar,) = [axes for axes in compose_sheet(shape, "Saddle").axes if axes.axison]
    box = bar.get_position()
    column = image[:, round((box.x0 + box.x1) / 2 * image.shape[1])]
    rows = np.round((1 - np.linspace(box.y0, box.y1, 300)[5:-40]) * len(column)).astype(int)  # clear of its arrow
    wanted = colormaps["viridis"](np.linspace(0, 1, 256))[:, :3]
    away = np.abs(column[rows][:, None] - wanted).max(axis=2).min(axis=1)
    assert away.max() < 0.02
    assert len(np.unique(column[rows], axis=0)) > 70
    assert (image[0, 0] == 1.0).all()  # the paper is white


def test_heading_comes_from_the_result(saddle, tmp_path, monkeypatch):
    seen = []
    monkeypatch.setattr(
        "tautlay.viewer.picture.compose_sheet",
        lambda shape, heading, units, bars: seen.append(heading.title) or compose(shape, heading, units, bars),
    )
    write_shape(saddle, tmp_path / "shape.vtu")
    draw_shape(tmp_path / "shape.vtu", tmp_path / "a.png")
    record = make_record(ResultRecord, design=DesignHeader("Larch", "", "a.toml", LoadCase.SUDDEN, 2.5))
    write_json(tmp_path / "result.json", encode_result(record))
    for title in (None, "Larch Rim"):
        draw_shape(tmp_path, tmp_path / "a.png", title=title)
    assert seen == [
        "shape: loaded shape",
        "Larch: loaded shape, sudden, 2.5 x weight",
        "Larch Rim: loaded shape, sudden, 2.5 x weight",
    ]


def test_a_foreign_result_beside_a_shape_is_one_sentence(saddle, tmp_path):
    write_shape(saddle, tmp_path / "shape.vtu")
    (tmp_path / "result.json").write_text('{"design": {"name": "Larch"}}', encoding="utf-8")
    with pytest.raises(ResultError, match=r"result\.json is of another version: "):
        draw_shape(tmp_path, tmp_path / "a.png")


def test_missing_shape_is_one_sentence(tmp_path):
    with pytest.raises(VtuError, match=r"shape\.vtu cannot be read"):
        draw_shape(tmp_path, tmp_path / "a.png")
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize(
    ("azimuth", "right", "eye"),
    [(0, [0, 1, 0], [1, 0, 0]), (-90, [1, 0, 0], [0, -1, 0])],
)
def test_camera_looks_from_where_it_is_said(azimuth, right, eye):
    camera = aim_camera(azimuth, 0)
    assert camera.right == pytest.approx(right, abs=1e-15)
    assert camera.eye == pytest.approx(eye, abs=1e-15)
    assert camera.top == pytest.approx([0, 0, 1], abs=1e-15)


def test_projection_keeps_lengths_across_the_view():
    camera = aim_camera(-62, 30)
    axes = np.stack(camera)
    assert axes @ axes.T == pytest.approx(np.eye(3), abs=1e-15)
    assert project_points(camera, 3 * camera.right + 2 * camera.top + 7 * camera.eye) == pytest.approx([3, 2])


def test_trees_stand_where_the_lines_end(saddle):
    trees = find_trees(saddle)
    lines = np.isin(saddle.part, [CellTag.HEAD_LINE, CellTag.FOOT_LINE])
    assert trees == pytest.approx(saddle.points[saddle.segments[lines][:, 1]])


def test_scale_of_colours_leaves_out_one_hundredth_of_the_area(saddle):
    end, most = find_scale(saddle, FIELDS[0])
    edges = np.diff(saddle.points[saddle.triangles], axis=1)
    areas = np.linalg.norm(np.cross(edges[:, 0], edges[:, 1]), axis=1)
    assert areas[saddle.larger_stress > end].sum() <= 0.01 * areas.sum()
    assert most == saddle.larger_stress.max()


@pytest.mark.parametrize(("largest", "end"), [(0.2, 1), (446.0, 500), (500.0, 500), (501.0, 1000), (1283.0, 2000)])
def test_scale_of_colours_ends_at_a_round_number_and_says_it(saddle, largest, end):
    even = dataclasses.replace(saddle, larger_stress=np.full_like(saddle.larger_stress, largest))
    assert find_scale(even, FIELDS[0])[0] == end
    words = [word for word, _ in list_words(compose_sheet(even, "Saddle", "metric"))]
    said = f"{end} N/m"
    assert f"colours from 0\nto {said}" in words
    assert said in words  # the top mark


@pytest.mark.parametrize(("units", "foreign"), [("imperial", r"\b(N|N/m|m|cm)\b"), ("metric", r"\b(lbf|lbf/in|in)\b")])
def test_words_follow_the_units(saddle, units, foreign):
    words = " ".join(word for word, _ in list_words(compose_sheet(saddle, "Saddle", units)))
    assert re.findall(rf"[0-9] {foreign}", words) == []
    assert {"imperial": "thrust 99.1 lbf", "metric": "thrust 441 N"}[units] in words
    assert {"imperial": "24 in", "metric": "0.5 m"}[units] in words


@pytest.mark.parametrize(("lift", "wanted"), [(0.0, "45.0 cm above the ground"), (-0.77, "32.0 cm BELOW the ground")])
def test_height_is_said_in_words(saddle, lift, wanted):
    points = saddle.points - [0, 0, saddle.points[:, 2].min() - 0.45 - lift]
    moved = dataclasses.replace(saddle, points=points)
    words = " ".join(word for word, _ in list_words(compose_sheet(moved, "Saddle", "metric")))
    assert f"lowest point {wanted}" in words


def test_bars_are_seen_from_their_ends_in_the_side_view(saddle):
    axes = compose_sheet(saddle, "Saddle").axes[1]
    (dots,) = [line for line in axes.lines if line.get_color() == BAR_COLOUR]
    bars = saddle.points[saddle.segments[np.isin(saddle.part, [CellTag.HEAD_BAR, CellTag.FOOT_BAR])]].reshape(-1, 3)
    assert dots.get_xydata() == pytest.approx(bars[:, [0, 2]])


@pytest.mark.parametrize(("state", "extra"), [(2, 0), (1, 1), (0, 1)])
def test_wrinkled_and_slack_cloth_carries_a_mark(saddle, state, extra):
    one = slice(0, 1)
    piece = dataclasses.replace(
        saddle,
        triangles=saddle.triangles[one],
        larger_stress=saddle.larger_stress[one],
        direction=saddle.direction[one],
        state=np.array([state]),
    )
    axes = Figure().add_subplot()
    draw_cloth(axes, piece, aim_camera(0, 40), ColourScheme(FIELDS[0], 1.0, 1.0, 1.0, {}))
    assert len(axes.collections[0].get_paths()) == 1 + extra


@pytest.mark.parametrize(("load", "title", "meaning"), [
    ("distributed", "spread weight", "lying on the back, spread over the cloth"),
    ("lying", "lying", "in contact with cloth: smooth for who"),
    ("sitting", "sitting across", "spread weight of a person who sits facing left, feet over the left side"),
    ("sudden", "sudden, 2 x weight", "a drop needs more"),
])  # fmt: skip
def test_heading_states_the_load(saddle, load, title, meaning):
    words = [word for word, _ in list_words(compose_sheet(saddle, "Saddle", load=LoadCase(load), factor=2.0))]
    assert f"Saddle: loaded shape, {title}" in words
    assert any(meaning in word for word in words)
    assert load in list(LoadCase)


@pytest.mark.parametrize(("units", "unit"), [("metric", 1.0), ("both", 1.0), ("imperial", 4.4482216152605 / 0.0254)])
@pytest.mark.parametrize("most", [70.0, 900.0, 4000.0])
def test_marks_of_the_scale_are_round_in_the_units_shown(saddle, units, unit, most):
    """Lbf/in: NIST SP 811 B.8. Round: the end is 1, 2 or 5 times a power of ten, the marks are even parts of it."""
    shape = dataclasses.replace(saddle, larger_stress=saddle.larger_stress * most / saddle.larger_stress.max())
    (bar,) = [axes for axes in compose_sheet(shape, "Saddle", units).axes if axes.axison]
    end, ticks = bar.get_ylim()[1] / unit, bar.get_yticks() / unit
    assert float(f"{end:.6e}"[:8]) in (1.0, 2.0, 5.0)
    assert ticks[[0, -1]] == pytest.approx([0.0, end])
    step = np.diff(ticks)
    assert step == pytest.approx(np.full(len(step), step[0]))
    assert float(f"{step[0]:.6e}"[:8]) in (1.0, 2.0, 2.5, 5.0)
    assert len(ticks) >= 5
    words = [label.get_text().split()[:2] for label in bar.get_yticklabels()]
    shown = [float(number) for number, _ in words]
    assert shown == pytest.approx(list(ticks), rel=0.03)


def find_images(figure):
    return [image for axes in figure.axes for image in axes.images if axes.get_label() not in (CORDS, BAR_TITLE)]


def test_only_a_person_in_contact_is_drawn(saddle, lain):
    assert find_images(compose_sheet(saddle, "Saddle")) == []
    figure = compose_sheet(lain, "Saddle")
    main, foot = find_images(figure)
    assert (main.axes, foot.axes) == (figure.axes[0], figure.axes[2])
    words = " ".join(word for word, _ in list_words(figure))
    for wanted in ("person, paler behind\ncloth", "drawn, not computed", "cut at the shoulders"):
        assert wanted in words
    assert "person" not in " ".join(word for word, _ in list_words(compose_sheet(saddle, "Saddle")))


def test_person_is_paler_behind_the_near_side_of_the_cloth(lain):
    """Seen from the occupant's right, a shin lies behind the cloth on that side, and from above before it."""
    (shank,) = lain.occupant.axes[lain.occupant.part == CellTag.RIGHT_SHANK]
    for camera, opacity in ((aim_camera(-90, 0), HIDDEN), (aim_camera(-90, 90), SEEN)):
        axes = Figure((6, 4)).add_axes((0, 0, 1, 1))
        fit_view(axes, project_points(camera, lain.points), Inset())
        draw_person(axes, lain, camera, 100)
        (image,) = axes.images
        left, right, bottom, top = image.get_extent()
        x, y = project_points(camera, shank.mean(0))
        rows, columns = image.get_array().shape[:2]
        spot = image.get_array()[int((y - bottom) / (top - bottom) * rows), int((x - left) / (right - left) * columns)]
        assert spot[3] == pytest.approx(opacity, abs=0.02)


def test_nearest_skin_is_that_of_the_hull_of_two_balls():
    """A cone of revolution that touches both balls; its height over the axis by similar triangles."""
    occupant = Occupant(
        np.array([[[0.0, 0, 0], [1.0, 0, 0]]]), np.array([[0.2, 0.1]]), np.array([int(CellTag.LEFT_THIGH)]), np.zeros(1)
    )
    balls = shape_mannequin(occupant)
    screen = frame_balls(aim_camera(-90, 90), balls, 0.01)  # from above
    depth, _ = look_at_balls(screen, balls)
    across, up = screen.middles
    row = depth[np.argmin(np.abs(up))]
    sine = 0.1  # difference of the radii over the distance
    inside = (across > 0.1) & (across < 0.9)
    expected = (0.2 - sine * across[inside]) / np.sqrt(1 - sine**2)
    assert row[inside] == pytest.approx(expected, abs=6e-4)  # a square lies half its side beside the axis
    assert across[row > -1].min() == pytest.approx(-0.2, abs=0.01)
    assert across[row > -1].max() == pytest.approx(1.1, abs=0.01)


def test_outline_of_a_ball_is_a_circle():
    ball = Balls(np.zeros((1, 3)), np.array([0.1]))
    screen = frame_balls(aim_camera(0, 0), ball, 0.004)
    away = np.hypot(*np.meshgrid(*screen.middles))
    inside = measure_cover(screen, ball)
    assert np.array_equal(inside > 0, away < 0.1)


def test_feet_stand_up_at_the_heels_and_toes_point_out(lain):
    balls, feet = shape_mannequin(lain.occupant), {}
    for shank in (CellTag.LEFT_SHANK, CellTag.RIGHT_SHANK):
        (axis,) = lain.occupant.axes[lain.occupant.part == shank]
        beyond = balls.middle[
            (balls.middle[:, 0] > axis[1, 0] - 0.01) & (np.sign(balls.middle[:, 1]) == np.sign(axis[1, 1]))
        ]
        feet[shank] = beyond[beyond[:, 2].argmax()] - axis[1]
    assert 0.12 < feet[CellTag.LEFT_SHANK][2] < 0.25
    assert feet[CellTag.LEFT_SHANK][1] > 0 > feet[CellTag.RIGHT_SHANK][1]


def test_folded_forearms_lie_on_the_belly(lain):
    arms = (CellTag.LEFT_FOREARM, CellTag.RIGHT_FOREARM)
    kept = ~np.isin(lain.occupant.part, arms)
    names = ("axes", "radii", "part")
    folded = dataclasses.replace(lain.occupant, **{name: getattr(lain.occupant, name)[kept] for name in names})
    (waist,) = lain.occupant.axes[lain.occupant.part == CellTag.WAIST]

    def find_highest(occupant):
        middle = shape_mannequin(occupant).middle
        over = (np.abs(middle[:, 1]) < 0.05) & (np.abs(middle[:, 0] - waist[0, 0]) < 0.03)
        return middle[over, 2].max()

    assert find_highest(folded) > waist[0, 2] + 0.08 > find_highest(lain.occupant)


def test_section_shows_the_angle_that_the_formula_gives(lain):
    """A trough of two planes at 30 degrees each: 60 degrees between them."""
    y = np.linspace(-0.4, 0.4, 41)
    points = np.array([[x, across, np.tan(np.radians(30)) * abs(across) + 0.5] for x in (-0.7, -0.5) for across in y])
    a = np.arange(40)
    triangles = np.concatenate([np.stack([a, a + 41, a + 1], 1), np.stack([a + 1, a + 41, a + 42], 1)])
    section = cut_cloth(points, triangles, -0.6)
    assert section.line[[0, -1]] == pytest.approx(points[[0, 40], 1:])
    slopes = [np.degrees(find_slope(section, side * 0.16)) for side in (1, -1)]
    assert slopes == pytest.approx([30, -30])
    pressed = dataclasses.replace(lain.occupant, pressure=np.zeros(len(triangles)))
    shape = dataclasses.replace(lain, points=points, triangles=triangles, occupant=pressed)
    figure = Figure((4, 3))
    draw_section(figure.add_axes((0, 0, 1, 1)), shape, "metric")
    words = [text.get_text() for text in figure.axes[0].texts]
    assert "shoulder wrap angle\n60.0 deg" in words


def test_section_draws_pressed_cloth_thicker(lain):
    figure = Figure((4, 3))
    draw_section(figure.add_axes((0, 0, 1, 1)), lain, "metric")
    lines = [found for found in figure.axes[0].collections if isinstance(found, LineCollection)]
    loose, pressed = sorted(lines, key=lambda found: found.get_linewidth()[0])
    middles = [np.abs(np.mean(found.get_segments(), axis=1)[:, 0]) for found in (loose, pressed)]
    assert middles[0].min() > 0.18 > 0.1 > middles[1].min()  # the fixture presses within 0.2 m of the middle
    assert middles[1].max() < 0.22


def test_cut_where_there_is_no_cloth_is_refused(lain):
    with pytest.raises(ValueError, match="no cloth at x = 9 m"):
        cut_cloth(lain.points, lain.triangles, 9)
