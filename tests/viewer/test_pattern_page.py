"""The page to sew from: its words and tables, and in a real browser, opened from a file without network."""

import re

import numpy as np
import pytest
import shapely

from tautlay.cases import draft_pattern, read_design
from tautlay.cutting.lay_drawing import find_arrow
from tautlay.hammock.outline import draw_outline
from tautlay.viewer import write_pattern_page
from tautlay.viewer.pattern_page.marks import tell_crosses, tell_notches
from tautlay.viewer.pattern_page.offsets import tabulate_offsets
from tautlay.viewer.pattern_page.page import compose_pattern_page
from tautlay.viewer.pattern_page.piece_plot import list_copies
from tautlay.viewer.report.wording import mark_sentence

from .._patterns import NAMES, write_design
from ._browser import choose, needs_axe, needs_browser, run_axe, settle, visit

MM = 1e-3


@pytest.fixture(scope="module")
def patterns(tmp_path_factory):
    folder = tmp_path_factory.mktemp("designs")
    return {name: draft_pattern(read_design(write_design(folder, name))) for name in NAMES}


@pytest.fixture(scope="module")
def pages(patterns):
    return {name: compose_pattern_page(pattern) for name, pattern in patterns.items()}


@pytest.mark.parametrize("name", NAMES)
def test_page_tells_what_to_buy_to_cut_and_to_sew(patterns, pages, name):
    page, pattern = pages[name], patterns[name]
    for piece in pattern.pieces:
        assert f"<h3>{piece.name}: cut {piece.number}" in page
    for cloth in pattern.shopping.cloth:
        assert cloth.buy("metric") in page
        assert cloth.buy("imperial") in page
    for join in pattern.joins:
        assert f'<th scope="row">{join.name}</th>' in page
    for note in pattern.check():
        assert mark_sentence(note.sentence) in page
    assert page.count("Try before the next step") == len(re.findall(r"<h3><label>", page)) >= 4
    assert f'data-units="{pattern.design.units}"' in page


@pytest.mark.parametrize("name", NAMES)
def test_offsets_lie_on_the_curves(patterns, name):
    """Whole or half millimetres, sixteenths of an inch; the cut is its allowance away, square to the edge."""
    pattern = patterns[name]
    outline, body = draw_outline(pattern.design.hammock.body), pattern.design.hammock.body
    for system, unit, fine in (("metric", MM, 0.25 * MM), ("imperial", 0.0254, 0.0254 / 32)):
        table = tabulate_offsets(pattern.draft, system)
        values = np.array([[read_number(cell) for cell in row] for row in table.rows]) * unit
        assert values[-1, 0] == pytest.approx(body.length, abs=fine)
        assert np.diff(values[:-1, 0]) == pytest.approx(0.1 if system == "metric" else 4 * 0.0254)
        assert values[:, 1] == pytest.approx(outline.left.place(values[:, 0]), abs=fine + 0.1 * MM)
        right = 1 if len(table.headings) == 3 else 3
        assert values[:, right] == pytest.approx(-outline.right.place(values[:, 0]), abs=fine + 0.1 * MM)
        allowance = next(e for p in pattern.pieces for e in p.edges if e.name == "left").allowance
        steep = 1 / np.cos(np.arctan(np.abs(outline.left.curve.slope(values[:, 0]))))
        assert values[:, 2] - values[:, 1] == pytest.approx(allowance * steep, abs=2 * fine + 2 * MM)


def read_marks(markup, system):
    """Return the numbers of a list of marks, m."""
    words = re.search(rf'"q-{system[0]}">([^<]*)<', markup)[1].rpartition("\N{NO-BREAK SPACE}")[0]
    unit = MM if system == "metric" else 0.0254
    lists = [[read_signed(each) * unit for each in re.split(r",\s*", pair)] for pair in words.split("; ")]
    return lists[0] if len(lists) == 1 else lists


def read_signed(text):
    return -read_number(text[1:]) if text.startswith("-") else read_number(text)


@pytest.mark.parametrize("name", NAMES)
def test_copies_on_the_cloth_are_numbered_and_named_below(patterns, pages, name):
    for lay in patterns[name].lays:
        copies = list_copies(lay)
        assert f"{copies}." in pages[name]
        assert [int(each.split()[0]) for each in copies.split("; ")] == list(range(1, len(lay.laid) + 1))
        for each, words in zip(lay.laid, copies.split("; "), strict=True):
            assert each.piece.name in words
            assert ("turned over" in words) == each.turned_over
            middle, reach = find_arrow(each)
            arrow = shapely.LineString(middle + reach * np.outer([-1, 1], [np.cos(each.warp), np.sin(each.warp)]))
            assert shapely.Polygon(each.boundary).contains(arrow)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize(("system", "fine"), [("metric", 0.25 * MM), ("imperial", 0.0254 / 32)])
def test_every_notch_and_cross_can_be_marked_with_a_rule(patterns, pages, name, system, fine):
    for piece in patterns[name].pieces:
        told = 0
        for place, edge in enumerate(piece.edges):
            words = str(tell_notches(piece, place))
            if words:
                assert f"<br>{words}" in pages[name]
                corner = piece.edges[place - 1]
                assert words.startswith(f"notches from the corner with {(place - 1) % len(piece.edges) + 1}: ")
                assert corner.points[-1] == pytest.approx(edge.points[0], abs=1e-9)
                for at in read_marks(words, system):
                    found = edge.locate(edge.start + at, edge.allowance)
                    assert min(np.hypot(*(notch.point - found)) for notch in piece.notches) < 2 * fine
                    told += 1
        assert told == len(piece.notches)
        marked = tell_crosses(piece)
        assert not marked or f"{marked}." in pages[name]
        points = [mark.point for mark in piece.drills if not piece.even or mark.point[1] > -1e-6]
        found = np.array(read_marks(str(marked), system)).reshape(-1, 2) if marked else np.empty((0, 2))
        assert len(found) == len(points)
        assert all(np.abs(found - at).max(axis=1).min() <= fine + 1e-9 for at in points)


def read_number(text):
    """Return a number such as 578.5 or 22 3/4."""
    return sum(
        int(part.split("/")[0]) / int(part.split("/")[1]) if "/" in part else float(part) for part in text.split()
    )


@pytest.fixture(scope="module")
def file(patterns, tmp_path_factory):
    path = tmp_path_factory.mktemp("page") / "pattern.html"
    write_pattern_page(patterns["heron_ford"], path)
    return path


@pytest.fixture
def shown(chromium, file):
    yield from visit(chromium, file)


def is_seen(browser, words):
    script = """return [...document.querySelectorAll("td, th, p, text, li, h3")].some(
      (each) => each.checkVisibility() && each.innerText !== undefined ? each.innerText.includes(arguments[0]) : false)"""
    return browser.execute_script(script, words)


@pytest.mark.slow
@needs_browser
def test_units_are_switched_on_the_page(shown):
    choose(shown, "metric")
    assert is_seen(shown, "248.9 cm")
    assert not is_seen(shown, "97.98 in")
    tables = "return [...document.querySelectorAll('.offsets')].map((each) => each.checkVisibility())"
    assert shown.execute_script(tables) == [True, False]
    choose(shown, "imperial")
    assert is_seen(shown, "97.98 in")
    assert shown.execute_script(tables) == [False, True]
    choose(shown, "both")
    assert shown.execute_script(tables) == [True, True]


@pytest.mark.slow
@needs_browser
def test_drawings_are_to_scale(shown, patterns):
    """Length over width of the drawn cut, in pixels, is that of the piece."""
    script = """
      const box = document.querySelector(".pieces .cutline").getBoundingClientRect();
      return [box.width, box.height];"""
    width, height = shown.execute_script(script)
    length, across = patterns["heron_ford"].pieces[0].size
    assert width / height == pytest.approx(length / across, rel=0.01)


@pytest.mark.slow
@needs_browser
@pytest.mark.parametrize("width", [360, 800, 1280])
def test_page_fits_its_window(shown, width):
    shown.execute_cdp_cmd(
        "Emulation.setDeviceMetricsOverride", {"width": width, "height": 800, "deviceScaleFactor": 1, "mobile": False}
    )
    settle(shown)
    assert shown.execute_script("return document.documentElement.scrollWidth") <= width
    shown.execute_cdp_cmd("Emulation.clearDeviceMetricsOverride", {})


@pytest.mark.slow
@needs_browser
@needs_axe
def test_page_can_be_used_by_everyone(shown):
    serious, passes = run_axe(shown)
    assert serious == []
    assert passes > 20


@pytest.mark.slow
@needs_browser
@pytest.mark.parametrize(("width", "height"), [(8.27, 11.69), (8.5, 11.0)])
def test_page_prints_on_a4_and_letter(shown, width, height):
    import base64
    import io

    import pypdf

    sheet = {"paperWidth": width, "paperHeight": height, "printBackground": False}
    data = shown.execute_cdp_cmd("Page.printToPDF", sheet)["data"]
    reader = pypdf.PdfReader(io.BytesIO(base64.b64decode(data)))
    assert 3 <= len(reader.pages) <= 20  # with an extension, its closing triangles and cap at either end
    words = " ".join(page.extract_text() for page in reader.pages)
    for expected in ("What to buy", "What to cut", "How to sew", "Thread the side cords", "channel strip", "Cautions"):
        assert expected in words


@pytest.mark.slow
@needs_browser
def test_pieces_svg_is_true_to_size_in_a_browser(chromium, patterns, tmp_path):
    """The cut of the body, its box and the length of its sewing lines, in CSS millimetres."""
    pattern = patterns["heron_ford"]
    pattern.save(tmp_path / "p")
    chromium.get(f"file://{tmp_path / 'p' / 'pieces.svg'}")
    script = """
      const cut = document.querySelector("#body .cut"), box = cut.getBBox(), svg = document.documentElement;
      const sewn = [...document.querySelectorAll("#body .sew")].map((each) => each.getTotalLength());
      return [box.width, box.height, cut.getTotalLength(), sewn, svg.width.baseVal.valueInSpecifiedUnits, svg.viewBox.baseVal.width];"""
    width, height, _, sewn, shown_width, view = chromium.execute_script(script)
    length, across = pattern.pieces[0].size
    assert (width, height) == pytest.approx((length / MM, across / MM), abs=0.02)
    assert max(sewn) == pytest.approx(2128.598, abs=0.02)
    assert shown_width == pytest.approx(view, abs=0.001)
