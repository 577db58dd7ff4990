"""How a value is shown: in SI, in the maker's units, or in both."""

from typing import Literal

from ..materials import Sentence, System, format_quantity

Units = Literal["metric", "imperial", "both"]
WIDTH = 80  # columns of the narrowest terminal that is served
SYSTEMS: tuple[System, ...] = ("metric", "imperial")


def show_quantity(value: float, dimension: str, units: Units = "both", digits: int = 3) -> str:
    """Return a value in the units asked for.

    Parameters
    ----------
    value : float
        SI value.
    dimension : str
        A dimension known to materials, such as ``"force"``.
    units : {"metric", "imperial", "both"}
        Which units; an angle is the same in all.
    digits : int
        Significant digits.

    Returns
    -------
    str
        Number and unit; with ``"both"`` the second unit in brackets.

    Examples
    --------
    >>> show_quantity(444.82, "force"), show_quantity(444.82, "force", "imperial")
    ('445 N (100 lbf)', '100 lbf')
    """
    if units != "both":
        return format_quantity(value, dimension, units, digits)
    metric, imperial = (format_quantity(value, dimension, system, digits) for system in SYSTEMS)
    return metric if metric == imperial else f"{metric} ({imperial})"


def write_sentence(text: str, units: Units = "both") -> str:
    """Return a sentence with its quantities in the units asked for; any other text as it is.

    Parameters
    ----------
    text : str or Sentence
        What is to be printed.
    units : {"metric", "imperial", "both"}
        Which units.

    Returns
    -------
    str
        Text.

    Examples
    --------
    >>> from tautlay.materials import say
    >>> write_sentence(say("It hangs {low:length} above the ground.", low=0.254), "imperial")
    'It hangs 10.0 in above the ground.'
    """
    if not isinstance(text, Sentence):
        return text
    return text.write(lambda value, dimension, digits: show_quantity(value, dimension, units, digits))
