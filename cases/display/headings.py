"""What a report and a picture are headed with: the name of the design, and what the hammock carries."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from ...hammock.load_case import find_load_case


class PrintHeading(NamedTuple):
    """A line, and a sentence on what it means."""

    title: str
    meaning: str


def write_heading(design: Mapping[str, Any]) -> PrintHeading:
    """Return how a result is headed.

    Parameters
    ----------
    design : mapping
        ``summary["design"]``; without a load case only the name is told.

    Returns
    -------
    PrintHeading
        Title and meaning.

    Examples
    --------
    >>> write_heading({"name": "Larch Ridge", "load": "sudden", "load_factor": 2.0}).title
    'Larch Ridge: loaded shape, sudden, 2 x weight'
    """
    title = f"{design['name']}: loaded shape"
    if "load" not in design:
        return PrintHeading(title, "")
    load = find_load_case(design["load"])
    words, meaning = (text.format(factor=design["load_factor"]) for text in (load.words, load.meaning))
    return PrintHeading(f"{title}, {words}", meaning)
