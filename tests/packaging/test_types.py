"""A type checker sees the types of the installed packages from anywhere, as a script or an editor asks for them."""

import os
import subprocess
import sys

import pytest

SCRIPT = """\
from tautlay.cases import Result, read_design, solve_case
from tautlay.hammock import Hammock, example_hammock
from tautlay.making import Workmanship
from tautlay.materials import Cord, read_library
from tautlay.meshing import Mesh
from tautlay.solver import State, Structure, relax
from tautlay.viewer import show

reveal_type(read_design)
reveal_type(solve_case)
reveal_type(relax)
reveal_type(solve_case(read_design("a.toml")))
reveal_type(solve_case(read_design("a.toml")).state.positions)
reveal_type(example_hammock().body.fabric.warp)
reveal_type(read_library().find(Cord, "12-strand UHMWPE 2 mm"))
reveal_type(show)


def look(mesh: Mesh, work: Workmanship, hammock: Hammock, structure: Structure) -> tuple[int, float, float, State]:
    return len(mesh.triangles), work.reductions.aged, hammock.body.length, relax(structure)


def fail(result: Result) -> int:
    return result.mesh_size
"""
REVEALED = (
    "def (path: str | os.PathLike[str], *, mesh_size: float | None =) -> tautlay.cases.design.Design",
    "def (design: tautlay.cases.design.Design,",
    "def (structure: tautlay.solver.structure.Structure,",
    '"tautlay.cases.result.Result"',
    "numpy.ndarray[",
    '"float"',
    '"tautlay.materials.cord.Cord"',
    "def (result: tautlay.cases.result.Result | str | pathlib.",
)


@pytest.mark.slow
def test_mypy_sees_all_types_from_outside(tmp_path):
    """TAUTLAY_PYTHON names the interpreter whose packages are looked at; left out, it is this one."""
    (tmp_path / "script.py").write_text(SCRIPT, encoding="utf-8")
    looked_at = os.environ.get("TAUTLAY_PYTHON", sys.executable)
    command = [sys.executable, "-m", "mypy", "--strict", "--python-executable", looked_at, "script.py"]
    found = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)
    *lines, last = found.stdout.splitlines()
    told = [line.split("Revealed type is ")[1] for line in lines if "Revealed type is" in line]
    assert len(told) == len(REVEALED), found.stdout + found.stderr
    for text, wanted in zip(told, REVEALED, strict=True):
        assert wanted in text
        assert not text.startswith('"Any'), text
    errors = [line for line in lines if ": error: " in line]
    assert len(errors) == 1, found.stdout  # the one that is made: a size in metres is no count
    assert "return-value" in errors[0]
    assert last.startswith("Found 1 error in 1 file")


def test_every_package_is_found_once():
    """Whatever the installation puts on the path, a module has one file and one name."""
    import tautlay
    import tautlay.solver.structure

    assert len(list(tautlay.__path__)) == 1
    places = [(os.path.realpath(file), name) for name in list(sys.modules) if (file := _find_file(name))]
    ours = [file for file, name in places if name.startswith("tautlay.")]
    others = {file for file, name in places if not name.startswith("tautlay.")}
    assert len(ours) == len(set(ours)) > 0
    assert not others & set(ours)


def _find_file(name):
    return getattr(sys.modules[name], "__file__", None)
