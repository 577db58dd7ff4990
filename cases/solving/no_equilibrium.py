"""The error for a hammock without an equilibrium."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


class NoEquilibriumError(Exception):
    """No equilibrium was found; the message says why and what to do."""


@contextmanager
def name_file(path: Path) -> Iterator[None]:
    """Put the name of a design's file before what went wrong in solving it."""
    try:
        yield
    except NoEquilibriumError as error:
        raise NoEquilibriumError(f"{path}: {error}") from None
