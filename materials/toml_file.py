"""Reads files of users: whatever is in them, reading ends in values or in one sentence."""

import re
from collections.abc import Iterator
from errno import ELOOP
from pathlib import Path
from typing import Any, NamedTuple

from .printable import escape_text, find_control
from .short_repr import write_repr

LARGEST = 200_000  # bytes; a design takes 3,000, the largest file of the library 21,000
LONGEST_LINE = 2_000  # characters; keeps out nested nonsense and numbers of thousands of digits
_QUOTED = re.compile(r"\(.*\)|'[^']{4,}'|\"[^\"]{4,}\"")  # what tomllib quotes of a file
DEEPEST = 12  # levels of tables and lists; a design takes 4


class TomlError(ValueError):
    """A file that cannot be used: one sentence, the line or None, and whether the file is ``missing`` or ``empty``.

    The sentence never quotes the file: a design of somebody else may name any file of this machine.
    """

    def __init__(self, sentence: str, line: int | None = None, lacks: str = "") -> None:
        super().__init__(sentence)
        self.line = line
        self.lacks = lacks


class TomlFile(NamedTuple):
    """Text of a file, its line ends plain, and the tables TOML sees in it."""

    text: str
    data: dict[str, Any]

    def __repr__(self) -> str:
        return write_repr(self, f"{len(self.text.splitlines())} lines", *self.data)


def read_toml(path: Path) -> TomlFile:
    """Read a TOML file of a user.

    Parameters
    ----------
    path : Path
        The file: ordinary, UTF-8 with or without a byte order mark.

    Returns
    -------
    TomlFile
        Text and values.

    Raises
    ------
    TomlError
        If it is missing, no ordinary file, unreadable, empty, too large, too deep, or not TOML in UTF-8.

    Examples
    --------
    >>> read_toml(Path("nowhere.toml"))
    Traceback (most recent call last):
    tautlay.materials.toml_file.TomlError: there is no such file.
    """
    text = _read_text(path)
    return TomlFile(text, parse_toml(text))


def parse_toml(text: str) -> dict[str, Any]:
    """Read the TOML in a text.

    Parameters
    ----------
    text : str
        TOML.

    Returns
    -------
    dict
        Tables and values.

    Raises
    ------
    TomlError
        With line and column of what is not TOML; for a text with control characters, with its key.

    Examples
    --------
    >>> parse_toml('size = "2 m"')
    {'size': '2 m'}
    """
    import tomllib

    for number, line in enumerate(text.split("\n"), 1):
        if len(line) > LONGEST_LINE:
            raise TomlError(f"the line is longer than {LONGEST_LINE} characters.", number)
    try:
        data = tomllib.loads(text)
    except RecursionError:
        raise TomlError("lists or tables are nested too deeply.") from None
    except ValueError as error:
        raise _locate(text, str(error)) from None
    level: list[tuple[str, Any]] = [("", data)]
    for _ in range(DEEPEST):
        level = [inner for outer in level for inner in _list_inner(*outer)]
    if level:
        raise TomlError("lists or tables are nested too deeply.")
    return data


def _list_inner(name: str, value: Any) -> Iterator[tuple[str, Any]]:  # noqa: ANN401
    """Yield what a table or a list holds, with its name; nothing for any other value.

    Raises
    ------
    TomlError
        For a text that would do something to a terminal.
    """
    texts = [value] if isinstance(value, str) else list(value) if isinstance(value, dict) else []
    for text in texts:
        if (code := find_control(text)) is not None:
            raise TomlError(f"{escape_text(name) or 'a key'} has the control character {code}. Remove it.")
    if isinstance(value, dict):
        yield from ((f"{name}.{key}" if name else key, inner) for key, inner in value.items())
    elif isinstance(value, list):
        yield from ((f"{name}.{place}", inner) for place, inner in enumerate(value, 1))


def _read_text(path: Path) -> str:
    """Return the text of an ordinary file of a sensible size."""
    try:
        path.stat()
        if path.is_dir():
            raise TomlError("this is a folder. Choose a file in it.")
        if not path.is_file():
            raise TomlError("this is not an ordinary file. Choose a text file.")
        with path.open("rb") as stream:
            content = stream.read(LARGEST + 1)
        if len(content) > LARGEST:
            size = max(path.stat().st_size, len(content))
            raise TomlError(f"{size} bytes are too many: at most {LARGEST} are read. Is it the right file?")
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise TomlError("this is not a text file. If it is one, save it as UTF-8.") from None
    except TomlError:
        raise
    except (FileNotFoundError, NotADirectoryError, ValueError):  # ValueError: a name that no file can have
        raise TomlError("there is no such file.", lacks="missing") from None
    except OSError as error:
        reason = error.strerror or "unknown system error"
        if error.errno == ELOOP:
            reason = "its symbolic links form a loop"
        raise TomlError(f"the file cannot be read: {reason[:1].lower()}{reason[1:]}.") from error
    if not text.strip():
        raise TomlError("the file is empty.", lacks="empty")
    return text.replace("\r\n", "\n")


def _locate(text: str, message: str) -> TomlError:
    """Return a syntax error with its place; tomllib puts the place in brackets at the end of its message."""
    if text.lstrip().startswith("{"):
        return TomlError("this is JSON, as a result is. Choose a file that ends in .toml.")
    found = re.fullmatch(r"(.*) \(at line (\d+), column (\d+)\)", message, re.DOTALL)
    end = re.fullmatch(r"(.*) \(at end of document\)", message, re.DOTALL)
    if found is None:
        return TomlError(f"this cannot be read: {end[1] if end else message}.", text.count("\n") + 1 if end else None)
    line, column = int(found[2]), int(found[3])
    hint = ""
    row = text.split("\n")[line - 1]
    if re.search(r"=\s*[-+]?[0-9][0-9./ ]*\s*[A-Za-z'\"]", row):
        hint = '. Put a quantity in quotes: "2 m"'
    elif re.fullmatch(r"\s*[A-Za-z0-9_.-]+\s*=\s*[^\s\"'\[\]{}#][^\"#]*?\s*(?:#.*)?", row):
        hint = '. Put text in quotes: key = "text"'
    return TomlError(f"column {column}: this cannot be read: {_QUOTED.sub('...', found[1])}{hint}.", line)
