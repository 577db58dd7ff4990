"""The long sides of the body as offsets from its middle line, for those who mark out with a rule instead of paper."""

from math import floor
from typing import NamedTuple

import numpy as np

from ...cases.storage.shape import FloatArray
from ...cases.unit_display import Units
from ...cutting import BODY, Draft
from ...cutting.geometry import extend_line

_REACH = 0.1  # m that a cut is drawn on beyond a corner
_INCH = 0.0254  # m, NIST SP 811 B.8
_EVERY: dict[Units, float] = {"metric": 0.1, "imperial": 4 * _INCH}  # m


class OffsetTable(NamedTuple):
    """Distances from the middle line at places along it, in words.

    Parameters
    ----------
    system : {"metric", "imperial"}
        Units.
    headings : tuple of str
        Of the columns; the first is the place, from the head bar.
    rows : list of tuple of str
        Numbers without unit.
    """

    system: Units
    headings: tuple[str, ...]
    rows: list[tuple[str, ...]]


def tabulate_offsets(draft: Draft, system: Units) -> OffsetTable:
    """Return where the finished edge and the cut lie every 10 cm, or every 4 in, and at the foot bar.

    Parameters
    ----------
    draft : Draft
        Whose body is marked out.
    system : {"metric", "imperial"}
        mm, or inches and sixteenths.
    """
    panels = draft.list_panels(BODY)
    sides = ("left",) if panels[0].even else ("left", "right")
    length = max(float(edge.points[:, 0].max()) for piece in panels for edge in piece.edges if edge.name in sides)
    every = _EVERY[system]
    stations = np.append(np.arange(0.0, length - every / 10, every), length)
    columns = [_read_offsets(draft, side, stations, cut=cut) for side in sides for cut in (False, True)]
    unit = "mm" if system == "metric" else "in"
    names = [f"{side if len(sides) > 1 else 'each side'}, {line}" for side in sides for line in ("finished", "cut")]
    rows = [tuple(map(_WRITE[system], each)) for each in zip(stations, *columns, strict=True)]
    return OffsetTable(system, (f"from the head bar, {unit}", *names), rows)


def _read_offsets(draft: Draft, side: str, stations: FloatArray, *, cut: bool) -> FloatArray:
    """Return how far from the middle line a side lies at stations (k,), m."""
    lines = [
        edge.shift(edge.allowance) if cut else edge.points
        for piece in draft.list_panels(BODY)
        for edge in piece.edges
        if edge.name == side
    ]
    points = np.concatenate(lines)
    points = extend_line(points[np.argsort(points[:, 0])], _REACH)
    return np.abs(np.interp(stations, points[:, 0], points[:, 1]))


def write_millimetres(length: float) -> str:
    """Return a length in whole and half millimetres.

    Examples
    --------
    >>> write_millimetres(0.61), write_millimetres(0.57826)
    ('610', '578.5')
    """
    return f"{round(length * 2000) / 2 + 0.0:g}"


def write_sixteenths(length: float) -> str:
    """Return a length in inches and sixteenths.

    Examples
    --------
    >>> write_sixteenths(0.61), write_sixteenths(0.0254)
    ('24', '1')
    >>> write_sixteenths(0.578)
    '22 3/4'
    >>> write_sixteenths(-0.0333375)
    '-1 5/16'
    """
    if length < 0:
        written = write_sixteenths(-length)
        return written if written == "0" else f"-{written}"
    sixteenths = floor(length / _INCH * 16 + 0.5)
    whole, part = divmod(sixteenths, 16)
    if part == 0:
        return str(whole)
    below = 16
    while part % 2 == 0:
        part, below = part // 2, below // 2
    return f"{whole} {part}/{below}" if whole else f"{part}/{below}"


_WRITE = {"metric": write_millimetres, "imperial": write_sixteenths}
