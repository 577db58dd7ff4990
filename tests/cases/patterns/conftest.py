import pytest

from tautlay.cases import draft_pattern, read_design

from ..._patterns import NAMES, write_design


@pytest.fixture(scope="session")
def patterns(tmp_path_factory):
    folder = tmp_path_factory.mktemp("designs")
    return {name: draft_pattern(read_design(write_design(folder, name))) for name in NAMES}


@pytest.fixture(scope="session")
def folders(patterns, tmp_path_factory):
    """The files of every pattern."""
    found = {}
    for name, pattern in patterns.items():
        found[name] = tmp_path_factory.mktemp("patterns") / name
        pattern.save(found[name])
    return found
