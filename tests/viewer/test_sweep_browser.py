"""The page of a sweep in a real browser, opened from a file without network; all designs are invented."""

from dataclasses import replace

import pytest

from tautlay.cases.studies.compare.pareto_front import find_pareto_front
from tautlay.cases.studies.compare.ranking import rank_rows
from tautlay.viewer import write_sweep_page

from .._rows import make_grid
from ._browser import choose, list_requests, needs_axe, needs_browser, press_mouse, run_axe, settle, visit
from .test_sweep_page import make_heading, make_thousand

pytestmark = [pytest.mark.slow, needs_browser]
EVIL = "</script><script>window.hacked = 1</script><img src=x onerror='window.hacked = 2'>"


@pytest.fixture(scope="module")
def rows():
    """Invented designs, with a measure of the lay besides weight and reserve factor."""
    return [
        replace(
            row,
            figures={**row.figures, "back_sag_m": 0.2 - 0.5 * row.figures["packed_kg"], "line_N": 600.0 + row.number},
        )
        if row.figures
        else row
        for row in make_grid()
    ]


@pytest.fixture(scope="module")
def file(rows, tmp_path_factory):
    path = tmp_path_factory.mktemp("sweep") / "page.html"
    write_sweep_page(make_heading(), rank_rows(rows), path, units="metric")
    return path


@pytest.fixture
def page(chromium, file):
    yield from visit(chromium, file)


def list_shown(browser):
    """Return the numbers of the designs in the table, from above to below."""
    script = "return [...document.querySelectorAll('#table tbody tr:not([hidden]) th')].map((each) => Number(each.textContent));"
    return browser.execute_script(script)


def sort_by(browser, words):
    """Press a heading; return how it is sorted now."""
    script = """
      const button = [...document.querySelectorAll("#table thead button")].find((each) => each.textContent === arguments[0]);
      button.click();
      return button.parentElement.getAttribute("aria-sort");"""
    return browser.execute_script(script, words)


def set_input(browser, label, value):
    """Fill in or choose what stands under a label of the filters."""
    script = """
      const label = [...document.querySelectorAll("#filters label")].find((each) => each.firstChild.textContent === arguments[0]);
      const input = label.querySelector("select, input");
      if (input.tagName === "SELECT") input.value = [...input.options].find((each) => each.text === arguments[1]).value;
      else input.value = arguments[1];
      input.dispatchEvent(new Event(input.tagName === "SELECT" ? "change" : "input"));"""
    browser.execute_script(script, label, value)
    settle(browser)


def tick(browser, words):
    script = "[...document.querySelectorAll('#filters label')].find((each) => each.textContent === arguments[0]).querySelector('input').click();"
    browser.execute_script(script, words)
    settle(browser)


def count_marks(browser, plot):
    script = "return document.querySelectorAll(`#plot-${arguments[0]} .passing, #plot-${arguments[0]} .failing, #plot-${arguments[0]} .best`).length;"
    return browser.execute_script(script, plot)


def pick_measure(browser, key):
    script = (
        "const s = document.getElementById('measure'); s.value = arguments[0]; s.dispatchEvent(new Event('change'));"
    )
    browser.execute_script(script, key)
    settle(browser)


def list_front(browser, side):
    """Return the numbers that stand beside a plot."""
    script = "return [...document.querySelectorAll(`#front-${arguments[0]} li`)].map((each) => Number(each.textContent.split(':')[0]));"
    return browser.execute_script(script, side)


def test_headings_sort_and_say_so(page, rows):
    assert list_shown(page) == [row.number for row in rank_rows(rows).rows]
    for words, key in (
        ("reserve factor", "least_margin"),
        ("pack weight", "packed_kg"),
        ("back sag", "back_sag_m"),
    ):
        first = sort_by(page, words)
        assert first == ("descending" if key == "least_margin" else "ascending")
        assert list_shown(page) == [row.number for row in rank_rows(rows, sort=key).rows]
        assert sort_by(page, words) != first
        assert list_shown(page)[-2:] == [3, 6]  # what fails and what was not solved stay below
    assert sort_by(page, "body.arc.depth") == "ascending"
    assert list_shown(page) == [row.number for row in rank_rows(rows, sort="body.arc.depth").rows]
    assert page.execute_script("return document.querySelectorAll('#table [aria-sort]').length") == 1


@pytest.mark.parametrize(
    ("label", "value", "where"),
    [
        ("cloth", "taffeta, 60 g/m2", "cloth = taffeta, 60 g/m2"),
        ("pack weight at most", "100", "packed_kg <= 100 g"),
        ("reserve factor at least", "1.2", "least_margin >= 1.2"),
        ("words in the row", "thick 16", "number > 0"),
    ],
)
def test_filters_act_on_table_and_plots(page, rows, label, value, where):
    set_input(page, label, value)
    asked = [row.number for row in rank_rows(rows, where=[where]).rows]
    if label == "words in the row":
        asked = [5, 11]
    assert list_shown(page) == asked
    marks = len([number for number in asked if number != 6])
    assert (count_marks(page, "a"), count_marks(page, "b")) == (marks, marks)
    assert f"{len(asked)} of 12 designs shown" in page.find_element("id", "count").text
    page.execute_script("document.querySelector('#filters button').click()")
    settle(page)
    assert len(list_shown(page)) == 12


def test_a_limit_stays_what_it_is_in_other_units(page):
    set_input(page, "pack weight at most", "100")
    shown = list_shown(page)
    choose(page, "imperial")
    assert page.execute_script("return document.querySelector('#filters input[type=number]').value") == "3.5274"
    assert list_shown(page) == shown
    assert "oz" in page.find_element("css selector", "#plot-a svg").text
    choose(page, "metric")


def test_pareto_front_is_what_the_program_finds(page, rows):
    for key in ("back_sag_m", "line_N"):
        pick_measure(page, key)
        for side, keys in (("a", ("packed_kg", "least_margin")), ("b", ("packed_kg", key))):
            asked = [row.number for row in find_pareto_front(rows, keys).rows]
            assert list_front(page, side) == asked
            assert page.execute_script(f"return document.querySelectorAll('#plot-{side} .best').length") == len(asked)
    pick_measure(page, "sag_m")
    assert "has no better direction: no design is marked" in page.find_element("id", "front-b").text
    assert page.execute_script("return document.querySelectorAll('#plot-b .best').length") == 0
    set_input(page, "cord", "thin")
    thin = [row for row in rows if row.choices["cord"] == "thin"]
    assert list_front(page, "a") == [row.number for row in find_pareto_front(thin, ("packed_kg", "least_margin")).rows]
    tick(page, "only Pareto-optimal")
    assert set(list_shown(page)) == set(list_front(page, "a"))
    page.execute_script("document.querySelector('#filters button').click()")


def test_a_thousand_designs_have_the_same_front_here_and_there(chromium, tmp_path):
    designs = make_thousand()
    write_sweep_page(make_heading(), rank_rows(designs), tmp_path / "page.html", units="metric")
    chromium.get(f"file://{tmp_path}/page.html")
    settle(chromium)
    assert chromium.execute_script("return window.tautlaySweep !== undefined")
    for key in ("back_sag_m", "shoulder_angle_rad", "bar_to_face_m"):
        pick_measure(chromium, key)
        asked = {row.number for row in find_pareto_front(designs, ("packed_kg", key)).rows}
        script = "return [...document.querySelectorAll('#table tbody tr')].filter((row) => row.cells[row.cells.length - 2].textContent.includes('B')).map((row) => Number(row.cells[0].textContent));"
        assert set(chromium.execute_script(script)) == asked
    assert chromium.get_log("browser") == []


def test_lines_and_marks_point_at_each_other(page):
    for number in (2, 7, 3):
        script = "return [...document.querySelectorAll('#table tbody tr')].find((row) => row.cells[0].textContent === arguments[0]);"
        line = page.execute_script(script, str(number))
        page.execute_script("arguments[0].focus()", line)
        cursors = page.execute_script(
            "return [...document.querySelectorAll('.plot .cursor')].map((each) => each.textContent)"
        )
        assert cursors == [str(number)] * 2
        assert page.find_element("id", "selected").text.startswith(f"Design {number}, ")
    page.execute_script("document.getElementById('plots').scrollIntoView()")
    settle(page)
    for plot, number in ((0, 10), (1, 9), (0, 3)):
        x, y = page.execute_script("return window.tautlaySweep.locate(arguments[0], arguments[1])", plot, number)
        press_mouse(page, "mouseMoved", x, y)
        lit = page.execute_script(
            "return [...document.querySelectorAll('tr.lit')].map((row) => row.cells[0].textContent)"
        )
        assert lit == [str(number)]
        rings = page.execute_script("return document.querySelectorAll('.plot .ring').length")
        assert rings == 2
    press_mouse(page, "mousePressed", x, y)
    press_mouse(page, "mouseReleased", x, y)
    # what is shown may already be of the mark that the page has moved under the pointer
    assert page.execute_script("return document.activeElement.cells[0].textContent") == "3"


def test_keyboard_goes_through_lines_and_marks(page):
    from selenium.webdriver.common.keys import Keys

    shown = list_shown(page)
    page.execute_script("document.querySelector('#table tbody tr[tabindex=\"0\"]').focus()")
    for keys, place in (
        (Keys.ARROW_DOWN, 1),
        (Keys.ARROW_DOWN, 2),
        (Keys.ARROW_UP, 1),
        (Keys.END, len(shown) - 1),
        (Keys.HOME, 0),
    ):
        page.switch_to.active_element.send_keys(keys)
        assert page.execute_script("return document.activeElement.cells[0].textContent") == str(shown[place])
    assert page.execute_script("return document.querySelectorAll('#table tbody tr[tabindex=\"0\"]').length") == 1
    page.execute_script("document.querySelector('#plot-a svg').focus()")
    page.switch_to.active_element.send_keys(Keys.ARROW_RIGHT, Keys.ARROW_RIGHT)
    first = page.find_element("id", "selected").text
    page.switch_to.active_element.send_keys(Keys.ARROW_LEFT)
    assert page.find_element("id", "selected").text != first
    page.switch_to.active_element.send_keys(Keys.ENTER)
    assert page.execute_script("return document.activeElement.tagName") == "TR"


def test_bars_give_the_effects_in_words_too(page):
    text = page.find_element("id", "bars").text
    assert "cloth, instead of ripstop nylon 22 g/m2" in text
    assert "+90.0 g" in text
    script = "const s = document.getElementById('effect-on'); s.value = 'least_margin'; s.dispatchEvent(new Event('change'));"
    page.execute_script(script)
    assert "+0.300" in page.find_element("id", "bars").text


@pytest.mark.parametrize("units", ["imperial", "both"])
@pytest.mark.parametrize("width", [320, 400, 820])
def test_nothing_is_cut_off_on_a_narrow_screen(page, width, units):
    metrics = {"width": width, "height": 740, "deviceScaleFactor": 2, "mobile": True}
    page.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", metrics)
    try:
        choose(page, units)
        script = """
          const found = [];
          for (const each of document.querySelectorAll("main *, header *")) {
            const box = each.getBoundingClientRect();
            if (!box.width || each.closest(".scroll *, .skip, option, optgroup")) continue;
            if (box.right > arguments[0] + 1 || box.left < -1) found.push(each.outerHTML.slice(0, 80));
          }
          return [document.documentElement.scrollWidth, found];"""
        wide, found = page.execute_script(script, width)
        assert found == []
        assert wide <= width
    finally:
        page.execute_cdp_cmd("Emulation.clearDeviceMetricsOverride", {})


@pytest.mark.parametrize("size", [(210 / 25.4, 297 / 25.4), (8.5, 11.0)], ids=["A4", "Letter"])
def test_paper_holds_the_whole_table_and_no_switches(page, size):
    width = int((size[0] - 2 * 14 / 25.4) * 96)
    page.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": "print"})
    page.execute_cdp_cmd(
        "Emulation.setDeviceMetricsOverride", {"width": width, "height": 1000, "deviceScaleFactor": 1, "mobile": False}
    )
    try:
        script = """
          const box = (name) => document.querySelector(name).getBoundingClientRect();
          const inside = box(".scroll").height >= box("#table").height;
          return [document.documentElement.scrollWidth, inside, box("#filters").height, box(".switches").height];"""
        wide, inside, *hidden = page.execute_script(script)
        assert wide <= width
        assert inside
        assert hidden == [0, 0]
    finally:
        page.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": ""})
        page.execute_cdp_cmd("Emulation.clearDeviceMetricsOverride", {})


def test_markup_in_a_name_does_not_run(chromium, rows, tmp_path):
    evil = [
        replace(row, choices={f"{k}{EVIL}": f"{v}{EVIL}" for k, v in row.choices.items()}, governs=EVIL) for row in rows
    ]
    write_sweep_page(make_heading(EVIL), rank_rows(evil), tmp_path / "evil.html", units="both")
    chromium.get(f"file://{tmp_path}/evil.html")
    settle(chromium)
    chromium.execute_script("document.querySelector('#table tbody tr').focus()")
    assert chromium.execute_script("return window.hacked") is None
    assert EVIL in chromium.find_element("id", "front-a").text
    assert EVIL in chromium.find_element("id", "bars").text
    assert chromium.execute_script("return window.tautlaySweep !== undefined")
    assert list_requests(chromium) == []


@pytest.mark.parametrize("left", [[], ["open"], ["weight"]])
def test_pages_of_little_stay_quiet(chromium, rows, tmp_path, left):
    few = {"open": rows[5:6], "weight": [replace(rows[0], figures={"packed_kg": 0.2})]}
    write_sweep_page(
        make_heading(), rank_rows([row for each in left for row in few[each]]), tmp_path / "few.html", units="both"
    )
    chromium.get(f"file://{tmp_path}/few.html")
    settle(chromium)
    assert "No design shown has both values." in chromium.find_element("id", "plot-a").text
    assert chromium.get_log("browser") == []


@needs_axe
@pytest.mark.parametrize("theme", ["light", "dark"])
def test_axe_finds_nothing_serious(page, theme):
    choose(page, theme)
    sort_by(page, "pack weight")
    page.execute_script("document.querySelector('#table tbody tr').focus()")
    serious, passes = run_axe(page)
    assert serious == []
    assert passes > 20
