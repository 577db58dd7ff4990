"""Lines of the keys of a TOML text, which tomllib does not report.

The text must be valid TOML (tomllib has read it). Headers, dotted and quoted keys, inline tables, arrays
and strings over several lines are followed; values are skipped.
"""

import re
from bisect import bisect_right
from collections.abc import Mapping, Sequence
from functools import lru_cache
from types import MappingProxyType

KeyPath = tuple[str | int, ...]

_SPACE = re.compile(r"[ \t]*")
_BLANK = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_KEY = re.compile(r'"(?P<basic>(?:[^"\\\n]|\\.)*)"|\'(?P<literal>[^\'\n]*)\'|(?P<bare>[A-Za-z0-9_-]+)')
_STRING = re.compile(r'"""(?:[^\\]|\\.)*?"{3,5}|\'\'\'.*?\'{3,5}|"(?:[^"\\\n]|\\.)*"|\'[^\'\n]*\'', re.DOTALL)
_BARE_VALUE = re.compile(r"[^,\]}#\n]+")


class _Scanner:
    """One pass over a text; ``lines`` collects the line of each path."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.lines: dict[KeyPath, int] = {}
        self._starts = [0, *(match.end() for match in re.finditer("\n", text))]
        self._counts: dict[KeyPath, int] = {}  # arrays of tables: entries so far

    def _record(self, path: KeyPath, position: int) -> None:
        """Note the line of ``path`` and of the tables above it that have none yet."""
        line = bisect_right(self._starts, position)
        for length in range(1, len(path) + 1):
            self.lines.setdefault(path[:length], line)

    def _blank(self, position: int) -> int:
        """Return the position after blanks, line ends and comments."""
        return _match(_BLANK, self.text, position).end()

    def scan(self) -> None:
        """Walk over the whole text."""
        table: KeyPath = ()
        position = self._blank(0)
        while position < len(self.text):
            if self.text[position] == "[":
                table, position = self._scan_header(position)
            else:
                position = self._scan_pair(table, position)
            position = self._blank(position)

    def _scan_header(self, position: int) -> tuple[KeyPath, int]:
        """Read ``[table]`` or ``[[array of tables]]`` and return its path."""
        many = self.text.startswith("[[", position)
        keys, end = self._scan_key(position + (2 if many else 1))
        path: KeyPath = ()
        for place, key in enumerate(keys):
            path = (*path, key)
            if many and place == len(keys) - 1:
                self._counts[path] = self._counts.get(path, 0) + 1
            if path in self._counts:
                path = (*path, self._counts[path] - 1)
        self._record(path, position)
        return path, end + (2 if many else 1)

    def _scan_key(self, position: int) -> tuple[list[str], int]:
        """Read a dotted key and return its parts."""
        parts = []
        while True:
            match = _match(_KEY, self.text, _match(_SPACE, self.text, position).end())
            parts.append(_unquote(match))
            position = _match(_SPACE, self.text, match.end()).end()
            if not self.text.startswith(".", position):
                return parts, position
            position += 1

    def _scan_pair(self, table: KeyPath, position: int) -> int:
        """Read ``key = value`` and return the position after it."""
        keys, end = self._scan_key(position)
        path = (*table, *keys)
        self._record(path, position)
        return self._scan_value(path, _match(_SPACE, self.text, end + 1).end())

    def _scan_value(self, path: KeyPath, position: int) -> int:
        """Step over a value, noting what lies inside, and return the position after it."""
        first = self.text[position]
        if first in "\"'":
            return _match(_STRING, self.text, position).end()
        if first not in "[{":
            return _match(_BARE_VALUE, self.text, position).end()
        index, position = 0, self._blank(position + 1)
        while self.text[position] not in "]}":
            if first == "[":
                self._record((*path, index), position)
                position = self._scan_value((*path, index), position)
            else:
                position = self._scan_pair(path, position)
            index, position = index + 1, self._blank(position)
            if self.text[position] == ",":
                position = self._blank(position + 1)
        return position + 1


def _match(pattern: re.Pattern[str], text: str, position: int) -> re.Match[str]:
    """Match or raise that the text is not TOML."""
    match = pattern.match(text, position)
    if match is None:
        line = text.count("\n", 0, position) + 1
        raise ValueError(f"line {line} is not valid TOML; read the text with tomllib first")
    return match


def _unquote(match: re.Match[str]) -> str:
    """Return the key that was matched, its escapes resolved."""
    if match["basic"] is None:
        return match["literal"] if match["literal"] is not None else match["bare"]
    if "\\" not in match["basic"]:
        return match["basic"]
    import tomllib

    return str(tomllib.loads(f'key = "{match["basic"]}"')["key"])


@lru_cache(maxsize=32)
def key_lines(text: str) -> Mapping[KeyPath, int]:
    r"""Return the line (from 1) of every key, table and array element of a valid TOML text.

    Examples
    --------
    >>> key_lines('[body]\nlength = "2 m"')[("body", "length")]
    2
    """
    scanner = _Scanner(text)
    scanner.scan()
    return MappingProxyType(scanner.lines)


def find_line(text: str, key_path: Sequence[str | int]) -> int | None:
    r"""Return the line (from 1) on which a key is set, or None if it is not there.

    Parameters
    ----------
    text : str
        Valid TOML.
    key_path : sequence of str or int
        Keys from the top; an integer counts the elements of an array from 0.

    Examples
    --------
    >>> find_line('a = 1\nb = [1,\n2]', ["b", 1])
    3
    """
    return key_lines(text).get(tuple(key_path))


def nearest_line(text: str, key_path: Sequence[str | int]) -> int | None:
    r"""Return the line of a key or, if it is missing, of the nearest table above it.

    Examples
    --------
    >>> nearest_line('[body]\nlength = "2 m"', ["body", "fabric"])
    1
    """
    path = tuple(key_path)
    return next((found for n in range(len(path), 0, -1) if (found := find_line(text, path[:n]))), None)
