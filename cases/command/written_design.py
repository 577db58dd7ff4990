"""A design of a sweep or a search that was written to a file of its own, told in words."""

from pathlib import Path
from typing import TYPE_CHECKING

from .say import say

if TYPE_CHECKING:
    from ..studies.compare.export_design import Extract


def tell_design(path: Path, extract: "Extract", words: str = "") -> None:
    """Say where a design was written, what is to be known of it, and which of its files are elsewhere."""
    say(f"Written to {path}{words}")
    if extract.moved:
        say(f"Its files of materials are elsewhere: {', '.join(extract.moved)}.")
