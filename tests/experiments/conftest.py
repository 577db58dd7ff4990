"""The comparisons, computed once for all tests."""

import pytest

from ..verification.conftest import _make_quarter_disc
from ._all import list_comparisons

RINGS = 24


@pytest.fixture(scope="session")
def comparisons():
    """Return every comparison."""
    return list_comparisons(_make_quarter_disc(RINGS))
