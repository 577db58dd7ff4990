"""What is drawn: strokes, points and words, in metres."""

from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cached_property

import numpy as np

from ...hammock.arrays import FloatArray
from ...materials.short_repr import write_repr, write_value
from ..geometry import clip_line

_AXIS = 1e-9  # m: what is no farther from an axis lies on it


class LineKind(StrEnum):
    """What a line means."""

    CUT = "cut"
    SEW = "sew"
    FOLD = "fold"
    PLACE = "place"
    NOTCH = "notch"
    GRAIN = "grain"
    CROSS = "cross"


class PointKind(StrEnum):
    """What a point means."""

    TURN = "turn"
    CURVE = "curve"
    NOTCH = "notch"
    DRILL = "drill"


@dataclass(frozen=True)
class Stroke:
    """A line through points.

    Parameters
    ----------
    kind : LineKind
        What it means.
    points : (n, 2)
        m.
    closed : bool
        Whether the last point is joined to the first.
    """

    kind: LineKind
    points: FloatArray
    closed: bool = False

    def __repr__(self) -> str:
        return write_repr(self, str(self.kind), f"{len(self.points)} points")

    @property
    def path(self) -> FloatArray:
        """Its points, the first once more at the end of a closed one."""
        return np.concatenate([self.points, self.points[:1]]) if self.closed else self.points

    @cached_property
    def box(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Least and greatest coordinates, m."""
        (left, below), (right, above) = self.points.min(axis=0).tolist(), self.points.max(axis=0).tolist()
        return (left, below), (right, above)


@dataclass(frozen=True)
class PointMark:
    """A point."""

    kind: PointKind
    at: FloatArray

    def __repr__(self) -> str:
        return write_repr(self, str(self.kind))


@dataclass(frozen=True)
class Lettering:
    """Words.

    Parameters
    ----------
    text : str
        One line.
    at : (2,)
        Middle of its base line, m.
    height : float
        Of a capital, m.
    angle : float
        Of its base line, rad.
    """

    text: str
    at: FloatArray
    height: float
    angle: float = 0.0

    def __repr__(self) -> str:
        return write_repr(self, self.text, f"{write_value(self.height, 'length')} high")


@dataclass(frozen=True)
class LineDrawing:
    """Everything that is drawn of one thing.

    Parameters
    ----------
    name : str
        What it is.
    strokes, points, captions : tuple
        What is drawn.
    """

    name: str
    strokes: tuple[Stroke, ...]
    points: tuple[PointMark, ...] = ()
    captions: tuple[Lettering, ...] = ()

    def __repr__(self) -> str:
        return write_repr(self, self.name, f"{len(self.strokes)} strokes", f"{len(self.captions)} captions")

    @property
    def box(self) -> tuple[FloatArray, FloatArray]:
        """Least and greatest coordinates of all strokes, m."""
        lows, highs = zip(*(stroke.box for stroke in self.strokes), strict=True)
        return np.min(lows, axis=0), np.max(highs, axis=0)

    def move(self, by: FloatArray) -> "LineDrawing":
        """Return the same moved by (2,), m."""
        return replace(
            self,
            strokes=tuple(replace(stroke, points=stroke.points + by) for stroke in self.strokes),
            points=tuple(replace(point, at=point.at + by) for point in self.points),
            captions=tuple(replace(caption, at=caption.at + by) for caption in self.captions),
        )

    def add_texts(self, texts: tuple[str, ...]) -> "LineDrawing":
        """Return the same with lines of words below the first of its captions."""
        first = self.captions[0]
        lines = [
            replace(first, text=text, at=first.at - np.array([0.0, (number + 6) * 1.7 * first.height]), angle=0.0)
            for number, text in enumerate(texts)
        ]
        return replace(self, captions=(*self.captions, *lines))

    def halve(self) -> "LineDrawing":
        """Return what lies above the x axis; what is marked along the axis is the fold."""
        low, high = self.box
        half = np.array([[low[0] - 1, 0.0], [high[0] + 1, 0.0], [high[0] + 1, high[1] + 1], [low[0] - 1, high[1] + 1]])
        strokes: list[Stroke] = []
        for stroke in self.strokes:
            (_, below), (_, above) = stroke.box
            if max(abs(below), abs(above)) < _AXIS:
                strokes.append(replace(stroke, kind=LineKind.FOLD) if stroke.kind is LineKind.PLACE else stroke)
            elif below > 0.0:
                strokes.append(stroke)
            elif above > _AXIS:
                path = _start_below(stroke.path) if stroke.closed else stroke.path
                strokes += [Stroke(stroke.kind, run) for run in clip_line(path, half)]
        return replace(
            self,
            name=f"{self.name}, half",
            strokes=tuple(strokes),
            points=tuple(point for point in self.points if point.at[1] >= 0),
            captions=tuple(caption for caption in self.captions if caption.at[1] > 0),
        )


def _start_below(path: FloatArray) -> FloatArray:
    """Return a closed path that starts at its lowest point, so that what lies above an axis is not cut in two."""
    ring = path[:-1]
    first = int(np.argmin(ring[:, 1]))
    return np.concatenate([ring[first:], ring[: first + 1]])


def stack_drawings(drawings: list[LineDrawing], gap: float) -> list[LineDrawing]:
    """Return drawings one below the other, the first at the top, all from x = 0 and above y = 0.

    Parameters
    ----------
    drawings : list of LineDrawing
        At least one.
    gap : float
        Between and around them, m.
    """
    heights = [drawing.box[1][1] - drawing.box[0][1] for drawing in drawings]
    top = sum(heights) + gap * (len(drawings) + 1)
    placed = []
    for drawing, height in zip(drawings, heights, strict=True):
        top -= gap + height
        placed.append(drawing.move(np.array([gap, top]) - drawing.box[0]))
    return placed
