"""Where the cloth is too narrow for the person who lies on it."""

import numpy as np

from .arrays import FloatArray
from .body_segments import Segment, list_segments
from .outline import Outline
from .person import Person


def find_narrowing(person: Person, outline: Outline) -> tuple[float, float]:
    """Return the least ratio of room on the cloth to breadth of the person, 1 at most, and its x, m."""
    segments = list_segments(person)
    x = person.head_from_bar + np.linspace(0.0, person.stature, 501)
    squeeze = find_squeeze(outline, segments, x, person.head_from_bar)
    worst = int(np.argmin(squeeze))
    return float(squeeze[worst]), float(x[worst])


def find_squeeze(outline: Outline, segments: tuple[Segment, ...], x: FloatArray, crown: float) -> FloatArray:
    """Return by what breadths are multiplied at each ``x``, m, so that the whole body fits the cloth.

    Parameters
    ----------
    outline : Outline
        Of the flat cloth.
    segments : tuple of Segment
        Of the body, from the crown.
    x : (n,)
        From the head bar, m, below zero beyond it.
    crown : float
        Where the crown lies, m from the head bar.
    """
    breadth = np.zeros_like(x)
    for segment in segments:
        t = (x - crown - segment.start) / (segment.end - segment.start)
        outer = segment.outer[0] + (segment.outer[1] - segment.outer[0]) * t
        breadth = np.where(np.abs(t - 0.5) <= 0.5 + 1e-9, np.maximum(breadth, outer), breadth)
    inside = np.clip(x, 0.0, outline.length)  # cloth beyond a bar is taken as wide as at the bar
    room = np.minimum(outline.left.place(inside), -outline.right.place(inside))
    return np.minimum(1.0, room / breadth)
