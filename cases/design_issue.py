"""What is wrong with a design file, and where."""

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

from ..materials import escape_text, join_sentences

LONGEST_NAME = 60  # characters of a name that is compared with others


@dataclass(frozen=True)
class DesignIssue:
    """One fault of a design file.

    Parameters
    ----------
    file : str
        The file as the user named it.
    message : str
        One sentence: what is wrong, what is allowed, what to do. It may go on from the key: ``is missing; ...``.
    line : int or None
        Counted from 1; None where the fault belongs to no line.
    key : str
        Dotted key, such as ``body.length``; empty where the fault belongs to no key.
    value : str
        The value as written; empty where there is none or the message shows it.

    Examples
    --------
    >>> print(DesignIssue("larch.toml", "the unit is missing.", 4, "body.length", "2.05"))
    larch.toml:4: body.length = 2.05: the unit is missing.
    """

    file: str
    message: str
    line: int | None = None
    key: str = ""
    value: str = ""

    def __str__(self) -> str:
        place = self.file if self.line is None else f"{self.file}:{self.line}"
        subject = f"{self.key} = {self.value}" if self.key and self.value else self.key
        if subject and self.message.startswith("is "):
            return escape_text(f"{place}: {subject} {self.message}")
        return escape_text(": ".join(part for part in (place, subject, self.message) if part))


class InputError(Exception):
    """Something a user gave that cannot be used; the message is one sentence: what is wrong and what to do."""


class DesignError(Exception):
    """A design that cannot be used; ``faults`` holds everything that is wrong with it, one record each.

    Examples
    --------
    >>> print(DesignError([DesignIssue("larch.toml", "it is empty.")]))
    larch.toml: it is empty.
    """

    def __init__(self, faults: list[DesignIssue]) -> None:
        super().__init__(faults)
        self.faults = tuple(sorted(faults, key=lambda fault: (fault.line is None, fault.line or 0)))

    def __str__(self) -> str:
        return join_sentences(self.faults)


def write_path(path: Iterable[str | int]) -> str:
    """Return keys from the top as they are shown; entries of a list are counted from 1.

    Examples
    --------
    >>> write_path(("head_bar", "part", 0, "length"))
    'head_bar.part.1.length'
    """
    return ".".join(str(key + 1) if isinstance(key, int) else key for key in path)


def suggest_name(wrong: str, known: list[str]) -> str:
    """Return ``did you mean ...? `` with the nearest known name, or nothing if none is near.

    Parameters
    ----------
    wrong : str
        What was written.
    known : list of str
        What may be written.

    Returns
    -------
    str
        A question with a space after it, or the empty text.

    Examples
    --------
    >>> suggest_name("lenght", ["length", "fabric"])
    'did you mean length? '
    """
    near = get_close_matches(wrong[:LONGEST_NAME].lower(), [name.lower() for name in known], n=1, cutoff=0.55)
    return f"did you mean {next(name for name in known if name.lower() == near[0])}? " if near else ""
