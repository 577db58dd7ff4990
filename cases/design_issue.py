"""What is wrong with a design file, and where."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import get_close_matches

from ..materials import escape_text, join_sentences

_PREDICATES = (
    "is ",
    "has ",
    "must ",
    "needs ",
    "does ",
    "divides ",
    "conflicts ",
)  # a message that goes on from its key
LONGEST_NAME = 60  # characters of a name that is compared with others


@dataclass(frozen=True)
class DesignIssue:
    """One issue of a design file.

    Parameters
    ----------
    file : str
        The file as the user named it.
    message : str
        What is wrong, and what to do. It may be a predicate of the key: ``is missing: ...``.
    line : int or None
        Counted from 1; None where the issue belongs to no line.
    key : str
        Dotted key, such as ``body.length``; empty where the issue belongs to no key.
    value : str
        The value as written; empty where there is none or the message shows it.

    Examples
    --------
    >>> print(DesignIssue("larch.toml", "needs a unit.", 4, "body.length", "'2.05'"))
    larch.toml:4: body.length = '2.05' needs a unit.
    """

    file: str
    message: str
    line: int | None = None
    key: str = ""
    value: str = ""

    @property
    def statement(self) -> str:
        """Key, value and message, without the place."""
        subject = f"{self.key} = {self.value}" if self.key and self.value else self.key
        if subject and self.message.startswith(_PREDICATES):
            return f"{subject} {self.message}"
        return f"{subject}: {self.message}" if subject else self.message

    def __str__(self) -> str:
        place = self.file if self.line is None else f"{self.file}:{self.line}"
        return escape_text(f"{place}: {self.statement}" if place else self.statement)


class InputError(Exception):
    """Input of a user that cannot be used; the message says what is wrong and what to do."""


class DesignError(Exception):
    """A design that cannot be used; ``faults`` has everything that is wrong with it, one record each.

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


def write_choices(known: Sequence[str]) -> str:
    """Return names to choose from: ``a, b or c``.

    Examples
    --------
    >>> write_choices(["parabola", "circle", "catenary"]), write_choices(["plate"])
    ('parabola, circle or catenary', 'plate')
    """
    return " or ".join([*([", ".join(known[:-1])] if len(known) > 1 else []), known[-1]])


def find_near(wrong: str, known: list[str]) -> str | None:
    """Return the known name nearest to a wrong one; None if none is near.

    Parameters
    ----------
    wrong : str
        Name as written.
    known : list of str
        Allowed names.

    Examples
    --------
    >>> find_near("lenght", ["length", "fabric"])
    'length'
    """
    near = get_close_matches(wrong[:LONGEST_NAME].lower(), [name.lower() for name in known], n=1, cutoff=0.55)
    return next(name for name in known if name.lower() == near[0]) if near else None


def suggest_name(wrong: str, known: list[str]) -> str:
    """Return ``Did you mean ...? `` with the nearest known name, or nothing if none is near.

    Parameters
    ----------
    wrong : str
        Name as written.
    known : list of str
        Allowed names.

    Returns
    -------
    str
        A question with a space after it, or the empty text.

    Examples
    --------
    >>> suggest_name("lenght", ["length", "fabric"])
    'Did you mean length? '
    """
    near = find_near(wrong, known)
    return f"Did you mean {near}? " if near else ""
