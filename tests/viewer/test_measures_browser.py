"""The drawings of measures in a real browser: on a telephone and a desk, dark and light, on paper."""

import itertools
from importlib.resources import files
from pathlib import Path

import pytest

from tautlay.cases import read_design
from tautlay.viewer import draw_measures
from tautlay.viewer.measures.list_views import list_views
from tautlay.viewer.measures.svg_sheet import embed_sheets
from tautlay.viewer.measures.view_sheet import lay_out_view

from ._browser import needs_browser, settle

pytestmark = [pytest.mark.slow, needs_browser]
FERN = Path(__file__).parents[2] / "docs" / "reference" / "fern_hollow.toml"
DESIGNS = [files("tautlay.cases") / "heron_ford.toml", FERN]
LEAST = 9.0  # px high, words on a telephone
BOXES = """
  return [...document.querySelectorAll("svg")].map((sheet) => {
    const frame = sheet.getBoundingClientRect();
    return [...sheet.querySelectorAll("text")].map((each) => {
      const box = each.getBoundingClientRect();
      return [each.textContent, box.left - frame.left, box.top - frame.top, box.right - frame.left,
        box.bottom - frame.top, frame.width, parseFloat(getComputedStyle(each).fontSize) * frame.width / 360];
    });
  });"""
INKS = """
  const alone = document.querySelector(".alone");
  return [getComputedStyle(alone.querySelector(".key")).fill, getComputedStyle(alone.querySelector(".sheet")).fill];"""


@pytest.fixture(params=DESIGNS, ids=lambda path: path.stem)
def page(chromium, request, tmp_path):
    sheets = [lay_out_view(view, lambda row: row.write("both")) for view in list_views(read_design(request.param))]
    body = "".join(embed_sheets(sheets))
    text = f'<!doctype html><meta name="viewport" content="width=device-width"><style>body{{margin:0}}</style>{body}'
    (tmp_path / "page.html").write_text(text, encoding="utf-8")
    chromium.get(f"file://{tmp_path}/page.html")
    yield chromium
    chromium.execute_cdp_cmd("Emulation.clearDeviceMetricsOverride", {})


@pytest.mark.parametrize("width", [340, 390, 1100])
def test_words_are_large_enough_and_clear_of_each_other(page, width):
    metrics = {"width": width, "height": 800, "deviceScaleFactor": 2, "mobile": width < 500}
    page.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", metrics)
    settle(page)
    sheets = page.execute_script(BOXES)
    assert len(sheets) > 8
    for words in sheets:
        for text, left, _, right, _, wide, size in words:
            assert left >= -0.5, text
            assert right <= wide + 0.5, text
            assert size >= LEAST, text
        for (one, *box, _, _), (other, *beside, _, _) in itertools.combinations(words, 2):
            across = min(box[2], beside[2]) - max(box[0], beside[0])
            down = min(box[3], beside[3]) - max(box[1], beside[1])
            assert across < 0.5 or down < 1.5, (one, other)


@pytest.mark.parametrize(
    ("media", "scheme", "dark"), [("screen", "light", False), ("screen", "dark", True), ("print", "dark", False)]
)
def test_a_file_follows_the_device_and_is_printed_dark_on_white(chromium, tmp_path, media, scheme, dark):
    draw_measures(read_design(FERN), tmp_path / "m.svg")
    features = [{"name": "prefers-color-scheme", "value": scheme}]
    chromium.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": media, "features": features})
    chromium.get(f"file://{tmp_path}/m.svg")
    ink, paper = chromium.execute_script(INKS)
    chromium.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": "", "features": []})
    light, black = "rgb(231, 236, 235)", "rgb(29, 36, 35)"
    assert (ink, paper) == ((light, "rgb(20, 25, 26)") if dark else (black, "rgb(255, 255, 255)"))
