"""What comes out of a printer: sheets drawn as a printer draws them, measured and laid side by side."""

import itertools

import numpy as np
import pypdf
import pypdfium2
import pytest

from tautlay.cases.patterns.sewing_steps import list_steps
from tautlay.cutting.drawing.drawing import LineDrawing, LineKind, Stroke
from tautlay.cutting.drawing.paper import find_paper
from tautlay.cutting.drawing.pdf import write_whole
from tautlay.cutting.drawing.sheets import tile_drawing, write_sheets

from ..._patterns import NAMES

INK = 220  # grey; a hairline between two dots is paler than it


def draw_page(page, dpi):
    """Return the ink of a page, rows from above."""
    return np.asarray(page.render(scale=dpi / 72, grayscale=True).to_pil()) < INK


@pytest.mark.slow
def test_the_square_on_the_cover_measures_100_mm(folders):
    """Stand-in for a steel rule on a printed sheet, which needs a person and a printer: no test here has either.

    Measured is the page as it is sent to a printer, a raster of 600 dots an inch (0.042 mm each), within 0.1 mm. What a
    printer makes of it is not tested; cover, page and guide ask the maker to lay a rule on it before cutting.
    """
    dpi = 600
    with pypdfium2.PdfDocument(folders["larch_ridge"] / "sheets.pdf") as document:
        ink = draw_page(document[0], dpi)
    size = round(100 / 25.4 * dpi)
    columns = np.flatnonzero(ink.sum(axis=0) > 0.95 * size)
    rows = np.flatnonzero(ink[:, columns[0] : columns[0] + size].sum(axis=1) > 0.95 * size)
    for lines in (columns, rows):
        starts = lines[np.insert(np.diff(lines) > 1, 0, True)]
        ends = lines[np.append(np.diff(lines) > 1, True)]
        middles = (starts + ends) / 2
        assert (middles[1] - middles[0]) / dpi * 25.4 == pytest.approx(100.0, abs=0.1)


@pytest.mark.slow
@pytest.mark.parametrize("paper", ["a3", "a0"])
def test_joined_sheets_are_the_whole_page(patterns, paper):
    """Every dot of ink of the whole page is within 0.3 mm of ink on the sheets glued at their crosses."""
    from tautlay.cases.patterns.pattern_drawings import draw_all

    dpi = 200
    pattern = patterns["larch_ridge"]
    full = draw_all("a", pattern.draft, pattern.lays, "metric").pick(pattern.pieces[0], half=True)
    solid = tuple(Stroke(LineKind.CUT, stroke.points, stroke.closed) for stroke in full.strokes)
    drawing = LineDrawing("half", solid)  # without dashes, names and crosses
    tiling = tile_drawing(drawing, find_paper(paper))
    with pypdfium2.PdfDocument(write_whole([drawing], "a")) as document:
        whole = draw_page(document[0], dpi)
    low = drawing.box[0] - 0.010
    dots = dpi / 0.0254
    rows, columns = np.nonzero(whole)
    at = np.stack([low[0] + (columns + 0.5) / dots, low[1] + (whole.shape[0] - rows - 0.5) / dots], -1)
    found = np.zeros(len(at), bool)
    reach = int(0.3e-3 * dots)
    with pypdfium2.PdfDocument(write_sheets([drawing], find_paper(paper), "a", [])) as document:
        for number, sheet in enumerate(tiling.sheets, 1):
            ink = draw_page(document[number], dpi)
            thick = np.zeros_like(ink)
            for across, down in itertools.product(range(-reach, reach + 1), repeat=2):
                if np.hypot(across, down) <= reach:
                    thick |= np.roll(ink, (down, across), axis=(0, 1))
            x, y = ((at - sheet.window.low + 0.010) * dots).T
            row, column = ink.shape[0] - 1 - np.floor(y).astype(int), np.floor(x).astype(int)
            inside = (row >= 0) & (row < ink.shape[0]) & (column >= 0) & (column < ink.shape[1])
            found[inside] |= thick[row[inside], column[inside]]
    assert len(at) > 10_000
    assert (~found).sum() == 0, at[~found][:5]


@pytest.mark.parametrize("name", NAMES)
def test_whoever_cuts_is_asked_to_measure_the_square_with_a_rule_first(patterns, folders, name):
    cover = " ".join(pypdf.PdfReader(folders[name] / "sheets.pdf").pages[0].extract_text().split())
    assert "Print at 100 %" in cover
    assert "Before you cut, measure the square with a steel rule" in cover
    first, *_ = list_steps(patterns[name].design, patterns[name].draft)
    words = list(map(str, first.sentences))
    (asked,) = [number for number, sentence in enumerate(words) if "with a steel rule" in sentence]
    (cutting,) = [number for number, sentence in enumerate(words) if sentence.startswith("Cut along")]
    assert asked < cutting
