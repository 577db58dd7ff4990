"""Compiled loops kept on disk: each in a file of its own, whose checksum is verified before anything reads it.

Numba's own cache trusts what it finds: a damaged file ends the program in its libraries, and two programs that compile
at once may give each other's loops away. Here a file is named by all that determines its content, holds the checksum of
the rest, appears whole or not at all, and is thrown away when it does not fit.
"""

import hashlib
import logging
import os
import pickle
import secrets
import shutil
import sys
from collections.abc import Callable, Iterator
from contextlib import suppress
from functools import cache
from importlib.metadata import version
from pathlib import Path
from typing import Any

from numba.core.compiler import CompileResult
from numba.core.serialize import dumps

_rebuild: Any = CompileResult._rebuild  # numba's own cache calls these two; they have no types
_dump: Any = dumps
_HEAD = b"tautlay kernel 1\n"
_KEPT = 16  # folders of other versions that stay
_LIBRARIES = ("tautlay", "numba", "llvmlite", "numpy")


class KernelCache:
    """What one loop compiles to, as numba's dispatcher asks for it.

    Parameters
    ----------
    function : callable
        The loop.
    """

    def __init__(self, function: Callable[..., object]) -> None:
        self.function = function

    @property
    def cache_path(self) -> str | None:
        """The folder with the files; None where nothing can be kept."""
        folder = find_folder(Path(self.function.__code__.co_filename).parent)
        return None if folder is None else str(folder)

    def load_overload(self, signature: tuple[Any, ...], context: Any) -> Any:  # noqa: ANN401 - numba has no types
        """Return what a signature was compiled to; None where that is not kept or is damaged."""
        context.refresh()
        file = self._find_file(signature, context)
        if file is None:
            return None
        try:
            content = file.read_bytes()
        except OSError:
            return None  # nothing kept; a folder that cannot be used is told of when something is to be kept
        start = len(_HEAD) + hashlib.sha256().digest_size
        if content[:start] != _HEAD + hashlib.sha256(content[start:]).digest():
            with suppress(OSError):  # another program has thrown it away already
                file.unlink()
            _say(f"A compiled loop in {file.parent} is damaged. It is thrown away and compiled anew.")
            return None
        return _rebuild(context, *pickle.loads(content[start:]))

    def save_overload(self, signature: tuple[Any, ...], result: Any) -> None:  # noqa: ANN401
        """Keep what a signature was compiled to, if there is a place for it."""
        file = self._find_file(signature, result.target_context)
        if file is None or result.lifted or result.library.has_dynamic_globals:  # holds addresses of this process
            return
        content = _dump(result._reduce())
        beside = file.with_name(f".{secrets.token_hex(6)}")
        try:
            beside.write_bytes(_HEAD + hashlib.sha256(content).digest() + content)
            beside.replace(file)
        except OSError as error:
            with suppress(OSError):
                beside.unlink()
            _say(f"Compiled loops cannot be kept in {file.parent} ({error.strerror}). The next start compiles again.")

    def flush(self) -> None:
        """Throw away what is kept of this loop."""
        folder = self.cache_path
        for file in Path(folder).glob(f"{self._name}-*") if folder else ():
            file.unlink(missing_ok=True)

    def enable(self) -> None:
        """Do nothing: it is always on."""

    def disable(self) -> None:
        """Do nothing: it is always on."""

    @property
    def _name(self) -> str:
        """The loop in the names of files."""
        return f"{self.function.__module__.split('.')[-1]}.{self.function.__qualname__}".replace("<locals>", "")

    def _find_file(self, signature: tuple[Any, ...], context: Any) -> Path | None:  # noqa: ANN401
        """Return the file for a signature on this processor."""
        folder = self.cache_path
        if folder is None:
            return None
        whole = repr((self.function.__module__, str(signature), context.codegen().magic_tuple()))
        return Path(folder) / f"{self._name}-{hashlib.sha256(whole.encode()).hexdigest()[:24]}"


@cache
def find_folder(sources: Path) -> Path | None:
    """Return the folder for loops of ``sources``, made if it is not there; None where none can be written.

    It lies in ``NUMBA_CACHE_DIR``, else ``XDG_CACHE_HOME``, else the cache folder of the user. Its name has the version
    and a stamp of everything that determines what is compiled. Files in it are run, so that it must belong to the user
    alone.

    Parameters
    ----------
    sources : Path
        Folder of the Python files that are compiled.
    """
    stamp = _stamp_sources(sources)
    for base in _list_bases():
        home = base / "tautlay"
        try:
            home.mkdir(mode=0o700, parents=True, exist_ok=True)
            if not _is_private(home):
                continue
            folder = home / f"{version('tautlay')}-{stamp}"
            if not folder.is_dir():
                _remove_old(home)
                folder.mkdir(mode=0o700, exist_ok=True)
            os.utime(folder)  # used now
        except OSError:
            continue
        return folder
    _say(
        "There is no folder in which compiled loops can be kept: every start takes half a minute longer. Set "
        "XDG_CACHE_HOME to a folder of your own."
    )
    return None


def _stamp_sources(sources: Path) -> str:
    """Return a short text that differs where anything differs that loops are compiled from, or with."""
    digest = hashlib.sha256(repr((sys.version, sys.implementation.cache_tag)).encode())
    for library in _LIBRARIES:
        digest.update(f"{library} {version(library)}".encode())
    for name, value in sorted(os.environ.items()):
        if name.startswith("NUMBA_") and name != "NUMBA_CACHE_DIR":  # such as NUMBA_BOUNDSCHECK
            digest.update(f"{name}={value}".encode(errors="surrogateescape"))
    for folder in sorted({sources, Path(__file__).parent}):
        for file in sorted(folder.glob("*.py")):
            digest.update(f"{folder.name}/{file.name}".encode(errors="surrogateescape"))
            digest.update(file.read_bytes())
    return digest.hexdigest()[:16]


def _list_bases() -> Iterator[Path]:
    """Yield where cache folders may lie, the best first."""
    for name in ("NUMBA_CACHE_DIR", "XDG_CACHE_HOME"):
        if Path(os.environ.get(name, "")).is_absolute():
            yield Path(os.environ[name])
    if sys.platform == "win32" and os.environ.get("LOCALAPPDATA"):
        yield Path(os.environ["LOCALAPPDATA"])
    with suppress(RuntimeError):  # a user without a home; one that is named and not there is not made
        if Path.home().is_dir():
            yield Path.home() / ("Library/Caches" if sys.platform == "darwin" else ".cache")


def _is_private(folder: Path) -> bool:
    """Return whether nobody but this user can put a file into a folder."""
    if not hasattr(os, "getuid"):
        return True
    found = folder.stat()
    return found.st_uid == os.getuid() and not found.st_mode & 0o022


def _remove_old(home: Path) -> None:
    """Remove folders of other versions, but for those used last."""
    with suppress(FileNotFoundError):  # another program is doing the same
        folders = sorted(home.iterdir(), key=lambda folder: folder.stat().st_mtime, reverse=True)
        for folder in folders[_KEPT:]:
            shutil.rmtree(folder, ignore_errors=True)  # whoever uses it compiles again


@cache
def _say(sentence: str) -> None:
    """Tell something once: on standard error, unless the program that uses this package logs elsewhere."""
    logging.getLogger("tautlay").warning(sentence)
