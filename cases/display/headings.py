"""What a report and a picture are headed with: the name of the design, and what the hammock carries."""

from typing import NamedTuple

from ...hammock import LoadCase


class PrintHeading(NamedTuple):
    """A line, and a sentence on what it means."""

    title: str
    meaning: str


_CASES = {
    "distributed": ("spread weight", "The weight of somebody lying on the back, spread over the cloth."),
    "lying": ("lying", "A jointed person in contact with smooth cloth."),
    "sitting": (
        "sitting across",
        "The spread weight of somebody who sits facing left, feet over the left side; how the body tips is left out.",
    ),
    "sudden": (
        "sudden, {factor:g} x weight",
        "The spread weight times {factor:g}; 2 stands for letting go while just touching, a drop asks for more.",
    ),
}


def write_heading(name: str, load: LoadCase | None = None, factor: float = 1.0) -> PrintHeading:
    """Return how a result is headed.

    Parameters
    ----------
    name : str
        Of the design.
    load : LoadCase or None
        What the person does; None tells the name only.
    factor : float
        On the person's weight.

    Returns
    -------
    PrintHeading
        Title and meaning.

    Examples
    --------
    >>> write_heading("Larch Ridge", LoadCase.SUDDEN, 2.0).title
    'Larch Ridge: loaded shape, sudden, 2 x weight'
    """
    title = f"{name}: loaded shape"
    if load is None:
        return PrintHeading(title, "")
    words, meaning = (text.format(factor=factor) for text in _CASES[load])
    return PrintHeading(f"{title}, {words}", meaning)
