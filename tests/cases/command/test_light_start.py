"""The command's help lists names of many rooms and must not wait for any of their libraries."""

import subprocess
import sys
from importlib.resources import files

import pytest

HEAVY = (
    "numpy", "scipy", "numba", "pint", "pydantic", "meshio", "matplotlib", "pyvista", "vtkmodules", "rich", "jinja2",
    "tomllib", "tomlkit", "PIL", "dask",
)  # fmt: skip


@pytest.mark.parametrize(
    "names",
    [
        "tautlay.cases.command.cli",
        "tautlay.hammock.load_case",
        "tautlay.hammock.person",
        "tautlay.viewer.field_list",
        "tautlay.cases.unit_display",
        "tautlay.materials.categories",
    ],
)
def test_lists_of_names_are_light(names):
    script = f"import sys, {names}\nprint([name for name in {HEAVY!r} if name in sys.modules])"
    outcome = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False)
    assert outcome.stdout.strip() == "[]", outcome.stderr


# Neither what compiles nor what is compiled: these commands work where numba does not.
LARCH = str(files("tautlay.cases") / "larch_ridge.toml")
REFUSING = """
import sys
from importlib.abc import MetaPathFinder
class Refuse(MetaPathFinder):
    def find_spec(self, name, path=None, target=None):
        if name.split(".")[0] in ("numba", "llvmlite") or name.endswith("_kernel"):
            raise ImportError(f"{name} is not to be loaded")
sys.meta_path.insert(0, Refuse())
from tautlay.cases.command.main import main
main()
"""


@pytest.mark.parametrize(
    "arguments",
    [("check", LARCH), ("weigh", LARCH, "--json", "scales.json"), ("materials", "cord"), ("pattern", LARCH), ("new",)],
    ids=lambda arguments: arguments[0],
)
def test_what_solves_nothing_loads_nothing_compiled(arguments, tmp_path):
    outcome = subprocess.run(
        [sys.executable, "-c", REFUSING, *arguments], capture_output=True, text=True, check=False, cwd=tmp_path
    )
    assert (outcome.returncode, outcome.stderr) == (0, "")
