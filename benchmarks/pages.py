"""How long a page takes to be ready in a browser: a result that lies, a sweep of a thousand designs, a pattern.

Run it as ``python benchmarks/pages.py`` where Chromium with chromedriver is installed. It prints size and the best
and the worst of three openings from a file, without network and without a graphics card.
"""

import sys
import tempfile
import time
from pathlib import Path

HOME = Path(__file__).parent.parent
sys.path.insert(0, str(HOME))

from tautlay.cases import draft_pattern, read_design, solve_case  # noqa: E402
from tautlay.cases.studies.compare.ranking import rank_rows  # noqa: E402
from tautlay.viewer import draw_shape, write_pattern_page, write_report, write_sweep_page  # noqa: E402
from tests.viewer._browser import open_browser, settle  # noqa: E402
from tests.viewer.test_sweep_page import make_heading, make_thousand  # noqa: E402

OPENINGS = 3


def write_pages(folder):
    """Write all pages; return their paths by what they show."""
    place = folder / "larch"
    solve_case(read_design(HOME / "cases" / "larch_ridge.toml"), load="lying").save(place, draw=draw_shape)
    pages = {"result, lying": place / "report.html", "sweep of 1000": folder / "sweep.html"}
    write_report(place, pages["result, lying"], units="metric")
    write_sweep_page(make_heading(), rank_rows(make_thousand()), pages["sweep of 1000"], units="metric")
    pages["pattern"] = folder / "pattern.html"
    write_pattern_page(draft_pattern(read_design(HOME / "cases" / "heron_ford.toml")), pages["pattern"])
    return pages


def open_page(browser, path):
    """Return the time until the page is drawn, s."""
    begun = time.perf_counter()
    browser.get(f"file://{path}")
    settle(browser)
    return time.perf_counter() - begun


def main():
    """Write, open and print."""
    with tempfile.TemporaryDirectory() as folder, open_browser() as browser:
        for words, path in write_pages(Path(folder)).items():
            waits = [open_page(browser, path) for _ in range(OPENINGS)]
            size = path.stat().st_size / 1e6
            print(f"{words:>14}  {size:5.2f} MB  ready in {min(waits):.2f} to {max(waits):.2f} s")


if __name__ == "__main__":
    main()
