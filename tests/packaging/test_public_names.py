"""What the packages offer: their names, their version, and the names they had before."""

import importlib
import importlib.metadata

import pytest

ROOMS = ("solver", "materials", "making", "hammock", "cutting", "meshing", "cases", "viewer")
RENAMED = [
    ("cases", "Bands", "FactorRanges"),
    ("cases", "find_bands", "find_factor_ranges"),
    ("cases", "Fault", "DesignIssue"),
    ("cases", "Row", "SweepRow"),
    ("cases", "Scales", "WeightList"),
    ("cases", "Part", "CellTag"),
    ("viewer", "ScreenError", "DisplayError"),
]


@pytest.mark.parametrize("room", ROOMS)
def test_dir_lists_the_public_names_and_no_other(room):
    package = importlib.import_module(f"tautlay.{room}")
    assert dir(package) == sorted(package.__all__)
    assert all(hasattr(package, name) for name in package.__all__)
    assert not any(name.startswith("_") for name in package.__all__)


@pytest.mark.parametrize(("room", "old", "new"), RENAMED)
def test_an_old_name_works_and_tells_the_new_one(room, old, new):
    package = importlib.import_module(f"tautlay.{room}")
    with pytest.warns(DeprecationWarning, match=rf"^tautlay\.{room}\.{old} is now called {new}\.$") as told:
        found = getattr(package, old)
    assert told[0].filename == __file__
    assert found is getattr(package, new)
    assert old not in dir(package)


def test_the_warning_of_an_import_points_at_the_import():
    with pytest.warns(DeprecationWarning, match="SweepRow") as told:
        exec(compile("from tautlay.cases import Row", "somebody.py", "exec"), {})
    assert told[0].filename == "somebody.py"


@pytest.mark.parametrize("room", ["solver", "cases", "viewer"])
def test_the_version_is_the_installed_one(room):
    assert importlib.import_module(f"tautlay.{room}").__version__ == importlib.metadata.version("tautlay")


def test_a_name_that_never_was_is_refused():
    package = importlib.import_module("tautlay.cases")
    with pytest.raises(AttributeError, match="Cradle"):
        package.Cradle  # noqa: B018
