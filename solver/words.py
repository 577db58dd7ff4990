"""How records of the solver put themselves into one short line."""

import numpy as np

from .element import Floats


def show_range(values: Floats, unit: str) -> str:
    """Return the least and the greatest of some values, or the one there is.

    Examples
    --------
    >>> show_range(np.array([12.0, 331.84]), "N"), show_range(np.array([5.0]), "N")
    ('12 to 332 N', '5 N')
    """
    low, high = f"{np.min(values):.3g}", f"{np.max(values):.3g}"
    return f"{low} {unit}" if low == high else f"{low} to {high} {unit}"


def show_count(count: int, noun: str) -> str:
    """Return so many of something.

    Examples
    --------
    >>> show_count(1, "strut"), show_count(12, "strut")
    ('1 strut', '12 struts')
    """
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"


def show_part(part: object, most: int) -> str:
    """Return a part in its own words, or its kind alone if they are more than ``most`` characters.

    Examples
    --------
    >>> show_part((1, 2), 20), show_part((1, 2), 3)
    ('(1, 2)', 'tuple(...)')
    """
    words = repr(part)
    return words if len(words) <= most and "\n" not in words else f"{type(part).__name__}(...)"
