"""Files appear whole or not at all: write beside, then rename."""

import json
import os
import secrets
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from errno import EISDIR
from pathlib import Path


@contextmanager
def name_path(path: Path, failure: str) -> Iterator[None]:
    """Let an error of the file system name ``path``, as the user did, and not a temporary file.

    Parameters
    ----------
    path : Path
        What the user asked for.
    failure : str
        What could not be done, as the first half of a sentence.

    Raises
    ------
    OSError
        With ``path`` as its file name.

    Examples
    --------
    >>> with name_path(Path("a.txt"), "the file cannot be written"):
    ...     raise OSError(28, "No space left on device")
    Traceback (most recent call last):
    OSError: [Errno 28] the file cannot be written: no space left on device: 'a.txt'
    """
    try:
        yield
    except OSError as error:
        first: BaseException = error
        while isinstance(first.__cause__, OSError):
            first = first.__cause__  # the system's own words, where a file inside a folder has been named already
        reason = getattr(first, "strerror", None) or str(first)
        raise OSError(error.errno, f"{failure}: {reason[:1].lower()}{reason[1:]}", str(path)) from error


@contextmanager
def write_beside(path: Path) -> Iterator[Path]:
    """Give a temporary file beside ``path``, renamed to ``path`` once the block is left in peace.

    The name keeps the suffix, by which writers choose a format. On any exception, Ctrl-C included, the
    temporary file is removed and what stood at ``path`` before stays as it was.

    Parameters
    ----------
    path : Path
        The file to be; missing folders above it are made.

    Yields
    ------
    Path
        Where to write.

    Raises
    ------
    OSError
        If the folder cannot be made or written, or ``path`` is a folder.

    Examples
    --------
    >>> import tempfile
    >>> folder = Path(tempfile.mkdtemp())
    >>> with write_beside(folder / "note.txt") as beside:
    ...     _ = beside.write_text("whole", encoding="utf-8")
    >>> [file.name for file in folder.iterdir()]
    ['note.txt']
    """
    if not path.name:  # such as "." or "/"
        raise IsADirectoryError(EISDIR, "this is a folder, choose a file in it", str(path))
    beside = path.with_name(f".{secrets.token_hex(6)}{path.suffix}")
    try:
        with name_path(path, "the file cannot be written"):
            path.parent.mkdir(parents=True, exist_ok=True)
            yield beside
            beside.replace(path)
    except BaseException:
        with suppress(OSError):  # it may never have come to be; the error on its way says why
            beside.unlink()
        raise


def write_text(path: Path, text: str) -> None:
    """Write ``text`` as UTF-8, whole or not at all.

    Parameters
    ----------
    path : Path
        The file to be.
    text : str
        What it holds.

    Raises
    ------
    OSError
        If it cannot be written.

    Examples
    --------
    >>> import tempfile
    >>> file = Path(tempfile.mkdtemp()) / "note.txt"
    >>> write_text(file, "hang low")
    >>> file.read_text(encoding="utf-8")
    'hang low'
    """
    with write_beside(path) as beside, beside.open("w", encoding="utf-8", newline="\n") as stream:
        stream.write(text)
        stream.flush()
        os.fsync(stream.fileno())


def write_json(path: Path, found: object) -> None:
    """Write plain numbers and words as JSON that every reader takes.

    Parameters
    ----------
    path : Path
        File.
    found : object
        Made of dict, list, str, finite numbers, bool and None.

    Raises
    ------
    ValueError
        For a number that is not finite.
    """
    write_text(path, json.dumps(found, indent=2, allow_nan=False) + "\n")
