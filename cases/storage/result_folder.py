"""The folder of a result or a pattern: replaced as a whole, and only where nothing of the user's own is lost."""

import json
import os
import re
import secrets
import shutil
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from errno import EACCES, EEXIST, ENOSPC
from pathlib import Path
from typing import NamedTuple

from .atomic import name_path


class FolderContent(NamedTuple):
    """What a folder of ours holds.

    Parameters
    ----------
    noun : str
        What it is, in sentences.
    files : frozenset of str
        Names of its files.
    numbered : str
        Pattern of more of them.
    index_file : str
        The JSON file that every one has.
    keys : frozenset of str
        What stands in that.
    """

    noun: str
    files: frozenset[str]
    numbered: str
    index_file: str
    keys: frozenset[str]


RESULT = FolderContent(
    "result",
    frozenset({"channel.png", "design.toml", "report.html", "result.json", "shape.png", "shape.vtu"}),
    r"load_step_\d+\.vtu|view_[a-z_]+\.png|hot_spot_\d+\.png",  # of the slider, and `tautlay view`
    "result.json",
    frozenset({"design", "solution", "forces"}),
)
PATTERN = FolderContent(
    "pattern",
    frozenset({"pieces.dxf", "pieces.svg", "whole.pdf", "sheets.pdf", "lay.svg"})
    | {"cut_list.csv", "pattern.json", "pattern.html"},
    r"(?!)",
    "pattern.json",
    frozenset({"design", "pieces", "joins"}),
)
BY_THE_WAY = {".DS_Store", "Thumbs.db"}  # left by file managers that only looked
SPACE = 20_000_000  # bytes; the finest mesh that is solved takes less


def check_folder(folder: Path, content: FolderContent = RESULT, inputs: Iterable[Path] = ()) -> None:
    """Raise for a folder that a result must not replace or could not be written to.

    Parameters
    ----------
    folder : Path
        Where a result is to go; it need not be there.
    content : FolderContent
        What may stand there already.
    inputs : iterable of Path
        Everything that is read: none of it is ever replaced.

    Raises
    ------
    OSError
        For a file, a folder that holds anything but a result, the working folder, and a place that cannot be
        written or has no room.

    Examples
    --------
    >>> import tempfile
    >>> home = Path(tempfile.mkdtemp())
    >>> check_folder(home / "result")
    >>> (home / "notes.txt").touch()
    >>> try:
    ...     check_folder(home)
    ... except OSError as error:
    ...     print(error.strerror)
    has notes.txt, which is not part of a result; nothing was written, choose another folder
    """
    place, noun = Path(os.path.realpath(folder)), content.noun
    for each in inputs:
        if place in Path(os.path.realpath(each)).parents and os.path.lexists(place):
            sentence = f"has {each.name}, which is being read; nothing was written, choose another folder"
            raise OSError(EEXIST, sentence, str(folder))
    if os.path.lexists(place):
        _check_content(folder, place, content)
    above = next(parent for parent in place.parents if os.path.lexists(parent))
    if not above.is_dir():
        raise OSError(EEXIST, f"the {noun} cannot be written, {above} is not a folder", str(folder))
    if not os.access(above, os.W_OK | os.X_OK):
        raise OSError(EACCES, f"the {noun} cannot be written, you have no write permission in {above}", str(folder))
    with name_path(folder, f"the {noun} cannot be written"), suppress(FileNotFoundError):
        place.lstat()  # a name that is too long
    if shutil.disk_usage(above).free < SPACE:
        raise OSError(ENOSPC, f"the {noun} cannot be written, less than {SPACE / 1e6:.0f} MB are free", str(folder))


def _check_content(folder: Path, place: Path, content: FolderContent) -> None:
    """Raise for anything that is there already, unless it is of that content or empty."""
    noun = content.noun
    if not place.is_dir():
        raise OSError(EEXIST, f"this is a file or a broken link, choose a folder for the {noun}", str(folder))
    if place == Path.cwd() or os.path.ismount(place):
        sentence = f"this folder cannot be replaced by a {noun}, choose a new one, such as {noun}s/my_hammock"
        raise OSError(EEXIST, sentence, str(folder))
    with name_path(folder, "the folder cannot be read"):
        names = sorted(path.name for path in place.iterdir() if path.name not in BY_THE_WAY)
    foreign = [name for name in names if not _is_ours(name, content) or not (place / name).is_file()]
    if not foreign and names and not _holds_index(place / content.index_file, content):
        foreign = [name for name in names if name != content.index_file] or names
    if foreign:
        sentence = f"has {foreign[0]}, which is not part of a {noun}; nothing was written, choose another folder"
        raise OSError(EEXIST, sentence, str(folder))


def _is_ours(name: str, content: FolderContent) -> bool:
    """Return whether a file of that name is part of it."""
    return name in content.files or re.fullmatch(content.numbered, name) is not None


def _holds_index(file: Path, content: FolderContent) -> bool:
    """Return whether a file is an index of ours."""
    try:
        found = json.loads(file.read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError):
        return False
    return isinstance(found, dict) and content.keys <= set(found)


@contextmanager
def replace_folder(folder: Path, content: FolderContent = RESULT) -> Iterator[Path]:
    """Give a temporary folder beside ``folder`` that takes its place once the block is left in peace.

    On any exception, Ctrl-C included, the temporary folder is removed and what stood there stays as it was.

    Parameters
    ----------
    folder : Path
        The folder to be; missing folders above it are made.
    content : FolderContent
        What may stand there already, and be replaced.

    Yields
    ------
    Path
        Where to write.

    Raises
    ------
    OSError
        As :func:`check_folder`, or if something cannot be written; it names ``folder``.

    Examples
    --------
    >>> import tempfile
    >>> home = Path(tempfile.mkdtemp())
    >>> with replace_folder(home / "result") as place:
    ...     (place / "result.json").touch()
    >>> [file.name for file in (home / "result").iterdir()], len(list(home.iterdir()))
    (['result.json'], 1)
    """
    check_folder(folder, content)
    place = Path(os.path.realpath(folder))
    token = secrets.token_hex(6)
    fresh, old = (place.with_name(f".{token}.{word}") for word in ("new", "old"))  # short, as names may not be long
    try:
        with name_path(folder, f"the {content.noun} cannot be written"):
            fresh.mkdir(parents=True)
            yield fresh
            if os.path.lexists(place):
                place.rename(old)
            fresh.rename(place)
    except BaseException:
        if os.path.lexists(old) and not os.path.lexists(place):
            old.rename(place)
        raise
    finally:
        _remove(fresh, old)


def _remove(*folders: Path) -> None:
    """Remove what is left of temporary folders; an interrupt in between does not keep it from being done."""
    try:
        for folder in folders:
            shutil.rmtree(folder, ignore_errors=True)
    except KeyboardInterrupt:
        for folder in folders:
            shutil.rmtree(folder, ignore_errors=True)
        raise
