"""The one rule for every file that a command writes: nothing that is read, and nothing of somebody else, is replaced.

Folders of results and patterns have theirs in ``result_folder``, files of results of a sweep in the sweep's ``store``.
"""

import json
import os
from collections.abc import Callable, Iterable
from errno import EEXIST
from pathlib import Path
from typing import NamedTuple

from ..design_issue import InputError

_HEAD = 4000  # bytes in which a file says what it is
_LARGEST = 50_000_000  # bytes of a file that is looked into


FITTED_MARK = "# Written by tautlay fit."  # first line of a file of fitted materials


class OutputKind(NamedTuple):
    """A kind of file.

    Parameters
    ----------
    noun : str
        What it is, in sentences.
    is_ours : callable or None
        Whether a file is one that tautlay wrote; None for files in which a user writes on.
    """

    noun: str
    is_ours: Callable[[Path], bool] | None


def _holds_keys(*keys: str) -> Callable[[Path], bool]:
    """Return a test for JSON that has all these keys."""

    def test(file: Path) -> bool:
        if file.stat().st_size > _LARGEST:
            return False
        try:
            found = json.loads(file.read_text(encoding="utf-8"))
        except (ValueError, RecursionError):
            return False
        return isinstance(found, dict) and set(keys) <= set(found)

    return test


def _begins(*marks: bytes) -> Callable[[Path], bool]:
    """Return a test for files that have all these marks near their beginning."""

    def test(file: Path) -> bool:
        with file.open("rb") as stream:
            head = stream.read(_HEAD)
        return all(mark in head for mark in marks)

    return test


def _ends(*marks: bytes) -> Callable[[Path], bool]:
    """Return a test for files that have all these marks at their end, where Parquet has the names of its columns."""

    def test(file: Path) -> bool:
        content = file.read_bytes() if file.stat().st_size <= _LARGEST else b""
        return content[:4] == content[-4:] == b"PAR1" and all(mark in content for mark in marks)

    return test


SCALES = OutputKind("list of weights", _holds_keys("design", "packed_kg", "weighed", "not_weighed"))
HANG_SHEETS = OutputKind("list of tree spacings", _holds_keys("design", "person", "sheets"))
JUDGEMENT = OutputKind("verdict", _holds_keys("design", "verdict", "requirements", "judged", "unjudged"))
TRIAL = OutputKind("plan of a trial", _holds_keys("design", "proof_water_kg", "steps", "bag_places"))
FIT = OutputKind("fit", _holds_keys("design", "stiffnesses", "misfits", "chance"))
MATERIALS = OutputKind("file of fitted materials", _begins(FITTED_MARK.encode()))
PAGE = OutputKind("page", _begins(b"<!doctype html>", b'<meta name="generator" content="tautlay '))
PICTURE = OutputKind("picture", _begins(b"\x89PNG", b"Software\0tautlay"))
DRAWING = OutputKind("drawing", _begins(b"<svg", b"<dc:title>tautlay</dc:title>"))
CSV = OutputKind("table", _begins(b"number,", b",status,holds,reason,governs,failed,unchecked,"))
PARQUET = OutputKind("table", _ends(b"number", b"status", b"governs", b"unbeaten"))
DESIGN = OutputKind("design", None)


def check_output(file: Path, kind: OutputKind, inputs: Iterable[Path] = (), *, force: bool = False) -> None:
    """Raise for a file that must not be replaced; called before anything is solved.

    Parameters
    ----------
    file : Path
        To be written; it need not be there.
    kind : OutputKind
        What is to be written: an earlier one is replaced.
    inputs : iterable of Path
        Everything that is read: none of it is ever replaced.
    force : bool
        Whether a file that tautlay did not write may be replaced.

    Raises
    ------
    OSError
        With a sentence.

    Examples
    --------
    >>> import tempfile
    >>> file = Path(tempfile.mkdtemp()) / "weights.json"
    >>> check_output(file, SCALES)
    >>> _ = file.write_text('{"mine": 1}')
    >>> try:
    ...     check_output(file, SCALES)
    ... except OSError as error:
    ...     print(error.strerror)
    this file is no list of weights that tautlay wrote; choose another name, or replace it with --force
    """
    if not os.path.lexists(file) or file.is_dir():  # writing tells of a folder
        return
    if not file.is_file():
        raise OSError(EEXIST, "this is a broken link or no ordinary file, choose another name", str(file))
    if any(each.exists() and file.samefile(each) for each in inputs):
        raise OSError(EEXIST, "this file is being read and is not replaced, choose another name", str(file))
    if force:
        return
    if kind.is_ours is None:
        raise OSError(EEXIST, "the file already exists; choose another name, or replace it with --force", str(file))
    if not kind.is_ours(file):
        words = f"this file is no {kind.noun} that tautlay wrote; choose another name, or replace it with --force"
        raise OSError(EEXIST, words, str(file))


def check_outputs(
    files: Iterable[tuple[Path | None, OutputKind]], inputs: Iterable[Path] = (), *, force: bool = False
) -> None:
    """Raise for files of one command that must not be replaced, or of which two are the same.

    Parameters
    ----------
    files : iterable of (Path or None, OutputKind)
        To be written; None is not wanted.
    inputs, force
        As for :func:`check_output`.

    Raises
    ------
    InputError
        For a file that is given twice.
    OSError
        As :func:`check_output`.

    Examples
    --------
    >>> check_outputs([(None, SCALES)])
    """
    known, read = set[Path](), tuple(inputs)
    for file, kind in files:
        if file is None:
            continue
        if file.resolve() in known:
            raise InputError(f"{file}: this file is given twice, and one would replace the other. Choose another.")
        known.add(file.resolve())
        check_output(file, kind, read, force=force)
