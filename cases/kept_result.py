"""A result read back from its folder."""

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any, NamedTuple

from .reading import Units
from .sentence_store import restore_sentences
from .shape import Shape, read_shape

_NEEDED = ("design", "report", "verdict", "forces", "checks", "weights", "materials", "sentences")


class KeptResult(NamedTuple):
    """What a result folder holds.

    Parameters
    ----------
    folder : Path
        Where it lies; pictures may be there too.
    summary : mapping
        ``result.summary``, its sentences ready to be written in any units.
    shape : Shape
        Loaded shape.
    design_text : str
        Design file as solved.
    units : {"metric", "imperial", "both"}
        Of the report, as the design asks.
    """

    folder: Path
    summary: Mapping[str, Any]
    shape: Shape
    design_text: str
    units: Units


class ResultError(Exception):
    """A result that cannot be read back; the message is one sentence."""


def read_result(folder: Path) -> KeptResult:
    """Read a result folder that ``result.save`` wrote.

    Parameters
    ----------
    folder : Path
        Folder with ``result.json``, ``shape.vtu`` and ``design.toml``.

    Returns
    -------
    KeptResult
        All of it.

    Raises
    ------
    ResultError
        If it is no result folder, or one of another version of the program.
    VtuError
        If the shape is damaged.

    Examples
    --------
    >>> read_result(Path("nowhere"))
    Traceback (most recent call last):
    tautlay.cases.kept_result.ResultError: nowhere holds no result.json; name the folder that `tautlay solve` wrote.
    """
    file = folder / "result.json"
    if not file.is_file():
        raise ResultError(f"{folder} holds no result.json; name the folder that `tautlay solve` wrote.")
    try:
        summary = json.loads(file.read_text(encoding="utf-8"))
        design_text = (folder / "design.toml").read_text(encoding="utf-8")
    except (ValueError, RecursionError):
        raise ResultError(f"{file} or the design.toml beside it is damaged; solve the design again.") from None
    missing = [key for key in _NEEDED if not isinstance(summary, dict) or key not in summary]
    if missing:
        raise ResultError(f"{file} is of another version: it lacks {missing[0]}; solve the design again.")
    try:
        whole = restore_sentences(summary, summary["sentences"])
    except (ValueError, KeyError, TypeError, AttributeError) as error:
        raise ResultError(f"{file} is damaged ({error}); solve the design again.") from None
    return KeptResult(folder, whole, read_shape(folder / "shape.vtu"), design_text, whole["report"]["units"])
