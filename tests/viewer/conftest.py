"""A browser for tests of pages."""

import pytest

from ._browser import open_browser


@pytest.fixture(scope="module")
def chromium():
    """A browser without network."""
    with open_browser() as browser:
        yield browser
