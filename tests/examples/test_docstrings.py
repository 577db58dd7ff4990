"""Every example in a docstring is run."""

import doctest
import importlib
import pkgutil

import pytest

ROOMS = ("solver", "materials", "making", "hammock", "cutting", "meshing", "cases", "viewer")


def list_modules():
    for room in ROOMS:
        package = importlib.import_module(f"tautlay.{room}")
        yield package.__name__
        for module in pkgutil.walk_packages(package.__path__, package.__name__ + "."):
            yield module.name


@pytest.mark.parametrize("name", list(list_modules()))
def test_docstring_examples_run(name):
    module = importlib.import_module(name)
    outcome = doctest.testmod(module, extraglobs={"np": importlib.import_module("numpy")})
    assert outcome.failed == 0
