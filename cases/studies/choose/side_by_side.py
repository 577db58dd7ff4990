"""Several searches side by side, each in a thread of its own: what they ask for is solved together.

A round waits until every search that goes on has asked, so that what is solved together, and with it every result, does
not depend on how fast any of them is.
"""

import threading
from collections.abc import Callable, Sequence
from queue import SimpleQueue
from typing import Generic, TypeVar

Q = TypeVar("Q")
A = TypeVar("A")
R = TypeVar("R")


class _Line(Generic[Q, A]):
    """What one search asks, and what it is answered."""

    def __init__(self) -> None:
        self.asked: SimpleQueue[Q | None] = SimpleQueue()
        self.answers: SimpleQueue[A] = SimpleQueue()

    def ask(self, question: Q) -> A:
        """Ask, and wait for the answer."""
        self.asked.put(question)
        return self.answers.get()


def run_side_by_side(
    searches: Sequence[Callable[[Callable[[Q], A]], R]], solve: Callable[[list[Q]], list[A]]
) -> list[R]:
    """Run searches until all have ended, and return their ends.

    Parameters
    ----------
    searches : sequence of callable
        Each receives a function that answers a question.
    solve : callable
        Answers the questions of one round; it runs in the thread that calls this.

    Examples
    --------
    >>> def count(ask):
    ...     return ask(1) + ask(2)
    >>> run_side_by_side([count, count], lambda questions: [10 * each for each in questions])
    [30, 30]
    """
    lines = [_Line[Q, A]() for _ in searches]
    ends: dict[int, R | BaseException] = {}

    def work(place: int) -> None:
        try:
            ends[place] = searches[place](lines[place].ask)
        except BaseException as error:  # raised again where it is seen
            ends[place] = error
        lines[place].asked.put(None)

    for place in range(len(searches)):
        threading.Thread(target=work, args=(place,), daemon=True).start()
    going = list(range(len(searches)))
    while going:
        questions = {place: lines[place].asked.get() for place in going}
        going = [place for place in going if questions[place] is not None]
        asked = [question for place in going if (question := questions[place]) is not None]
        for place, answer in zip(going, solve(asked) if asked else [], strict=True):
            lines[place].answers.put(answer)
    found = []
    for _, end in sorted(ends.items()):
        if isinstance(end, BaseException):
            raise end
        found.append(end)
    return found
