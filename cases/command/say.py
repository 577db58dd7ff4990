"""What commands say on a terminal: whatever a name holds, it cannot move the cursor or change colours."""

import click

from ...materials import escape_text


def say(text: str, *, err: bool = False) -> None:
    r"""Print lines, control characters in them as their codes.

    Parameters
    ----------
    text : str
        One or more lines.
    err : bool
        Whether it goes to standard error.

    Examples
    --------
    >>> say("Written to red\x1b[31m")
    Written to red\x1b[31m
    """
    click.echo(escape_lines(text), err=err)


def escape_lines(text: str) -> str:
    r"""Return lines with control characters as their codes.

    Examples
    --------
    >>> print(escape_lines("one\ntwo\a"))
    one
    two\x07
    """
    return "\n".join(map(escape_text, text.split("\n")))
