"""A real browser without a screen, driven over its debugging protocol."""

import json
import shutil
from contextlib import contextmanager

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
