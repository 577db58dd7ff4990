"""What is said about installing holds: metadata, extras, and a wheel that works without the sources."""

import os
import re
import subprocess
import sys
import tomllib
import zipfile
from importlib.metadata import metadata
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
PAGE = (ROOT / "docs" / "install.md").read_text(encoding="utf-8")
ROOMS = ("solver", "materials", "making", "hammock", "cutting", "meshing", "cases", "viewer")
CODE = (".py", ".pyi", ".toml", ".typed", ".html", ".css", ".js")
ONLY_HERE = ("viewer/page/src/", "viewer/page/build.mjs", "viewer/page/tsconfig.json", "viewer/page/package")


def test_metadata_is_complete():
    told = metadata("tautlay")
    assert (told["Name"], told["Version"]) == ("tautlay", PROJECT["version"])
    for key in ("Summary", "Author", "License-Expression", "Keywords", "Requires-Python", "Description-Content-Type"):
        assert told[key], key
    assert told["License-File"] == "LICENSE"
    assert told["Description"].startswith("# tautlay")
    versions = [each for each in told.get_all("Classifier") if re.search(r":: 3\.\d+$", each)]
    least = int(told["Requires-Python"].removeprefix(">=3."))
    assert [int(each.rpartition(".")[2]) for each in versions] == [least, least + 1, least + 2]


def test_the_page_on_installing_names_this_version_and_extras_that_there_are():
    assert set(re.findall(r"tautlay-([0-9.]+)-py3", PAGE)) == {PROJECT["version"]}
    told = set(re.findall(r"^\| `(\w+)` \|", PAGE, re.MULTILINE))
    assert told == set(PROJECT["optional-dependencies"]) - {"dev", "docs"}
    assert set(re.findall(r"\.whl\[(\w+)\]", PAGE)) <= told
    assert f"Python {PROJECT['requires-python'].removeprefix('>=')} or newer" in PAGE


@pytest.mark.parametrize(
    "page", ["README.md", *sorted(f"docs/{each.relative_to(ROOT / 'docs')}" for each in (ROOT / "docs").glob("*/*.md"))]
)
def test_no_page_tells_another_way(page):
    """Nothing is said to be had from an index of packages that was not tried."""
    text = (ROOT / page).read_text(encoding="utf-8")
    assert re.findall(r"pip install \"?tautlay|pipx install tautlay|uv tool install tautlay", text) == []


def list_sources():
    """Return the files of the packages that are kept under version control, by their place in a wheel."""
    listed = subprocess.run(["git", "ls-files", "-z", *ROOMS], cwd=ROOT, capture_output=True, text=True, check=True)
    names = [name for name in listed.stdout.split("\0") if name.endswith(CODE) and not name.startswith(ONLY_HERE)]
    return {f"tautlay/{name}" for name in names}


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    """A wheel made from the source distribution, as ``python -m build`` makes both."""
    if not (ROOT / ".git").exists():
        pytest.skip("no version control here that names the files")
    place = tmp_path_factory.mktemp("dist")
    line = [sys.executable, "-m", "build", "--outdir", str(place), str(ROOT)]
    done = subprocess.run(line, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return next(place.glob("*.whl"))


@pytest.mark.slow
def test_the_wheel_holds_every_source(wheel):
    with zipfile.ZipFile(wheel) as archive:
        found = {name for name in archive.namelist() if ".dist-info/" not in name}
    assert list_sources() - found == set()
    assert [name for name in found if not name.startswith("tautlay/") or "test" in name.split("/")] == []


@pytest.mark.slow
def test_the_wheel_works_from_elsewhere(wheel, tmp_path):
    """Without network: what it depends on is taken from here, itself from the wheel alone."""
    room = tmp_path / "site"
    pip = [sys.executable, "-m", "pip", "install", "--quiet", "--no-index", "--no-deps", "--target", str(room)]
    subprocess.run([*pip, str(wheel)], check=True, capture_output=True)
    run = "import sys, tautlay.cases.command.main as start; assert start.__file__.startswith(sys.argv.pop(1)), start; start.main()"
    for words in (["--version"], ["new", "fern.toml"], ["check", "fern.toml"], ["draw", "fern.toml"]):
        line = [sys.executable, "-c", run, str(room), *words]
        there = {**os.environ, "PYTHONPATH": str(room)}
        done = subprocess.run(line, cwd=tmp_path, capture_output=True, text=True, check=False, env=there)
        assert done.returncode == 0, done.stdout + done.stderr
    assert (tmp_path / "fern.svg").read_text(encoding="utf-8").startswith("<svg")
