"""What a study that solves again and again tells of itself: what it is at, and how long the rest takes."""

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from statistics import mean

from .line_callback import LineCallback

_WARM = 0.35  # of the first solve: one that starts from a shape that was found takes a fifth to a half


class SolveClock:
    """Counts solves and tells about how long those to come take, from what the ones before took.

    The first one starts from the flat cloth and counts only until there are others.

    Parameters
    ----------
    report : callable or None
        Receives a line before each solve.
    expected : int
        How many solves there will be, as far as can be told.
    clock : callable
        Tells the time, s.

    Examples
    --------
    >>> times = iter([0.0, 10.0, 10.0, 14.0, 14.0, 18.0])
    >>> clock = SolveClock(print, 5, clock=lambda: next(times))
    >>> for shift in ("1 cm", "2 cm", "3 cm"):
    ...     with clock.solve(shift):
    ...         pass
    1 cm
    2 cm, about 14 s left
    3 cm, about 12 s left
    """

    def __init__(
        self, report: LineCallback | None, expected: int, clock: Callable[[], float] = time.perf_counter
    ) -> None:
        self.report, self.expected, self.clock = report, expected, clock
        self.spent: list[float] = []

    @contextmanager
    def solve(self, words: str) -> Iterator[str]:
        """Tell what is solved in the block, and give the line that was told; time the block."""
        line = f"{words}{self._estimate()}"
        if self.report is not None:
            self.report(line)
        begun = self.clock()
        try:
            yield line
        finally:
            self.spent.append(self.clock() - begun)

    def expect(self, more: int) -> None:
        """Take note of how many solves are still to come."""
        self.expected = len(self.spent) + more

    def _estimate(self) -> str:
        """Return the time left as the end of a line; nothing before there is something to tell it from."""
        if not self.spent:
            return ""
        each = mean(self.spent[1:]) if len(self.spent) > 1 else _WARM * self.spent[0]
        return f", about {write_seconds(max(self.expected - len(self.spent), 1) * each)} left"


def write_seconds(seconds: float) -> str:
    """Return a time in words.

    Examples
    --------
    >>> write_seconds(0.3), write_seconds(75.0), write_seconds(600.0), write_seconds(9000.0)
    ('1 s', '75 s', '10 min', '2.5 h')
    """
    if seconds < 90.0:
        return f"{max(seconds, 1.0):.0f} s"
    return f"{seconds / 60:.0f} min" if seconds < 5400.0 else f"{seconds / 3600:.1f} h"
