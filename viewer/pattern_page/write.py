"""The page of a pattern written to a file."""

from pathlib import Path

from ...cases.patterns.pattern import Pattern
from ...cases.storage.atomic import write_text
from .page import compose_pattern_page


def write_pattern_page(pattern: Pattern, html_path: Path) -> None:
    """Write the page to sew from.

    Parameters
    ----------
    pattern : Pattern
        From :func:`~tautlay.cases.draft_pattern`.
    html_path : Path
        File to write, whole or not at all.

    Raises
    ------
    OSError
        If the page cannot be written.
    """
    write_text(html_path, compose_pattern_page(pattern))
