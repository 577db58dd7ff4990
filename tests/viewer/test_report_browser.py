"""The report page in a real browser: the demonstration, lying, opened from a file without network."""

import io
import json
import time
from importlib.resources import files

import numpy as np
import pytest
from PIL import Image

from tautlay.cases import read_design, solve_case
from tautlay.cases.storage.stored_result import read_result
from tautlay.cases.unit_display import show_quantity
from tautlay.viewer import draw_shape, write_comparison, write_report
from tautlay.viewer.field_list import FIELDS
from tautlay.viewer.legend_words import BAR_TITLE, CORDS
from tautlay.viewer.look import make_look, paint_cloth
from tautlay.viewer.sheet import compose_view
from tautlay.viewer.viewpoint import list_viewpoints

from ._browser import choose, list_requests, needs_axe, needs_browser, open_browser, press_mouse, run_axe, settle, visit

pytestmark = [pytest.mark.slow, needs_browser]
STATES = ("slack", "wrinkled", "taut")


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    place = tmp_path_factory.mktemp("browser") / "larch"
    design = read_design(str(files("tautlay.cases") / "larch_ridge.toml"))
    solve_case(design, load="lying").save(place, draw=draw_shape)
    write_report(place, place / "report.html", units="metric")
    return place


@pytest.fixture(scope="module")
def kept(folder):
    return read_result(folder)


@pytest.fixture(scope="module")
def both(folder, tmp_path_factory):
    page = tmp_path_factory.mktemp("both") / "both.html"
    write_comparison(folder, folder, page)
    return page


@pytest.fixture
def page(chromium, folder):
    yield from visit(chromium, f"{folder}/report.html")


def find_box(browser):
    """Return left, top, width and height of the scene in the window, after scrolling to it."""
    script = """
      const canvas = document.getElementById("scene");
      canvas.scrollIntoView({ block: "center", behavior: "instant" });
      const box = canvas.getBoundingClientRect();
      return [box.left, box.top, box.width, box.height];"""
    return browser.execute_script(script)


def project(browser, points):
    """Return where points (n, 3), m, are seen in the window, by the matrix of the camera."""
    left, top, width, height = find_box(browser)
    matrix = np.array(browser.execute_script("return window.tautlay.matrix")).reshape(4, 4).T
    seen = np.column_stack([points, np.ones(len(points))]) @ matrix.T
    return np.stack([left + (seen[:, 0] + 1) / 2 * width, top + (1 - seen[:, 1]) / 2 * height], -1)


def look_at_scene(browser):
    """Return the colours of the scene (rows, columns, 3)."""
    left, top, width, height = (int(value) for value in find_box(browser))
    image = np.asarray(Image.open(io.BytesIO(browser.get_screenshot_as_png())).convert("RGB"))
    return image[top : top + height, left : left + width].astype(int)


def find_large(kept, count=12):
    """Return large triangles in the middle of the cloth, which nothing hides from above."""
    seen = kept.shape.points[kept.shape.triangles]
    area = np.linalg.norm(np.cross(seen[:, 1] - seen[:, 0], seen[:, 2] - seen[:, 0])[:, 2:], axis=1)
    inner = np.abs(seen.mean(axis=1)[:, 1]) < 0.18
    order = np.argsort(-area * inner)[:60]
    return order[:: 60 // count]


def bare(browser):
    """Show nothing but the cloth, from above."""
    for words in ("forces", "hot spots", "marks", "person", "above"):
        choose(browser, words)


def test_page_is_small_and_not_blank(chromium, folder):
    assert (folder / "report.html").stat().st_size < 3_000_000
    chromium.get(f"file://{folder}/report.html")
    settle(chromium)
    assert chromium.execute_script("return window.tautlay !== undefined")
    picture = look_at_scene(chromium)
    background = np.median(picture.reshape(-1, 3), axis=0)
    assert (np.abs(picture - background).max(axis=2) > 24).mean() > 0.05
    assert len(np.unique(picture.reshape(-1, 3), axis=0)) > 500
    assert list_requests(chromium) == []
    assert chromium.get_log("browser") == []


def test_field_switch_changes_colours_and_legend(page):
    seen = {}
    for words in (field.title for field in FIELDS):
        choose(page, words)
        seen[words] = (look_at_scene(page), page.find_element("id", "legend").text)
    pairs = [(a, b) for place, a in enumerate(seen) for b in list(seen)[:place]]
    for a, b in pairs:
        only_marks = {a, b} == {"larger cloth tension", "direction of tension"}
        changed = (np.abs(seen[a][0] - seen[b][0]).max(axis=2) > 24).mean()
        assert changed > (0.001 if only_marks else 0.005), (a, b)
        assert seen[a][1] != seen[b][1]
    assert "contact pressure, kPa" in seen["contact pressure"][1]
    assert "wrinkled, stroke along the wrinkles" in seen["taut, wrinkled, slack"][1]


@pytest.mark.parametrize("units", ["metric", "imperial"])
@pytest.mark.parametrize("field", FIELDS, ids=lambda field: field.key)
def test_cloth_has_the_colours_of_the_pictures(page, kept, field, units):
    choose(page, units)
    choose(page, field.title)
    bare(page)
    chosen = find_large(kept)
    seen = project(page, kept.shape.points[kept.shape.triangles[chosen]].mean(axis=1))
    left, top, _, _ = find_box(page)
    picture = look_at_scene(page)
    painted = paint_cloth(kept.shape, make_look(kept.shape, field, kept.bar_shares, units))
    for (x, y), rgb in zip(seen, 255 * painted[chosen, :3], strict=True):
        found = picture[int(y - int(top)), int(x - int(left))]
        assert np.abs(found - rgb).max() <= 6


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_legend_has_the_words_and_numbers_of_the_pictures(page, kept, units):
    """Title, marks of the scales with their unit, the largest value, and every row of the key."""
    choose(page, units)
    view = list_viewpoints(kept.shape)[0]
    for field in FIELDS:
        choose(page, field.title)
        shown = page.find_element("id", "legend").text.split("\n")
        figure = compose_view(kept, view, field, units, Blank())
        (key,) = figure.legends
        rows = [text.get_text().replace("\n", " ") for text in key.get_texts()]
        texts = [text.get_text() for text in figure.texts]
        ghost = rows.pop()  # of the sheet alone
        assert ghost.startswith("cloth as cut")
        assert set(rows) <= set(shown)
        if field.key != "state":
            (bar,) = [axes for axes in figure.axes if axes.axison]
            ticks = [label.get_text().split() for label in bar.get_yticklabels()]
            (unit,) = {name for _, name in ticks}
            assert f"{field.title}, {unit}" in shown
            assert [number for number, _ in ticks] == find_run(shown, [number for number, _ in ticks])
            (most,) = [text for text in texts if text.startswith("max ")]
            assert most in shown
        force = {"metric": "N", "imperial": "lbf"}[units]
        assert f"{CORDS}, {force}" in shown
        assert f"{BAR_TITLE}, %" in shown


def find_run(lines, wanted):
    """Return ``wanted`` if it stands in ``lines`` without a break, else nothing."""
    runs = [lines[place : place + len(wanted)] for place in range(len(lines))]
    return wanted if wanted in runs else None


class Blank:
    """Draws nothing: only the words of a sheet are looked at."""

    def draw(self, axes, view, look, dots):
        pass


@pytest.mark.parametrize("units", ["metric", "imperial"])
def test_hover_tells_the_value_of_the_triangle_in_the_file(page, kept, units):
    choose(page, units)
    bare(page)
    for words, values, dimension in (
        ("larger cloth tension", kept.shape.larger_stress, "line_load"),
        ("smaller cloth tension", kept.shape.smaller_stress, "line_load"),
        ("warp: share of strength", kept.shape.warp_share, "share"),
        ("weft: share of strength", kept.shape.weft_share, "share"),
        ("contact pressure", kept.shape.occupant.pressure, "stress"),
    ):
        choose(page, words)
        chosen = find_large(kept)
        for triangle, (x, y) in zip(
            chosen, project(page, kept.shape.points[kept.shape.triangles[chosen]].mean(axis=1)), strict=True
        ):
            press_mouse(page, "mouseMoved", float(x), float(y))
            shown = page.execute_script("return document.getElementById('tip').textContent").split("\n")
            value = show_quantity(float(values[triangle]), dimension, units)
            assert shown == [f"{words} {value}", STATES[kept.shape.state[triangle]], f"triangle {triangle}"]


def test_a_click_is_read_out_and_the_table_of_hot_spots_has_the_same_triangle(page, kept):
    for spot, mark in zip(kept.record.hot_spots, page.find_elements("css selector", ".spot"), strict=True):
        page.execute_script("arguments[0].click()", mark)
        shown = page.find_element("id", "readout").text
        value = show_quantity(float(kept.shape.larger_stress[spot.triangle]), "line_load", "metric")
        assert shown.startswith(f"larger cloth tension {value}, ")
        assert shown.endswith(f"triangle {spot.triangle}")


@pytest.mark.parametrize("view", ["three quarters", "right side", "foot end", "above"])
def test_hot_spots_sit_where_the_result_says(page, kept, view):
    choose(page, view)
    asked = project(page, np.array([spot.loaded for spot in kept.record.hot_spots]))
    script = """
      return [".spot-dot", ".spot"].map((name) => [...document.querySelectorAll(name)].map((each) => {
        const box = each.getBoundingClientRect();
        return [each.textContent, (box.left + box.right) / 2, (box.top + box.bottom) / 2];
      }));"""
    dots, numbers = page.execute_script(script)
    assert np.abs(np.array([[x, y] for _, x, y in dots]) - asked).max() < 1.0
    assert [number for number, _, _ in numbers] == [str(number) for number in range(1, len(asked) + 1)]
    beside = np.array([[x, y] for _, x, y in numbers])
    assert np.hypot(*(beside - asked).T).max() < 65
    apart = np.hypot(*(beside[:, None] - beside[None]).T)[~np.eye(len(beside), dtype=bool)]
    assert apart.min() > 24


def test_keyboard_turns_reads_and_resets(page):
    from selenium.webdriver.common.keys import Keys

    canvas = page.find_element("id", "scene")
    first = page.execute_script("return window.tautlay.matrix")
    canvas.send_keys(Keys.ARROW_RIGHT, Keys.ARROW_UP, "+")
    settle(page)
    turned = page.execute_script("return window.tautlay.matrix")
    assert np.abs(np.array(turned) - first).max() > 0.05
    canvas.send_keys("0")
    settle(page)
    assert np.abs(np.array(page.execute_script("return window.tautlay.matrix")) - first).max() < 1e-6
    choose(page, "above")
    canvas.send_keys(Keys.ENTER)
    assert "triangle" in page.find_element("id", "readout").text
    page.execute_script("document.querySelector('#field-switch input').focus()")
    page.switch_to.active_element.send_keys(Keys.ARROW_DOWN)
    settle(page)
    assert "smaller cloth tension" in page.find_element("id", "legend").text


@pytest.mark.parametrize("units", ["imperial", "both"])
@pytest.mark.parametrize("width", [320, 400, 820, 1000])
def test_nothing_is_cut_off_on_a_narrow_screen(page, width, units):
    metrics = {"width": width, "height": 740, "deviceScaleFactor": 2, "mobile": True}
    page.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", metrics)
    try:
        choose(page, units)
        page.execute_script("for (const each of document.querySelectorAll('details')) each.open = true;")
        script = """
          const found = [];
          for (const each of document.querySelectorAll("main *, header *")) {
            const box = each.getBoundingClientRect();
            if (!box.width || each.closest("pre, #marks, #tip, .skip, thead, svg")) continue;
            if (box.right > arguments[0] + 1 || box.left < -1) found.push(each.outerHTML.slice(0, 80));
          }
          return [document.documentElement.scrollWidth, found];"""
        wide, found = page.execute_script(script, width)
        assert found == []
        assert wide <= width
        labels = """
          return [...document.querySelectorAll(".label:not(.away)")].map((each) => {
            const box = each.getBoundingClientRect();
            return [box.left, box.top, box.right, box.bottom];
          });"""
        boxes = page.execute_script(labels)
        assert boxes
        for place, (left, top, right, bottom) in enumerate(boxes):
            assert left >= 0
            assert right <= width
            for other in boxes[:place]:
                assert right <= other[0] or other[2] <= left or bottom <= other[1] or other[3] <= top
    finally:
        page.execute_cdp_cmd("Emulation.clearDeviceMetricsOverride", {})


def test_telephone_sees_verdict_and_picture_before_switches(page):
    metrics = {"width": 390, "height": 844, "deviceScaleFactor": 2, "mobile": True}
    page.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", metrics)
    try:
        script = """return ["h1", "#verdict", "#scene", ".scene-controls", "#checks", ".switches", "footer"].map(
          (name) => document.querySelector(name).getBoundingClientRect().top + scrollY);"""
        tops = page.execute_script(script)
        assert tops == sorted(tops)
        assert tops[2] < 844  # on the first screen
    finally:
        page.execute_cdp_cmd("Emulation.clearDeviceMetricsOverride", {})


def test_paper_opens_what_is_closed(page):
    script = """
      for (const each of document.querySelectorAll("details")) each.open = false;
      document.querySelector("details").open = true;
      dispatchEvent(new Event("beforeprint"));
      const closed = document.querySelectorAll("details:not([open])").length;
      dispatchEvent(new Event("afterprint"));
      return [document.querySelectorAll("details").length, closed, document.querySelectorAll("details[open]").length];"""
    count, closed, after = page.execute_script(script)
    assert count > 10
    assert (closed, after) == (0, 1)


@pytest.mark.parametrize("size", [(210 / 25.4, 297 / 25.4), (8.5, 11.0)], ids=["A4", "Letter"])
def test_paper_holds_the_picture_and_no_switches(page, size):
    paper = {"paperWidth": size[0], "paperHeight": size[1], "printBackground": False}
    assert len(page.execute_cdp_cmd("Page.printToPDF", paper)["data"]) > 100_000
    width = int((size[0] - 2 * 14 / 25.4) * 96)
    page.execute_script("for (const each of document.querySelectorAll('details')) each.open = true;")
    page.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": "print"})
    page.execute_cdp_cmd(
        "Emulation.setDeviceMetricsOverride", {"width": width, "height": 1000, "deviceScaleFactor": 1, "mobile": False}
    )
    try:
        script = """
          const shown = (name) => [...document.querySelectorAll(name)].some((each) => each.getBoundingClientRect().height > 0);
          return [document.documentElement.scrollWidth, shown(".stand-in img"), shown("#scene"), shown(".switches")];"""
        wide, *shown = page.execute_script(script)
        assert wide <= width
        assert shown == [True, False, False]
    finally:
        page.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": ""})
        page.execute_cdp_cmd("Emulation.clearDeviceMetricsOverride", {})


def test_without_a_picture_paper_gets_what_the_canvas_shows(chromium, folder, tmp_path):
    for name in ("result.json", "shape.vtu", "design.toml"):
        (tmp_path / name).write_bytes((folder / name).read_bytes())
    write_report(tmp_path, tmp_path / "report.html")
    chromium.get(f"file://{tmp_path}/report.html")
    settle(chromium)
    chromium.execute_script("dispatchEvent(new Event('beforeprint'))")
    address = chromium.find_element("css selector", ".stand-in img").get_attribute("src")
    assert address.startswith("data:image/png;base64,")
    assert len(address) > 20_000
    assert chromium.get_log("browser") == []


def test_without_webgl_the_picture_stands_in(folder):
    with open_browser("--disable-3d-apis") as browser:
        browser.get(f"file://{folder}/report.html")
        assert browser.find_element("css selector", ".stand-in img").is_displayed()
        assert browser.find_element("id", "no-scene").is_displayed()
        browser.find_element("css selector", 'input[value="imperial"]').click()
        assert browser.find_element("tag name", "html").get_attribute("data-units") == "imperial"
        assert browser.get_log("browser") == []


def test_copied_design_is_the_file(page, folder):
    page.execute_cdp_cmd("Browser.grantPermissions", {"permissions": ["clipboardReadWrite", "clipboardSanitizedWrite"]})
    page.find_element("id", "copy-design").click()
    time.sleep(0.3)
    told = page.find_element("id", "copied").text
    assert told == "Copied."
    text = page.execute_async_script("navigator.clipboard.readText().then(arguments[0])")
    assert text.rstrip("\n") == (folder / "design.toml").read_text(encoding="utf-8").rstrip("\n")


def test_comparison_lays_one_over_the_other(chromium, both):
    chromium.get(f"file://{both}")
    settle(chromium)
    choose(chromium, "B: Larch Ridge")
    assert "the other result, in outline" in chromium.find_element("id", "legend").text
    assert (np.ptp(look_at_scene(chromium).reshape(-1, 3), axis=0) > 100).all()
    assert list_requests(chromium) == []
    assert chromium.get_log("browser") == []


def test_markup_in_a_name_does_not_run(chromium, folder, tmp_path):
    for name in ("shape.vtu", "design.toml"):
        (tmp_path / name).write_bytes((folder / name).read_bytes())
    evil = "</script><script>window.hacked = 1</script><img src=x onerror='window.hacked = 2'>"
    summary = json.loads((folder / "result.json").read_text(encoding="utf-8"))
    summary["design"]["name"] = summary["notes"][0] = summary["checks"][0]["part"] = evil
    (tmp_path / "result.json").write_text(json.dumps(summary), encoding="utf-8")
    write_report(tmp_path, tmp_path / "evil.html")
    chromium.get(f"file://{tmp_path}/evil.html")
    settle(chromium)
    assert chromium.execute_script("return window.hacked") is None
    assert evil in chromium.find_element("tag name", "h1").text
    assert chromium.execute_script("return window.tautlay !== undefined")
    assert list_requests(chromium) == []


@needs_axe
@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("which", ["report", "comparison"])
def test_axe_finds_nothing_serious(chromium, folder, both, which, theme):
    chromium.get(f"file://{both}" if which == "comparison" else f"file://{folder}/report.html")
    choose(chromium, theme)
    chromium.execute_script("for (const each of document.querySelectorAll('details')) each.open = true;")
    serious, passes = run_axe(chromium)
    assert serious == []
    assert passes > 20
