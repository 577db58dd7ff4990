"""The page of a trial in a real browser: one sheet of paper, and readable by everyone."""

import base64
import io
from importlib.resources import files

import pytest

from tautlay.cases import read_design
from tautlay.cases.studies.trial import trial_plan
from tautlay.viewer import write_trial_page

from ._browser import needs_axe, needs_browser, open_browser, run_axe

pytestmark = [pytest.mark.slow, needs_browser]


@pytest.fixture(scope="module")
def shown(tmp_path_factory):
    """Give a browser that shows a plan with one input that scatters."""
    design = read_design(files("tautlay.cases") / "otter_creek.toml")
    whole = trial_plan.list_laws
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(trial_plan, "list_laws", lambda *asked: dict(list(whole(*asked).items())[3:5]))
        plan = trial_plan.make_trial_plan(design, mesh_size=0.15, fine=0.14)
    page = tmp_path_factory.mktemp("trial") / "trial.html"
    write_trial_page(plan, page, units="both")  # the longest
    with open_browser() as browser:
        browser.get(f"file://{page}")
        yield browser


@pytest.mark.parametrize(("width", "height"), [(8.27, 11.69), (8.5, 11.0)])
def test_page_is_one_sheet_of_paper(shown, width, height):
    import pypdf

    sheet = {"paperWidth": width, "paperHeight": height, "printBackground": False, "preferCSSPageSize": False}
    data = shown.execute_cdp_cmd("Page.printToPDF", sheet)["data"]
    (page,) = pypdf.PdfReader(io.BytesIO(base64.b64decode(data))).pages
    words = " ".join(page.extract_text().split())
    for expected in ("What to do", "What to measure", "Proof load", "the arcs are cut deeper", "Keep children away"):
        assert expected in words


@needs_axe
def test_page_can_be_used_by_everyone(shown):
    serious, passes = run_axe(shown)
    assert serious == []
    assert passes > 15


@pytest.mark.parametrize("width", [360, 800, 1280])
def test_page_fits_its_window(shown, width):
    measures = {"width": width, "height": 800, "deviceScaleFactor": 1, "mobile": False}
    shown.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", measures)
    assert shown.execute_script("return document.documentElement.scrollWidth") <= width
    shown.execute_cdp_cmd("Emulation.clearDeviceMetricsOverride", {})
