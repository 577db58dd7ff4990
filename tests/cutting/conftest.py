import pytest

from tautlay.cases import read_design
from tautlay.cutting import draft_pieces

from .._patterns import NAMES, write_design


@pytest.fixture(scope="session")
def designs(tmp_path_factory):
    folder = tmp_path_factory.mktemp("designs")
    return {name: read_design(write_design(folder, name)) for name in NAMES}


@pytest.fixture(scope="session")
def drafts(designs):
    return {name: draft_pieces(design) for name, design in designs.items()}
