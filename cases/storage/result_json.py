"""``result.json``: everything that is told of a result, written from its record and read back into it."""

import json
from pathlib import Path
from typing import Any

from ...materials import DIMENSIONS, escape_text, find_control
from ..design_issue import InputError
from ..result_record import ResultRecord
from .codec import DecodeError, MissingKeyError, decode, encode
from .sentence_store import keep_sentences, restore_sentences

_LARGEST = 100_000_000  # bytes; the largest result takes less than one million
_LEAST = 1e-6  # of a factor found, over the one required
_DEEPEST = 40  # levels of tables and lists; a result has 8
_LONGEST = 200  # characters of what is wrong with a sentence
_SENTENCES = "sentences"  # what the texts need to be written in other units


class ResultError(InputError):
    """A result that cannot be read back; the message says why."""


def encode_result(record: ResultRecord) -> dict[str, Any]:
    """Return a result as nested dictionaries of plain numbers and words; the end of each key names the SI unit.

    Parameters
    ----------
    record : ResultRecord
        ``result.record``.

    Returns
    -------
    dict
        Ready for JSON; ``sentences`` holds what is needed to write the texts in other units.
    """
    found = encode(record)
    return found | {_SENTENCES: keep_sentences(found)}


def read_record(file: Path) -> ResultRecord:
    """Read a ``result.json``.

    Parameters
    ----------
    file : Path
        As ``result.save`` wrote it.

    Returns
    -------
    ResultRecord
        Equal to the one that was written, its sentences ready to be written in any units.

    Raises
    ------
    ResultError
        If it cannot be read, is damaged, or is of another version: it names file and key.

    Examples
    --------
    >>> read_record(Path("x/result.json"))
    Traceback (most recent call last):
    tautlay.cases.storage.result_json.ResultError: x has no result.json. Choose a folder that `tautlay solve` wrote.
    """
    if not file.is_file():
        raise ResultError(f"{file.parent} has no {file.name}. Choose a folder that `tautlay solve` wrote.")
    if file.is_symlink() or file.stat().st_size > _LARGEST:
        raise ResultError(f"{file} is a link, or too large for a result. Solve the design again.")
    try:
        found = json.loads(file.read_text(encoding="utf-8"))
        _list_depth(found)
    except (ValueError, RecursionError):
        raise ResultError(f"{file} is damaged. Solve the design again.") from None
    try:
        record = _decode_result(found)
        _check_values(record)
        return record
    except MissingKeyError as error:
        raise ResultError(f"{file} is of another version: {error} is missing. Solve the design again.") from None
    except DecodeError as error:
        raise ResultError(f"{file} is damaged ({error}). Solve the design again.") from None


def _decode_result(found: object) -> ResultRecord:
    """Return the record of what JSON gives."""
    if not isinstance(found, dict):
        raise MissingKeyError("design")
    if _SENTENCES not in found:
        raise MissingKeyError(_SENTENCES)
    _check_texts(found, "")
    try:
        whole = restore_sentences(found, found[_SENTENCES])
    except (ArithmeticError, ValueError, KeyError, TypeError, AttributeError, IndexError) as error:
        raise DecodeError(f"{_SENTENCES}: {escape_text(str(error))[:_LONGEST]}") from None
    return decode(ResultRecord, whole)


def _list_depth(found: object) -> None:
    """Raise ValueError for what is nested too deeply for everything that walks through it."""
    level = [found]
    for _ in range(_DEEPEST):
        level = [inner for outer in level for inner in _list_inner(outer).values()]
    if level:
        raise ValueError("too deep")


def _list_inner(found: object) -> dict[str, object]:
    """Return what a table or a list holds by its key; nothing for any other value."""
    if isinstance(found, dict):
        return {str(key): value for key, value in found.items()}
    return {f"[{place}]": value for place, value in enumerate(found)} if isinstance(found, list) else {}


def _check_texts(found: object, where: str) -> None:
    """Raise for a text, or a key, that would do something to a terminal: none that was written here does."""
    if isinstance(found, str) and (code := find_control(found)) is not None:
        raise DecodeError(f"{escape_text(where)} has the control character {code}")
    for key, value in _list_inner(found).items():
        path = f"{where}{key}" if key.startswith("[") or not where else f"{where}.{key}"
        _check_texts(key, path)
        _check_texts(value, path)


def _check_values(record: ResultRecord) -> None:
    """Raise for a value with which nothing could be shown."""
    for check in record.checks:
        if check.asked <= 0.0 or check.margin < _LEAST:
            raise DecodeError(f"{check.part}: a factor of safety is not above zero")
    for material in record.materials:
        for value in material.values:
            if value.dimension not in DIMENSIONS:
                raise DecodeError(f"{material.name}: unknown dimension {value.dimension!r:.40}")
