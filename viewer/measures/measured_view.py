"""One view of a design: what is drawn, and from where to where each of its sizes runs."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np

from ...cases.storage.shape import FloatArray
from ...cases.written_sizes import WrittenSize

Spot = tuple[float, float]


class ViewLine(NamedTuple):
    """A line or an area of a view.

    Parameters
    ----------
    points : (n, 2)
        Where it runs, y upwards.
    kind : str
        What it is; its class in the style sheet.
    closed : bool
        Whether it goes back to its start.
    """

    points: FloatArray
    kind: str
    closed: bool


class ViewWords(NamedTuple):
    """Words of a view, centred at a spot."""

    at: Spot
    text: str


class ViewSpan(NamedTuple):
    """From where to where sizes run; from a spot to itself where a size is only pointed at."""

    start: Spot
    end: Spot
    keys: tuple[str, ...]


@dataclass
class MeasuredView:
    """A view in lengths of its own, which ``place_view`` brings to a sheet.

    Parameters
    ----------
    name, title : str
        Its name in files, and its heading.
    sizes : mapping of str to WrittenSize
        What the design states; other keys are passed over.
    note : str
        What is not to scale, or not meant.
    lines, words, spans : list
        What is drawn.
    """

    name: str
    title: str
    sizes: Mapping[str, WrittenSize]
    note: str = ""
    lines: list[ViewLine] = field(default_factory=list)
    words: list[ViewWords] = field(default_factory=list)
    spans: list[ViewSpan] = field(default_factory=list)

    def __repr__(self) -> str:
        return f"MeasuredView({self.name}: {len(self.spans)} sizes)"

    @property
    def keys(self) -> tuple[str, ...]:
        """Every key that is shown, by number."""
        return tuple(dict.fromkeys(key for span in self.spans for key in span.keys))

    def draw(self, points: Sequence[Spot] | FloatArray, kind: str, *, closed: bool = False) -> None:
        """Draw a line or an area."""
        self.lines.append(ViewLine(np.asarray(points, dtype=np.float64), kind, closed))

    def draw_box(self, low: Spot, high: Spot, kind: str) -> None:
        """Draw a rectangle between two corners."""
        self.draw([low, (high[0], low[1]), high, (low[0], high[1])], kind, closed=True)

    def draw_round(self, middle: Spot, radius: float, kind: str) -> None:
        """Draw a circle."""
        turn = np.linspace(0.0, 2 * np.pi, 49)[:-1]
        self.draw(np.asarray(middle) + radius * np.stack([np.cos(turn), np.sin(turn)], -1), kind, closed=True)

    def say(self, at: Spot, text: str) -> None:
        """Write words."""
        self.words.append(ViewWords(at, text))

    def measure(self, start: Spot, end: Spot, *keys: str) -> None:
        """Show that some sizes run from one spot to another, those of them that the design states."""
        if stated := tuple(key for key in keys if key in self.sizes):
            self.spans.append(ViewSpan((float(start[0]), float(start[1])), (float(end[0]), float(end[1])), stated))

    def point(self, at: Spot, *keys: str) -> None:
        """Point at what some sizes are of."""
        self.measure(at, at, *keys)
