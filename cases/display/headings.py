"""What a report and a picture are headed with: the name of the design, and what the hammock carries."""

from typing import NamedTuple

from ...hammock import LoadCase


class PrintHeading(NamedTuple):
    """A line, and a sentence on what it means."""

    title: str
    meaning: str


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
    words, meaning = (text.format(factor=factor) for text in (load.words, load.meaning))
    return PrintHeading(f"{title}, {words}", meaning)
