"""``result.json``: everything that is told of a result, written from its record and read back into it."""

import json
from pathlib import Path
from typing import Any

from ...materials import escape_text
from ..design_issue import InputError
from ..result_record import ResultRecord
from .codec import DecodeError, MissingKeyError, decode, encode
from .sentence_store import keep_sentences, restore_sentences

_LARGEST = 100_000_000  # bytes; the largest result takes less than one million
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
    except (ValueError, RecursionError):
        raise ResultError(f"{file} is damaged. Solve the design again.") from None
    try:
        return _decode_result(found)
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
    try:
        whole = restore_sentences(found, found[_SENTENCES])
    except (ArithmeticError, ValueError, KeyError, TypeError, AttributeError, IndexError) as error:
        raise DecodeError(f"{_SENTENCES}: {escape_text(str(error))[:_LONGEST]}") from None
    return decode(ResultRecord, whole)
