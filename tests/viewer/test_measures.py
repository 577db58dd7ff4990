"""The drawings of a design show each of its lengths and angles once, with its key and value, and no label on another."""

import itertools
import re
from importlib.resources import files
from pathlib import Path
from random import Random
from xml.etree import ElementTree

import pytest
from click.testing import CliRunner

from tautlay.cases import read_design
from tautlay.cases.command.cli import main
from tautlay.cases.unit_display import show_quantity
from tautlay.cases.written_sizes import list_sizes
from tautlay.viewer import draw_measures
from tautlay.viewer.measures.list_views import list_views
from tautlay.viewer.measures.placed_view import RADIUS, WIDTH, place_view
from tautlay.viewer.measures.png_sheet import paint_sheets
from tautlay.viewer.measures.svg_sheet import embed_sheets
from tautlay.viewer.measures.view_sheet import SheetText, lay_out_view
from tautlay.viewer.measures.view_style import KIND_STYLES

from ..attack._sane_designs import draw_design

CASES = files("tautlay.cases")
FERN = Path(__file__).parents[2] / "docs" / "reference" / "fern_hollow.toml"
DESIGNS = [*(CASES / f"{name}.toml" for name in ("starter", "larch_ridge", "otter_creek", "heron_ford")), FERN]


@pytest.fixture(scope="module", params=DESIGNS, ids=lambda path: path.stem)
def design(request):
    return read_design(request.param)


def read_words(svg):
    return [
        " ".join("".join(each.itertext()).split())
        for each in ElementTree.parse(svg).iter()
        if each.tag.endswith("text")
    ]


def find_overlaps(figure):
    """Return pairs of words of a figure whose boxes overlap, and words that leave it."""
    (axes,) = figure.axes
    renderer = figure.canvas.get_renderer()
    boxes = [(text.get_text(), text.get_window_extent(renderer)) for text in axes.texts]
    sheet = figure.bbox
    out = [words for words, box in boxes if box.x0 < sheet.x0 or box.x1 > sheet.x1 or box.y0 < sheet.y0]
    return out + [
        (words, others)
        for (words, box), (others, other) in itertools.combinations(boxes, 2)
        if min(box.x1, other.x1) - max(box.x0, other.x0) > 0.5 and min(box.y1, other.y1) - max(box.y0, other.y0) > 1.5
    ]


def lay_out(design, units="both"):
    return [lay_out_view(view, lambda row: row.write(units)) for view in list_views(design)]


def test_every_length_and_angle_of_the_file_stands_in_one_drawing(design):
    shown = [key for view in list_views(design) for key in view.keys]
    bars = [f"{end}_bar.length" for end in ("head", "foot")]  # seen from above and by themselves
    assert sorted(shown) == sorted([*list_sizes(design), *bars])


@pytest.mark.parametrize("units", ["metric", "imperial", "both"])
def test_each_stands_with_its_value(tmp_path, units):
    design = read_design(FERN)
    draw_measures(design, tmp_path / "m.svg", units=units)
    words = read_words(tmp_path / "m.svg")
    for key, size in list_sizes(design).items():
        value = show_quantity(size.value, size.dimension, units, 3 if size.dimension == "length" else 2)
        assert words[words.index(key) + 1] == value


def test_no_label_lies_on_another(design):
    assert find_overlaps(paint_sheets(design.name, lay_out(design))) == []


def test_labels_on_each_other_are_found():
    sheet = lay_out(read_design(DESIGNS[0]))[0]
    number = next(part for part in sheet.parts if isinstance(part, SheetText) and part.kind == "number")
    doubled = sheet._replace(parts=(*sheet.parts, number))
    assert find_overlaps(paint_sheets("doubled", [doubled])) == [(number.text, number.text)]


SOUND = [0, 1, 2, 3, 4, 6, 7, 8, 9]  # seeds; the legs of 5 are shorter than half its bar


@pytest.mark.parametrize("seed", SOUND)
def test_numbers_keep_apart_on_any_design(tmp_path, seed):
    path = tmp_path / "random.toml"
    path.write_text(draw_design(Random(seed)), encoding="utf-8")
    for view in list_views(read_design(path)):
        placed = place_view(view)
        for one, other in itertools.combinations(placed.balloons, 2):
            assert abs(complex(*one.at) - complex(*other.at)) > 2 * RADIUS, view.name
        for (x, y), _, _ in placed.balloons:
            assert RADIUS <= x <= WIDTH - RADIUS
            assert RADIUS <= y <= placed.height - RADIUS


def test_every_line_has_a_look(design):
    assert {line.kind for view in list_views(design) for line in view.lines} <= set(KIND_STYLES)


def test_sizes_are_to_scale(design):
    flat = next(view for view in list_views(design) if view.name == "flat")
    body = design.hammock.body
    lengths = {span.keys[0]: abs(complex(*span.end) - complex(*span.start)) for span in flat.spans}
    assert lengths["body.length"] == pytest.approx(body.length)
    assert lengths["foot_bar.length"] == pytest.approx(design.hammock.foot_bar.length)
    depths = {round(abs(span.end[1] - span.start[1]), 4) for span in flat.spans if "arc.depth" in span.keys[0]}
    assert depths == {round(body.left_arc.depth, 4), round(body.right_arc.depth, 4)}


def test_a_page_is_told_what_a_drawing_shows(design):
    drawn = list(embed_sheets(lay_out(design)))
    assert 'aria-label="The flat body from above: body.length' in drawn[0]
    assert [each.count("<style>") for each in drawn] == [1] + [0] * (len(drawn) - 1)
    for each in drawn:
        ElementTree.fromstring(each)


@pytest.mark.parametrize("suffix", ["svg", "png"])
def test_the_same_design_gives_the_same_bytes(tmp_path, suffix):
    design = read_design(DESIGNS[0])
    for name in ("a", "b"):
        draw_measures(design, tmp_path / f"{name}.{suffix}")
    assert (tmp_path / f"a.{suffix}").read_bytes() == (tmp_path / f"b.{suffix}").read_bytes()


def test_a_name_is_harmless(tmp_path):
    text = DESIGNS[0].read_text(encoding="utf-8").replace('"My hammock"', "'<script>&\"$x$'")
    path = tmp_path / "odd.toml"
    path.write_text(text, encoding="utf-8")
    design = read_design(path)
    draw_measures(design, tmp_path / "m.svg")
    assert '<script>&"$x$: measures' in read_words(tmp_path / "m.svg")
    title = paint_sheets(design.name, lay_out(design)[:1]).axes[0].texts[0]
    assert title.get_text() == r'<script>&"\$x\$: measures'


def test_the_command_replaces_its_own_drawing_and_nothing_else(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    runner, larch = CliRunner(), CASES / "larch_ridge.toml"
    for name in ("larch_ridge.svg", "m.png"):
        arguments = ["draw", str(larch)] if name.endswith("svg") else ["draw", str(larch), "-o", name]
        for _ in range(2):
            assert runner.invoke(main, arguments).output == f"Written to {name}\n"
    (tmp_path / "mine.svg").write_text("<svg/>", encoding="utf-8")
    refused = runner.invoke(main, ["draw", str(larch), "-o", "mine.svg"])
    assert refused.exit_code == 2
    assert (tmp_path / "mine.svg").read_text(encoding="utf-8") == "<svg/>"
    wrong = runner.invoke(main, ["draw", str(larch), "-o", "m.gif"])
    assert wrong.exit_code == 2
    assert re.search(r"m\.gif must end in \.svg or \.png", wrong.output)
