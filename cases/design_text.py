"""From a file on disk to the values TOML sees in it."""

import re
import tomllib
from pathlib import Path
from typing import Any

from .fault import DesignError, Fault

LARGEST = 200_000  # bytes; a design takes 3,000
LONGEST_LINE = 2_000  # characters; keeps the reader from nested nonsense


def read_text(path: Path) -> str:
    """Read a design file as text.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    str
        Its text.

    Raises
    ------
    DesignError
        If it is missing, a folder, unreadable, empty, too large or not UTF-8.

    Examples
    --------
    >>> read_text(Path("nowhere.toml"))
    Traceback (most recent call last):
    tautlay.cases.fault.DesignError: nowhere.toml: there is no such file; `tautlay new nowhere.toml` writes one.
    """
    try:
        if path.is_dir():
            raise _refuse(path, "this is a folder; name the design file in it.")
        if not path.exists():
            raise _refuse(path, f"there is no such file; `tautlay new {path}` writes one.")
        if not path.is_file():
            raise _refuse(path, "this is no ordinary file; name a design file.")
        size = path.stat().st_size
        if size > LARGEST:
            raise _refuse(
                path, f"{size} bytes are too many for a design, at most {LARGEST} are read; is it the right file?"
            )
        text = path.read_bytes().decode("utf-8-sig")
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) else "it is not text in UTF-8; save it as UTF-8"
        raise _refuse(path, f"the file cannot be read: {reason}.") from error
    if not text.strip():
        raise _refuse(path, f"the file is empty; `tautlay new {path} --force` writes a design to start from.")
    return text.replace("\r\n", "\n")


def parse_text(path: Path, text: str) -> dict[str, Any]:
    """Read the TOML in a text.

    Parameters
    ----------
    path : Path
        Where the text comes from, for messages.
    text : str
        TOML.

    Returns
    -------
    dict
        Tables and values.

    Raises
    ------
    DesignError
        With line and column of what is not TOML.

    Examples
    --------
    >>> parse_text(Path("a.toml"), 'size = "2 m"')
    {'size': '2 m'}
    """
    for number, line in enumerate(text.split("\n"), 1):
        if len(line) > LONGEST_LINE:
            raise DesignError([Fault(str(path), f"the line is longer than {LONGEST_LINE} characters.", number)])
    try:
        return tomllib.loads(text)
    except RecursionError:
        raise _refuse(path, "lists or tables are nested too deeply.") from None
    except ValueError as error:
        raise DesignError([_locate(path, text, str(error))]) from None


def _refuse(path: Path, sentence: str) -> DesignError:
    """Return an error about the file as a whole."""
    return DesignError([Fault(str(path), sentence)])


def _locate(path: Path, text: str, message: str) -> Fault:
    """Return a syntax error with its place; tomllib puts the place in brackets at the end of its message."""
    found = re.fullmatch(r"(.*) \(at line (\d+), column (\d+)\)", message, re.DOTALL)
    end = re.fullmatch(r"(.*) \(at end of document\)", message, re.DOTALL)
    if found is None:
        line = text.count("\n") + 1 if end else None
        return Fault(str(path), f"this is not TOML: {end[1] if end else message}.", line)
    line, column = int(found[2]), int(found[3])
    hint = ""
    row = text.split("\n")[line - 1]
    if re.search(r"=\s*[-+]?[0-9][0-9./ ]*\s*[A-Za-z'\"]", row):
        hint = '; a quantity stands in quotes, such as "2 m"'
    elif bare := re.fullmatch(r"\s*([A-Za-z0-9_.-]+\s*=)\s*([^\s\"'\[\]{}#][^\"#]*?)\s*(?:#.*)?", row):
        hint = f'; text stands in quotes, write {bare[1]} "{bare[2]}"'
    return Fault(str(path), f"column {column}: this is not TOML: {found[1]}{hint}.", line)
