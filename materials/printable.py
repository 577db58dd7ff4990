"""Text of users, made safe for a message: short, and without codes that move a terminal's cursor."""

from collections.abc import Iterable
from unicodedata import category

LONGEST_VALUE = 60  # characters of a value shown in a message
MOST_SENTENCES = 40  # of one report
_TURNING = {chr(code) for code in (*range(0x202A, 0x202F), *range(0x2066, 0x206A))}  # show a text in another order


def show_value(value: object) -> str:
    """Return a value for a message: short, on one line.

    Parameters
    ----------
    value : object
        Value read from TOML.

    Returns
    -------
    str
        Text in quotes, numbers plain, anything large by its type.

    Examples
    --------
    >>> show_value("2 m"), show_value(True), show_value({"depth": 1})
    ("'2 m'", 'true', 'a table')
    """
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, list):
        return "a list"
    if isinstance(value, int) and abs(value) >= 10**LONGEST_VALUE:
        return "a huge number"
    shown = repr(value) if isinstance(value, str) else str(value)
    return shown if len(shown) <= LONGEST_VALUE else f"{shown[:LONGEST_VALUE]}..."


def escape_text(text: str) -> str:
    r"""Return a text with control characters written as their code.

    Examples
    --------
    >>> print(escape_text("red \x1b[31m"))
    red \x1b[31m
    """
    return text if text.isprintable() else "".join(c if c.isprintable() else repr(c)[1:-1] for c in text)


def find_control(text: str) -> str | None:
    r"""Return the first character that moves a cursor or turns the direction of writing, by its code; None for none.

    Line breaks and tabs are none.

    Examples
    --------
    >>> print(find_control("one\n\ttwo"), find_control("red \x1b[31m"))
    None \x1b
    """
    if text.isprintable():
        return None
    for character in text:
        if not character.isprintable() and character not in "\n\t" and category(character) in ("Cc", "Cs"):
            return escape_text(character)
        if character in _TURNING:
            return escape_text(character)
    return None


def join_sentences(sentences: Iterable[object]) -> str:
    r"""Return sentences one below the other; of very many the first, and how many more there are.

    Examples
    --------
    >>> join_sentences(range(20_000)).splitlines()[-1]
    'and 19,960 more.'
    """
    shown = [str(sentence) for sentence in sentences]
    more = len(shown) - MOST_SENTENCES
    return "\n".join(shown if more <= 0 else [*shown[:MOST_SENTENCES], f"and {more:,} more."])
