"""The file of results: one SQLite file in which a row is either whole or not there.

Results stand under what determines them (``result_key``), the designs of each sweep under its name.
"""

import json
import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from math import isfinite
from pathlib import Path
from typing import Any, NamedTuple

from ....hammock.load_case import LoadCase
from ....materials import escape_text
from ....materials.short_repr import write_repr
from ...unit_display import UNIT_SYSTEMS
from .store_file import StoreError, Watch, connect, explain, format_damage, prepare
from .stored_row import StoredRow, is_shape, read_choices
from .sweep_row import RowStatus, SweepRow
from .task import TaskResult

_WAIT = 60.0  # s, for another process that writes
_MOST_TEXT = 500_000_000  # characters of all rows of a sweep; 10,000 designs take 20 million


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
        Load cases under which designs are solved, with commas between.
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
    watch : Watch
        Of the work that a question to it takes.
    """

    def __init__(self, connection: sqlite3.Connection, path: Path, watch: Watch) -> None:
        self.connection, self.path, self.watch = connection, path, watch
        self.identity, self.size = _identify(path)

    def _find_place(self) -> None:
        """Make sure that what is written goes to the file that has that name, and that it is whole.

        A file that was removed takes everything without a word, and one that was cut off takes it beyond its end.
        """
        identity, size = _identify(self.path)
        if identity != self.identity:
            raise StoreError(
                f"{self.path}: the file was removed or replaced meanwhile, and its results are lost. Run the sweep "
                "again."
            )
        if size < self.size:
            raise StoreError(
                f"{self.path}: the file was cut off meanwhile, and its results are lost. Remove it and run the sweep "
                "again."
            )
        self.size = size

    def _ask(self, query: str, values: tuple[object, ...] = ()) -> list[tuple[Any, ...]]:
        """Return the rows that answer a question."""
        self.watch.looks = 0
        return self.connection.execute(query, values).fetchall()

    def list_keys(self) -> set[str]:
        """Return the keys of all results that stand; those that lost a worker are tried again."""
        rows = self._ask("SELECT key FROM result WHERE status NOT IN (?, ?)", (RowStatus.LOST, RowStatus.BROKEN))
        return {key for (key,) in rows}

    def save_outcome(self, outcome: TaskResult) -> None:
        """Store an outcome; once this returns, it survives whatever ends the program."""
        values = (
            outcome.key, str(outcome.status), outcome.reason, json.dumps(outcome.measurement), outcome.started,
            outcome.tree_distance, outcome.positions, outcome.seconds, outcome.detail,
        )  # fmt: skip
        columns = "key, status, reason, measurement, started, tree_distance_m, positions, seconds_s, detail"
        self.watch.looks = 0
        with self.connection:
            self.connection.execute(f"INSERT OR REPLACE INTO result ({columns}) VALUES (?,?,?,?,?,?,?,?,?)", values)
        self._find_place()

    def find_shape(self, key: str) -> tuple[float, bytes] | None:
        """Return tree distance, m, and positions of a solved design; None if there is no equilibrium."""
        query = "SELECT tree_distance_m, positions FROM result WHERE key = ? AND status = ?"
        for distance, positions in self._ask(query, (key, RowStatus.SOLVED)):
            if positions == b"":  # its first case has no equilibrium
                continue
            if not is_shape(distance, positions):
                raise StoreError(format_damage(self.path, "the shape of a solved design is none"))
            return float(distance), bytes(positions)
        return None

    def find_seconds(self) -> list[float]:
        """Return the processor time of every solved design, s."""
        rows = self._ask("SELECT seconds_s FROM result WHERE status = ?", (RowStatus.SOLVED,))
        if not all(isfinite(seconds) and seconds >= 0.0 for (seconds,) in rows):
            raise StoreError(format_damage(self.path, "the time that a design took is no finite number"))
        return [float(seconds) for (seconds,) in rows]

    def register(self, heading: SweepRecord, variants: Iterable[tuple[int, dict[str, str], str]]) -> None:
        """Store which designs make up a sweep: number, labels by choice, key of the result.

        Raises
        ------
        StoreError
            If the name is that of a sweep of another file, whose designs would be lost.
        """
        known = next(iter(self._ask("SELECT file FROM sweep WHERE name = ?", (heading.name,))), None)
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
        rows = self._ask(f"SELECT {_HEADING} FROM sweep ORDER BY written DESC, rowid DESC LIMIT 1000")
        with self._find_damage():
            return [_read_heading(SweepRecord(*row)) for row in rows]

    def list_rows(self, name: str) -> list[SweepRow]:
        """Return every design of a sweep with what is known of it, in order."""
        self.watch.looks = 0
        found = self.connection.execute(
            "SELECT number, labels, status, reason, measurement FROM variant LEFT JOIN result USING (key) "
            "WHERE sweep = ? ORDER BY number",
            (name,),
        )
        self._find_place()
        rows, room = list[SweepRow](), _MOST_TEXT
        with self._find_damage():
            for row in found:
                room -= sum(len(value) for value in row if isinstance(value, str))
                if room < 0:
                    raise StoreError(f"{self.path}: it holds more than a sweep can. Choose another file.")
                rows.append(StoredRow(*row).read())
                if rows[-1].choices.keys() != rows[0].choices.keys():
                    raise ValueError(f"design {rows[-1].number}: its choices are not those of the others")
        return rows

    def verify(self) -> None:
        """Raise if the file does not hold what was stored in it: another program may have cut or changed it.

        Another connection looks, since this one remembers what it wrote.
        """
        self._find_place()
        with open_store(self.path) as fresh:
            if fresh._ask("PRAGMA quick_check(1)") != [("ok",)] or not self.list_keys() <= fresh.list_keys():
                raise StoreError(format_damage(self.path, "another program changed it meanwhile"))

    @contextmanager
    def _find_damage(self) -> Iterator[None]:
        """Raise that the file is damaged where it cannot be read."""
        try:
            yield
        except ValueError as error:
            words = "its tables cannot be read" if hasattr(error, "errors") else str(error)
            raise StoreError(format_damage(self.path, words)) from None


def _read_heading(row: SweepRecord) -> SweepRecord:
    """Return the record of a sweep as it stands in the file, checked.

    Raises
    ------
    ValueError
        For a text that is none, or units and a load that there are not.
    """
    if not all(isinstance(value, str) for value in row) or not row.name.isprintable():
        raise ValueError("the name of a sweep is none")
    if row.units not in UNIT_SYSTEMS or not set(row.load.split(", ")) <= set(LoadCase):
        raise ValueError("a sweep has unknown units or an unknown load case")
    choices = read_choices(str(row.choices))
    return row._replace(choices=choices, file=escape_text(row.file), engine=escape_text(row.engine))


def _identify(path: Path) -> tuple[tuple[int, int] | None, int]:
    """Return what identifies a file, None if there is none, and its size."""
    try:
        found = path.stat()
    except OSError:
        return None, 0
    return (found.st_dev, found.st_ino), found.st_size


@contextmanager
def open_store(path: Path, *, make: bool = False) -> Iterator[SweepStore]:
    """Give an open file of results.

    Parameters
    ----------
    path : Path
        The file.
    make : bool
        Whether it is written, and a missing one is made, with the folders above it.

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
    watch = Watch()
    try:
        if make:
            path.parent.mkdir(parents=True, exist_ok=True)
        connection = connect(path, watch, make=make, patience=_WAIT)
    except (OSError, sqlite3.Error) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise StoreError(f"{path}: the file cannot be opened: {reason[:1].lower()}{reason[1:]}.") from None
    try:
        prepare(connection, path, make=make)
        yield SweepStore(connection, path, watch)
    except sqlite3.Error as error:
        raise explain(error, watch, path) from error
    except UnicodeDecodeError as error:  # of what SQLite says of a damaged file
        raise StoreError(format_damage(path, "it has bytes that are no text")) from error
    finally:
        connection.close()
