"""The file of results: one SQLite file in which a row is either whole or not there.

Results stand under what determines them (``result_key``), the designs of each sweep under its name.
"""

import json
import os
import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

from pydantic import TypeAdapter

from ....materials import escape_text
from ....materials.short_repr import write_repr
from ...design_issue import InputError
from .sweep_row import RowStatus, SweepRow
from .sweep_values import SweepValues
from .task import TaskResult

APPLICATION = 0x7461_7574  # "taut": in the head of the file
VERSION = 1  # of the tables
_STRANGE = "{}: this file has no results of a sweep. Choose another."
_WAIT = 60.0  # s, for another process that writes
_LABELS, _CHOICES, _MEASUREMENT = TypeAdapter(dict[str, str]), TypeAdapter(tuple[str, ...]), TypeAdapter(SweepValues)
_TABLES = """
CREATE TABLE IF NOT EXISTS result (
    key TEXT PRIMARY KEY, status TEXT NOT NULL, reason TEXT NOT NULL, measurement TEXT NOT NULL, started TEXT NOT NULL,
    tree_distance_m REAL NOT NULL, positions BLOB NOT NULL, seconds_s REAL NOT NULL, detail TEXT NOT NULL,
    finished TEXT NOT NULL DEFAULT CURRENT_TIMESTAMP
) STRICT;
CREATE TABLE IF NOT EXISTS sweep (
    name TEXT PRIMARY KEY, file TEXT NOT NULL, text TEXT NOT NULL, design TEXT NOT NULL, choices TEXT NOT NULL,
    engine TEXT NOT NULL, units TEXT NOT NULL, load TEXT NOT NULL, written TEXT NOT NULL DEFAULT CURRENT_TIMESTAMP
) STRICT;
CREATE TABLE IF NOT EXISTS variant (
    sweep TEXT NOT NULL, number INTEGER NOT NULL, labels TEXT NOT NULL, key TEXT NOT NULL,
    PRIMARY KEY (sweep, number)
) STRICT;
"""


class StoreError(InputError):
    """A file of results that cannot be used; the message says why."""


class SweepRecord(NamedTuple):
    """The record of a sweep itself.

    Parameters
    ----------
    name : str
        As in the sweep file.
    file, text, design : str
        The sweep file, its text, and the text of the design that is varied.
    choices : tuple of str
        Names of what varies.
    engine : str
        What computed it.
    units : str
        Of reports.
    load : str
        Load case of the design.
    """

    name: str
    file: str
    text: str
    design: str
    choices: tuple[str, ...]
    engine: str
    units: str
    load: str

    def __repr__(self) -> str:
        return write_repr(self, self.name, self.file, *self.choices)


_HEADING = ", ".join(SweepRecord._fields)


class SweepStore:
    """An open file of results.

    Parameters
    ----------
    connection : sqlite3.Connection
        To it.
    path : Path
        Its place.
    """

    def __init__(self, connection: sqlite3.Connection, path: Path) -> None:
        self.connection, self.path = connection, path
        self.identity = _identify(path)

    def _find_place(self) -> None:
        """Make sure that what is written goes to the file that has that name: a removed one takes it without a word."""
        if _identify(self.path) != self.identity:
            raise StoreError(
                f"{self.path}: the file was removed or replaced meanwhile, and its results are lost. Run the sweep "
                "again."
            )

    def list_keys(self) -> set[str]:
        """Return the keys of all results that stand; those that lost a worker are tried again."""
        rows = self.connection.execute(
            "SELECT key FROM result WHERE status NOT IN (?, ?)", (RowStatus.LOST, RowStatus.BROKEN)
        )
        return {key for (key,) in rows}

    def save_outcome(self, outcome: TaskResult) -> None:
        """Store an outcome; once this returns, it survives whatever ends the program."""
        values = (
            outcome.key, str(outcome.status), outcome.reason, json.dumps(outcome.measurement), outcome.started,
            outcome.tree_distance, outcome.positions, outcome.seconds, outcome.detail,
        )  # fmt: skip
        columns = "key, status, reason, measurement, started, tree_distance_m, positions, seconds_s, detail"
        with self.connection:
            self.connection.execute(f"INSERT OR REPLACE INTO result ({columns}) VALUES (?,?,?,?,?,?,?,?,?)", values)
        self._find_place()

    def find_shape(self, key: str) -> tuple[float, bytes] | None:
        """Return tree distance, m, and positions of a solved design; None if there is no equilibrium."""
        row = self.connection.execute(
            "SELECT tree_distance_m, positions FROM result WHERE key = ? AND status = ?", (key, RowStatus.SOLVED)
        ).fetchone()
        return None if row is None else (float(row[0]), bytes(row[1]))

    def find_seconds(self) -> list[float]:
        """Return the processor time of every solved design, s."""
        return [float(s) for (s,) in self.connection.execute("SELECT seconds_s FROM result WHERE status = 'solved'")]

    def register(self, heading: SweepRecord, variants: Iterable[tuple[int, dict[str, str], str]]) -> None:
        """Store which designs make up a sweep: number, labels by choice, key of the result.

        Raises
        ------
        StoreError
            If the name is that of a sweep of another file, whose designs would be lost.
        """
        known = self.connection.execute("SELECT file FROM sweep WHERE name = ?", (heading.name,)).fetchone()
        if known is not None and known[0] != heading.file and Path(known[0]).is_file():
            raise StoreError(
                escape_text(
                    f"{self.path}: it already has a sweep {heading.name}, of {known[0]}. Rename the sweep of "
                    f"{heading.file}, or choose another file with --output."
                )
            )
        columns = heading._asdict() | {"choices": json.dumps(heading.choices)}
        with self.connection:
            self.connection.execute("DELETE FROM variant WHERE sweep = ?", (heading.name,))
            self.connection.execute(
                f"INSERT OR REPLACE INTO sweep ({_HEADING}) VALUES (?,?,?,?,?,?,?,?)", tuple(columns.values())
            )
            self.connection.executemany(
                "INSERT INTO variant VALUES (?,?,?,?)",
                ((heading.name, number, json.dumps(labels), key) for number, labels, key in variants),
            )

    def list_sweeps(self) -> list[SweepRecord]:
        """Return all sweeps of the file, the one written last first."""
        rows = self.connection.execute(f"SELECT {_HEADING} FROM sweep ORDER BY written DESC, rowid DESC")
        with self._read_json():
            return [SweepRecord(*row)._replace(choices=_CHOICES.validate_json(row[4])) for row in rows]

    def list_rows(self, name: str) -> list[SweepRow]:
        """Return every design of a sweep with what is known of it, in order."""
        found = self.connection.execute(
            "SELECT number, labels, status, reason, measurement FROM variant LEFT JOIN result USING (key) "
            "WHERE sweep = ? ORDER BY number",
            (name,),
        )
        self._find_place()
        with self._read_json():
            return [_read_row(*row) for row in found]

    @contextmanager
    def _read_json(self) -> Iterator[None]:
        """Raise that the file is damaged where it cannot be read."""
        try:
            yield
        except ValueError:
            raise StoreError(_format_damage(self.path, "its tables cannot be read")) from None


def _read_row(number: int, labels: str, status: str | None, reason: str | None, measured: str | None) -> SweepRow:
    """Return a row from what stands in the file."""
    choices = _LABELS.validate_json(labels)
    if status is None or measured is None:
        return SweepRow(number, choices, RowStatus.OPEN, "not solved yet")
    figures, governs, failed, unchecked = _MEASUREMENT.validate_json(measured)
    return SweepRow(number, choices, RowStatus(status), reason or "", figures, governs, failed, unchecked)


def _identify(path: Path) -> tuple[int, int] | None:
    """Return what identifies a file, None if there is none."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino


def _name_place(path: Path, *, make: bool) -> str:
    """Return the address of a file; where nothing can be written beside it, one that is read without a journal."""
    address = path.absolute().as_uri()
    journal = path.with_name(f"{path.name}-wal")
    return address if make or journal.exists() or os.access(path.parent, os.W_OK) else f"{address}?immutable=1"


def _format_damage(path: Path, what: str) -> str:
    """Return what to do about a file that is damaged."""
    return f"{path}: the file is damaged: {what}. Use an intact copy, or choose another file."


@contextmanager
def open_store(path: Path, *, make: bool = False) -> Iterator[SweepStore]:
    """Give an open file of results.

    Parameters
    ----------
    path : Path
        The file.
    make : bool
        Whether a missing one is made, with the folders above it.

    Yields
    ------
    SweepStore
        Closed at the end of the block.

    Raises
    ------
    StoreError
        For a file that is missing, no file of results, of another version, damaged, or that cannot be written.

    Examples
    --------
    >>> import tempfile
    >>> with open_store(Path(tempfile.mkdtemp()) / "cloths.sqlite", make=True) as store:
    ...     store.list_keys()
    set()
    """
    if path.is_dir():
        raise StoreError(f"{path}: this is a folder. Choose a file in it.")
    if not make and not path.is_file():
        raise StoreError(f"{path}: there is no such file. `tautlay sweep` writes one.")
    try:
        if make:
            path.parent.mkdir(parents=True, exist_ok=True)
        connection = sqlite3.connect(_name_place(path, make=make), timeout=_WAIT, uri=True)
    except (OSError, sqlite3.Error) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise StoreError(f"{path}: the file cannot be opened: {reason[:1].lower()}{reason[1:]}.") from None
    try:
        _prepare(connection, path, make=make)
        yield SweepStore(connection, path)
    except sqlite3.Error as error:
        code = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_OK)
        if code == sqlite3.SQLITE_NOTADB:
            raise StoreError(_STRANGE.format(path)) from error
        if code == sqlite3.SQLITE_CORRUPT:
            raise StoreError(_format_damage(path, str(error))) from error
        raise StoreError(f"{path}: {error}. Finished designs are stored; run it again once this is fixed.") from error
    finally:
        connection.close()


def _prepare(connection: sqlite3.Connection, path: Path, *, make: bool) -> None:
    """Make the tables in an empty file; raise for a file of something else."""
    (application,), (version,), (tables,) = (
        connection.execute(query).fetchone()
        for query in ("PRAGMA application_id", "PRAGMA user_version", "SELECT count(*) FROM sqlite_master")
    )
    if make and (application, version) == (0, 0) and tables == 0:
        connection.executescript(
            f"PRAGMA journal_mode = WAL; BEGIN IMMEDIATE; {_TABLES}"
            f"PRAGMA application_id = {APPLICATION}; PRAGMA user_version = {VERSION}; COMMIT;"
        )
    elif application != APPLICATION:
        raise StoreError(_STRANGE.format(path))
    elif version != VERSION:
        raise StoreError(f"{path}: written by another version of the program. Choose another file.")
    connection.execute("PRAGMA synchronous = FULL")
