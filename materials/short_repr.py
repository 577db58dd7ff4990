"""What a record says of itself in a session: one line with its key numbers and their units."""

from math import isfinite

from .display import format_quantity
from .printable import escape_text
from .units import DIMENSIONS

LONGEST = 118  # characters of a line


def write_repr(record: object, *pieces: str) -> str:
    r"""Return the short line of a record: its kind and what is worth telling, the most important first.

    Parameters
    ----------
    record : object
        Whose kind is told.
    *pieces : str
        Those that no longer fit are left out, a first one that is too long is cut; empty ones count for nothing.

    Returns
    -------
    str
        ``<Kind piece, piece>``, on one line of at most :data:`LONGEST` characters.

    Examples
    --------
    >>> write_repr(1.0, "first\nline", "", "second"), write_repr(1.0, "first", "2" * 200)
    ('<float first\\nline, second>', '<float first, ...>')
    """
    start = f"<{type(record).__name__}"
    room = LONGEST - len(start) - len(", ...>")
    shown: list[str] = []
    texts = [escape_text(piece) for piece in pieces if piece]
    for text in texts:
        if shown and len(", ".join([*shown, text])) >= room:
            return f"{start} {', '.join(shown)}, ...>"
        shown.append(text if len(text) < room else f"{text[: room - 4]}...")
    return f"{' '.join([start, ', '.join(shown)]).rstrip()}>"


def write_value(value: float | None, dimension: str) -> str:
    """Return a quantity for the short line of a record, whatever it holds: such a line must never fail.

    Parameters
    ----------
    value : float or None
        SI value; None is not known.
    dimension : str
        One of ``DIMENSIONS``.

    Examples
    --------
    >>> write_value(0.0373, "areal_mass"), write_value(None, "length"), write_value(float("nan"), "length")
    ('37.3 g/m2', 'unknown', 'nan')
    """
    if value is None:
        return "unknown"
    return format_quantity(value, dimension) if isfinite(value) and dimension in DIMENSIONS else f"{value:.3g}"
