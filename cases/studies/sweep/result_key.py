"""What determines a result, as one short text: equal keys mean equal results."""

import hashlib
import json
from functools import lru_cache
from importlib.metadata import version
from importlib.resources import files
from pathlib import Path
from typing import Any

from .setting import FIXED

_ROOMS = ("solver", "materials", "making", "hammock", "cutting", "meshing", "cases")
_LIBRARIES = ("numpy", "scipy", "numba")


@lru_cache(maxsize=1)
def find_engine() -> str:
    """Return the version of the program with a hash of everything it computes with, libraries included."""
    digest = hashlib.sha256()
    for room in _ROOMS:
        home = Path(str(files(f"tautlay.{room}")))
        for file in sorted(file for end in ("py", "toml") for file in home.rglob(f"*.{end}")):
            digest.update(f"{room}/{file.relative_to(home)}".encode())
            digest.update(file.read_bytes())
    for library in _LIBRARIES:
        digest.update(f"{library} {version(library)}".encode())
    return f"{version('tautlay')} {digest.hexdigest()[:16]}"


def make_key(tables: dict[str, Any], materials: tuple[bytes, ...], settings: dict[str, Any], start: str) -> str:
    """Return the key of a result.

    Parameters
    ----------
    tables : dict
        Of the design, as TOML sees them; its name and how it is reported do not count.
    materials : tuple of bytes
        The design's own files of materials.
    settings : dict
        How it is solved: mesh, hot spots.
    start : str
        Key of the result whose shape it starts from; empty from the flat cloth.

    Examples
    --------
    >>> one = make_key({"design": {"name": "a"}, "body": {"length": "2 m"}}, (), {}, "")
    >>> one == make_key({"design": {"name": "b"}, "body": {"length": "2 m"}}, (), {}, "")
    True
    >>> one == make_key({"body": {"length": "2.1 m"}}, (), {}, "")
    False
    """
    counted = {name: table for name, table in tables.items() if name not in FIXED}
    contents = [hashlib.sha256(content).hexdigest() for content in materials]
    whole = json.dumps([find_engine(), counted, contents, settings, start], sort_keys=True, default=str)
    return hashlib.sha256(whole.encode()).hexdigest()[:32]
