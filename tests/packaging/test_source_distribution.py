"""The source distribution holds everything that is kept under version control: tests and sources of the pages too."""

import subprocess
import sys
import tarfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
LEFT_OUT = (".links/", ".gitignore")  # links would be copies; what git ignores is git's


@pytest.mark.slow
def test_source_distribution_is_whole(tmp_path):
    if not (ROOT / ".git").exists():
        pytest.skip("no version control here that names the files")
    line = [sys.executable, "-m", "build", "--sdist", "--outdir", str(tmp_path), str(ROOT)]
    done = subprocess.run(line, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    (file,) = tmp_path.glob("*.tar.gz")
    with tarfile.open(file) as archive:
        found = {name.partition("/")[2] for name in archive.getnames()}
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=True).stdout
    kept = {name for name in listed.split("\0") if name and not name.startswith(LEFT_OUT)}
    assert kept - found == set()
    assert not [name for name in found if name.startswith(".links") or "__pycache__" in name]
