"""The page of a pattern, drawn while its folder is being written."""

from pathlib import Path

from ..patterns.pattern import Pattern


def draw_page(pattern: Pattern, folder: Path) -> None:
    """Write the page to sew from into a folder.

    Parameters
    ----------
    pattern : Pattern
        What is sewn.
    folder : Path
        Where its other files are.
    """
    from ...viewer import write_pattern_page

    write_pattern_page(pattern, folder / "pattern.html")
