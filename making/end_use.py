"""Cord or webbing that an end needs beyond the finished length."""

from collections.abc import Sequence

from ..materials import make_sentence
from .capacity import CapacityStep
from .cord_termination import CordTermination, TerminationType


def measure_end(ending: CordTermination) -> tuple[float, CapacityStep]:
    """Return the cord an end needs beyond the finished length, m: bury or lap, and tail.

    The tail is the second leg of an eye, what a knot or a loop takes, and the free end.

    Parameters
    ----------
    ending : CordTermination
        One end.

    Returns
    -------
    tuple of float and Step
        m, and what it is; a missing tail counts as none, see :func:`is_tail_told`.

    Examples
    --------
    >>> more, step = measure_end(CordTermination(TerminationType.SPLICE, bury=0.15, tail=0.04))
    >>> round(more, 3), str(step.text)
    (0.19, 'spliced eye: bury of 15.0 cm, tail of 4.00 cm')
    """
    pieces = [("bury", ending.bury), ("lap", ending.lap), ("tail", ending.tail)]
    given = [make_sentence("{name} of {length:length}", name=name, length=length) for name, length in pieces if length]
    text = make_sentence("{made}: {what}", made=ending.method.value, what=_join(given))
    return sum(length or 0.0 for _, length in pieces), CapacityStep(text, "the design", "stated")


def is_tail_told(ending: CordTermination) -> bool:
    """Return whether the whole end is described; a cord that runs on has no tail."""
    return ending.tail is not None or ending.method is TerminationType.RUNS_ON


def _join(pieces: Sequence[str]) -> str:
    """Return sentences as one that keeps their quantities; nothing is ``no tail``."""
    if not pieces:
        return "no tail"
    whole = pieces[0]
    for piece in pieces[1:]:
        whole = make_sentence("{first}, {second}", first=whole, second=piece)
    return whole
