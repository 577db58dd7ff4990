"""The command's help lists names of many rooms and must not wait for any of their libraries."""

import subprocess
import sys

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
