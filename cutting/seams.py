"""The joins of a hammock: panels of the body, strips under it, channels turned onto it."""

from collections.abc import Iterator
from dataclasses import replace
from math import ceil

from ..making import Fold
from .body import BODY, LEFT, ChannelCut
from .edge import PieceEdge, Treatment
from .join import EdgeLine, Join, Match
from .panels import PANEL_SEAM
from .piece import ClothPiece
from .strip import BEYOND, PAIR, SEWN, measure_strip

FELLED_SEAM = "felled seam"
STRIP_SEAM = "strip under the body"
TURNED = "turned over the cord"
SEAM_ROWS = 2  # of a felled seam


def space_marks(length: float, spacing: float) -> tuple[float, ...]:
    """Return where marks stand along an edge, in parts of its length: evenly, never farther apart than asked.

    Parameters
    ----------
    length : float
        Of the edge, m.
    spacing : float
        Greatest distance between two marks, m.

    Examples
    --------
    >>> space_marks(1.1, 0.3)
    (0.0, 0.25, 0.5, 0.75, 1.0)
    """
    count = max(ceil(length / spacing - 1e-9), 1)
    return tuple(number / count for number in range(count + 1))


def _list_stations(edge: PieceEdge, spacing: float) -> list[float]:
    """Return where marks stand along a whole side of the body, m, from the head."""
    stations = [share * edge.length for share in space_marks(edge.length, spacing)]
    return stations[::-1] if edge.name == LEFT else stations


def join_strip(edge: PieceEdge, strip: str, fold: Fold, spacing: float) -> Join:
    """Return the seam of a strip under the body, along the line where the channel ends.

    The ease is below zero: the straight strip is pulled a little there, evenly.

    Parameters
    ----------
    edge : PieceEdge
        Whole side of the body.
    strip : str
        Name of its strip.
    fold : Fold
        How the channel is made, with a strip.
    spacing : float
        Greatest distance between two marks, m.
    """
    assert fold.strip is not None
    stations = _list_stations(edge, spacing)
    length = measure_strip(edge.length, edge.turning, fold.width)
    along = [abs(edge.measure(stations[0], station, -fold.width)) for station in stations]
    matches = [
        Match(BEYOND + length * reached / along[-1], station, (length - along[-1]) * reached / along[-1])
        for station, reached in zip(stations, along, strict=True)
    ]
    rows = fold.strip.rows
    return Join(
        f"{edge.name} {PAIR}",
        EdgeLine(strip, SEWN),
        EdgeLine(BODY, edge.name, -fold.width),
        tuple(matches),
        None if rows is None else replace(fold.seam, rows=rows),
        STRIP_SEAM,
    )


def close_channel(edge: PieceEdge, channel: ChannelCut, fold: Fold, spacing: float) -> Join:
    r"""Return the body's edge turned onto itself, :math:`(a + b)\,\theta` longer where it comes to lie.

    Parameters
    ----------
    edge : PieceEdge
        Whole side of the body.
    channel : ChannelCut
        What is turned: a beyond the finished edge, b inside it.
    fold : Fold
        How it is sewn.
    spacing : float
        Greatest distance between two marks, m.
    """
    stations = _list_stations(edge, spacing)
    grows = channel.turned + channel.lands
    matches = [Match(station, station, -grows * abs(edge.turn(stations[0], station))) for station in stations]
    return Join(
        f"{edge.name} channel",
        EdgeLine(BODY, edge.name, channel.turned),
        EdgeLine(BODY, edge.name, -channel.lands),
        tuple(matches),
        fold.seam,
        TURNED,
    )


def join_panels(bodies: tuple[ClothPiece, ...], fold: Fold | None, spacing: float) -> Iterator[Join]:
    """Yield the seams between the panels of a body.

    Parameters
    ----------
    bodies : tuple of ClothPiece
        Its panels.
    fold : Fold or None
        Whose thread and stitches are taken, in two rows.
    spacing : float
        Greatest distance between two marks, m.
    """
    edges = {edge.name: edge for piece in bodies for edge in piece.edges if edge.treatment is Treatment.SEAM}
    stitching = None if fold is None else replace(fold.seam, rows=SEAM_ROWS)
    for name, edge in edges.items():
        if name.startswith(PANEL_SEAM) and name.endswith("a"):
            other = edges[f"{name[:-1]}b"]
            stations = [share * edge.length for share in space_marks(edge.length, spacing)]
            matches = tuple(Match(station, other.length - station, 0.0) for station in stations)
            yield Join(name[:-2], EdgeLine(BODY, name), EdgeLine(BODY, other.name), matches, stitching, FELLED_SEAM)
