"""The file of results as SQLite sees it: its tables, and what is held against a file that comes from somebody else.

A SQLite file can hold views and triggers that run, tables that are computed, and content that does not fit its tables.
Only a file whose tables are exactly those made here is used, and reading it does a limited amount of work.
"""

import os
import sqlite3
from pathlib import Path

from ...design_issue import InputError

_APPLICATION = 0x7461_7574  # "taut": in the head of the file
_VERSION = 1  # of the tables
_STRANGE = "{}: this file has no results of a sweep. Choose another."
_LONGEST = 20_000_000  # bytes of one value: the shape of the finest mesh takes 2
_STEP, _MOST_STEPS = 10_000, 100_000  # instructions of SQLite between two looks, and looks at one question; a minute
_TABLES = """
CREATE TABLE result (
    key TEXT PRIMARY KEY, status TEXT NOT NULL, reason TEXT NOT NULL, measurement TEXT NOT NULL, started TEXT NOT NULL,
    tree_distance_m REAL NOT NULL, positions BLOB NOT NULL, seconds_s REAL NOT NULL, detail TEXT NOT NULL,
    finished TEXT NOT NULL DEFAULT CURRENT_TIMESTAMP
) STRICT;
CREATE TABLE sweep (
    name TEXT PRIMARY KEY, file TEXT NOT NULL, text TEXT NOT NULL, design TEXT NOT NULL, choices TEXT NOT NULL,
    engine TEXT NOT NULL, units TEXT NOT NULL, load TEXT NOT NULL, written TEXT NOT NULL DEFAULT CURRENT_TIMESTAMP
) STRICT;
CREATE TABLE variant (
    sweep TEXT NOT NULL, number INTEGER NOT NULL, labels TEXT NOT NULL, key TEXT NOT NULL,
    PRIMARY KEY (sweep, number)
) STRICT;
"""


class StoreError(InputError):
    """A file of results that cannot be used; the message says why."""


class Watch:
    """Looks up from SQLite's work now and then: stops what takes too long, and lets a signal in.

    What a signal raises while this runs stops SQLite and is then swallowed by its module.
    """

    def __init__(self) -> None:
        self.looks = 0

    def __call__(self) -> int:
        """Return whether to stop."""
        self.looks += 1
        return self.is_weary

    @property
    def is_weary(self) -> bool:
        """Whether it stopped what took too long."""
        return self.looks > _MOST_STEPS


def connect(path: Path, watch: Watch, *, make: bool, patience: float) -> sqlite3.Connection:
    """Return a connection to a file, which nothing in it can use to run anything.

    Parameters
    ----------
    path : Path
        The file.
    watch : Watch
        Of the work that is done.
    make : bool
        Whether it is written; else it is opened for reading only.
    patience : float
        Time for another process that writes, s.

    Raises
    ------
    sqlite3.Error
        If it cannot be opened.
    """
    connection = sqlite3.connect(_name_place(path, make=make), timeout=patience, uri=True)
    connection.setlimit(sqlite3.SQLITE_LIMIT_LENGTH, _LONGEST)
    connection.setlimit(sqlite3.SQLITE_LIMIT_ATTACHED, 0)
    connection.set_progress_handler(watch, _STEP)
    connection.execute("PRAGMA trusted_schema = OFF")
    connection.execute("PRAGMA cell_size_check = ON")
    if not make:
        connection.execute("PRAGMA query_only = ON")
    return connection


def _name_place(path: Path, *, make: bool) -> str:
    """Return the address of a file; where nothing can be written beside it, one that is read without a journal."""
    address = path.absolute().as_uri()
    if make:
        return address
    journal = path.with_name(f"{path.name}-wal")
    beside = journal.exists() or os.access(path.parent, os.W_OK)
    return f"{address}?mode=ro" if beside else f"{address}?mode=ro&immutable=1"


def prepare(connection: sqlite3.Connection, path: Path, *, make: bool) -> None:
    """Make the tables in an empty file; raise for a file of something else.

    Raises
    ------
    StoreError
        For a file of another program or version, or one with other tables, views or triggers.
    """
    (application,), (version,), (count,) = (
        connection.execute(query).fetchone()
        for query in ("PRAGMA application_id", "PRAGMA user_version", "SELECT count(*) FROM sqlite_schema")
    )
    if make and (application, version, count) == (0, 0, 0):
        connection.executescript(
            f"PRAGMA journal_mode = WAL; BEGIN IMMEDIATE; {_TABLES}"
            f"PRAGMA application_id = {_APPLICATION}; PRAGMA user_version = {_VERSION}; COMMIT;"
        )
    elif application != _APPLICATION:
        raise StoreError(_STRANGE.format(path))
    elif version != _VERSION:
        raise StoreError(f"{path}: written by another version of the program. Choose another file.")
    else:
        _check_tables(connection, path)
    connection.execute("PRAGMA synchronous = FULL")


def _check_tables(connection: sqlite3.Connection, path: Path) -> None:
    """Raise for anything but our tables: a view, a trigger, a column that is computed."""
    ours = {_plain(text) for text in _TABLES.split(";") if text.strip()}
    found = connection.execute("SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL LIMIT 100").fetchall()
    if {_plain(str(sql)) for (sql,) in found} != ours or len(found) != len(ours):
        raise StoreError(
            f"{path}: its tables are not those that tautlay makes, and nothing in it is read. Choose another file."
        )


def _plain(sql: str) -> str:
    """Return a statement with single blanks."""
    return " ".join(sql.split())


def explain(error: sqlite3.Error, watch: Watch, path: Path) -> BaseException:
    """Return what an error of SQLite means for the user; an interrupt if a signal came while SQLite worked."""
    code = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_OK)
    if watch.is_weary:
        return StoreError(f"{path}: reading the file takes too long for results of a sweep. Choose another.")
    if code == sqlite3.SQLITE_INTERRUPT:
        return KeyboardInterrupt()
    if code == sqlite3.SQLITE_NOTADB:
        return StoreError(_STRANGE.format(path))
    if code == sqlite3.SQLITE_CORRUPT or isinstance(error, sqlite3.DataError) or "decode" in str(error):
        return StoreError(format_damage(path, str(error)))
    return StoreError(f"{path}: {error}. Finished designs are stored; run it again once this is fixed.")


def format_damage(path: Path, what: str) -> str:
    """Return what to do about a file that is damaged."""
    return f"{path}: the file is damaged: {what.rstrip('.')}. Use an intact copy, or choose another file."
