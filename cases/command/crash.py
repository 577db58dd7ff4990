"""An error of the program itself: one sentence on the terminal, the rest in a file."""

import os
import platform
import sys
import tempfile
import traceback
from importlib.metadata import version


def report_crash(error: BaseException) -> None:
    """Write what is needed to find an error into a log file, and say where it is.

    Parameters
    ----------
    error : BaseException
        That nobody expected.
    """
    details = (
        f"tautlay {version('tautlay')}, Python {platform.python_version()}, {platform.platform()}\n"
        f"{' '.join(map(ascii, sys.argv[1:]))}\n\n{''.join(traceback.format_exception(error))}"
    )
    try:
        file = _write_log(details)
    except OSError as refused:
        sys.stderr.write(f"{details}No log file can be written: {refused.strerror}.\n")
        file = "the lines above"
    sys.stderr.write(
        f"tautlay failed by an error of its own, {type(error).__name__}. Please report it where you got tautlay from, "
        f"with your design and {file}.\n"
    )


def _write_log(details: str) -> str:
    """Write a new file in the folder for temporary files, and return its name."""
    descriptor, name = tempfile.mkstemp(prefix="tautlay-error-", suffix=".log")
    with os.fdopen(descriptor, "w", encoding="utf-8", errors="backslashreplace") as stream:
        stream.write(details)
    return name
