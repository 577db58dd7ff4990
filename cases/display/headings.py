"""What a report and a picture are headed with: the name of the design, and what the hammock carries."""

from collections.abc import Mapping
from typing import Any, NamedTuple


class PrintHeading(NamedTuple):
    """A line, and a sentence on what it means."""

    title: str
    meaning: str


_CASES = {
    "distributed": ("spread weight", "The weight of a person lying on the back, spread over the cloth."),
    "lying": ("lying", "A jointed person in contact with smooth cloth."),
    "sitting": (
        "sitting across",
        "The spread weight of a person who sits facing left, feet over the left side; tipping of the body is ignored.",
    ),
    "sudden": (
        "sudden, {factor:g} x weight",
        "The spread weight times {factor:g}. 2 means letting go while just touching the cloth; a drop needs more.",
    ),
}


def write_heading(design: Mapping[str, Any]) -> PrintHeading:
    """Return how a result is headed.

    Parameters
    ----------
    design : mapping
        ``summary["design"]``; without a load case only the name.

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
    words, meaning = (text.format(factor=design["load_factor"]) for text in _CASES[design["load"]])
    return PrintHeading(f"{title}, {words}", meaning)
