"""What a search says while it works: how many are solved, the best so far, and how long it takes at most."""

import time
from typing import NamedTuple

from ...unit_display import Units, show_quantity
from ..line_callback import LineCallback


class SearchState(NamedTuple):
    """Where a search is.

    Parameters
    ----------
    solved, left : int
        Designs that are solved, and that are left at most.
    best, floor : float or None
        Weight of the best so far, and that below which nothing passes, kg.
    """

    solved: int
    best: float | None
    floor: float | None
    left: int


class SearchNews:
    """Writes the line of progress.

    Parameters
    ----------
    report : callable or None
        Receives the line.
    units : {"metric", "imperial", "both"}
        Units.
    """

    def __init__(self, report: LineCallback | None, units: Units) -> None:
        self.report, self.units = report, units
        self.begun, self.first = time.monotonic(), -1

    def tell(self, state: SearchState) -> None:
        """Say where the search is."""
        if self.report is None:
            return
        if self.first < 0:
            self.begun, self.first = time.monotonic(), state.solved
        self.report(f"{self._write(state)}{self._write_left(state)}")

    def _write(self, state: SearchState) -> str:
        """Return what is known."""
        best = "none passes yet" if state.best is None else f"best so far {self._weigh(state.best)}"
        floor = "" if state.floor is None else f", nothing below {self._weigh(state.floor)}"
        return f"{state.solved} solved, {best}{floor}"

    def _write_left(self, state: SearchState) -> str:
        """Return how long it takes at most, as soon as some were solved."""
        done = state.solved - self.first
        if done <= 0:
            return ""
        minutes = (time.monotonic() - self.begun) / done * state.left / 60.0
        return f", at most {minutes:.0f} min left"

    def _weigh(self, mass: float) -> str:
        return show_quantity(mass, "mass", self.units)
