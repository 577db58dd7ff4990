"""What all tests share."""

from pathlib import Path

import tautlay.solver


def pytest_configure(config):
    """Drop compiled loops older than any source of the solver.

    Numba looks only at the file a function stands in, not at the functions it calls in other files.
    """
    folder = Path(tautlay.solver.__file__).parent
    newest = max(source.stat().st_mtime for source in folder.glob("*.py"))
    for compiled in folder.glob("__pycache__/*.nb[ic]"):
        if compiled.stat().st_mtime < newest:
            compiled.unlink(missing_ok=True)
