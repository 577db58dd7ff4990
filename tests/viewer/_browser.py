"""A real browser without a screen, driven over its debugging protocol."""

import json
import shutil
from contextlib import contextmanager
from importlib.resources import files
from pathlib import Path

import pytest

BROWSER = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
DRIVER = shutil.which("chromedriver")
FLAGS = [
    "--headless=new",
    "--no-sandbox",
    "--use-gl=angle",
    "--use-angle=swiftshader",
    "--enable-unsafe-swiftshader",
    "--hide-scrollbars",
    "--disable-background-networking",
    "--no-first-run",
    "--disable-component-update",
    "--disable-sync",
    "--disable-extensions",
]
AXE = Path(str(files("tautlay.viewer") / "page" / "node_modules" / "axe-core" / "axe.min.js"))
needs_axe = pytest.mark.skipif(not AXE.is_file(), reason="axe-core is not installed; npm ci in viewer/page")
needs_browser = pytest.mark.skipif(
    not (BROWSER and DRIVER), reason="no chromium with chromedriver here; apt-get install chromium chromium-driver"
)


@contextmanager
def open_browser(*flags, width=1280, height=900):
    """Give a browser without network."""
    from selenium import webdriver
    from selenium.webdriver.chrome.service import Service

    options = webdriver.ChromeOptions()
    options.binary_location = BROWSER
    for flag in (*FLAGS, *flags, f"--window-size={width},{height}"):
        options.add_argument(flag)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    browser = webdriver.Chrome(options=options, service=Service(DRIVER))
    try:
        browser.execute_cdp_cmd("Network.enable", {})
        offline = {"offline": True, "latency": 0, "downloadThroughput": 0, "uploadThroughput": 0}
        browser.execute_cdp_cmd("Network.emulateNetworkConditions", offline)
        yield browser
    finally:
        browser.quit()


def list_requests(browser):
    """Return every address that was asked for, but for the page itself and what it holds."""
    events = [json.loads(entry["message"])["message"] for entry in browser.get_log("performance")]
    asked = [each["params"]["request"]["url"] for each in events if each["method"] == "Network.requestWillBeSent"]
    return [url for url in asked if not url.startswith(("data:", "blob:")) and not url.endswith(".html")]


def visit(browser, path):
    """Give a browser that shows a file; it has asked for nothing else and has nothing to complain of afterwards."""
    browser.get(f"file://{path}")
    settle(browser)
    yield browser
    assert list_requests(browser) == []
    assert browser.get_log("browser") == []


def settle(browser):
    """Wait until what was asked for is drawn."""
    script = (
        "const done = arguments[0]; requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done, 60)));"
    )
    browser.execute_async_script(script)


def press_mouse(browser, kind, x, y):
    """Move, press or release the mouse at a place of the window."""
    button = {} if kind == "mouseMoved" else {"button": "left", "clickCount": 1}
    browser.execute_cdp_cmd("Input.dispatchMouseEvent", {"type": kind, "x": x, "y": y, **button})


def choose(browser, words):
    """Press the switch or button that says ``words``; imperial units are called US there."""
    script = """
      const all = [...document.querySelectorAll("fieldset label, fieldset button")];
      all.find((each) => each.textContent.trim() === arguments[0]).click();"""
    browser.execute_script(script, "US" if words == "imperial" else words)
    settle(browser)


def run_axe(browser):
    """Return the serious findings of axe-core on the page as it stands, and how many rules it passes."""
    browser.execute_script(AXE.read_text(encoding="utf-8") + ";window.axe = window.axe || axe;")
    found = browser.execute_async_script("axe.run(document).then(arguments[0])")
    serious = [
        (each["id"], each["impact"], [node["html"][:120] for node in each["nodes"][:3]])
        for each in found["violations"]
        if each["impact"] in ("serious", "critical")
    ]
    return serious, len(found["passes"])
