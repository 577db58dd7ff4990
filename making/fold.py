"""How a side channel is folded from the edge of the body, with or without a strip of another cloth."""

from dataclasses import dataclass
from math import pi

from ..materials import Fabric
from ..materials.short_repr import write_repr, write_value
from .stitching import Stitching

SPACING = 0.003  # m, least distance of two rows of stitches; engineering judgement, no source


@dataclass(frozen=True)
class Strip:
    """A strip of cloth that is sewn to the edge of the body and becomes part of its channel.

    Parameters
    ----------
    fabric : Fabric
        What it is cut from.
    width : float
        As cut, m.
    inset : float
        From the edge of the body inboard to the seam that holds the strip, m.
    rows : int or None
        Rows of that seam, sewn like those that close the channel; None is not given.
    """

    fabric: Fabric
    width: float
    inset: float
    rows: int | None = None

    def __repr__(self) -> str:
        return write_repr(
            self,
            self.fabric.name,
            f"{write_value(self.width, 'length')} wide",
            f"inset {write_value(self.inset, 'length')}",
        )


@dataclass(frozen=True)
class Fold:
    """A channel, folded and sewn down.

    Without a strip the body's edge is folded over once, or twice so that the raw edge is folded under. A strip is sewn
    under the body, ``inset`` inboard of the body's edge, and wrapped round that edge to the upper side: folded once,
    the cord lies in the turn of the strip; folded twice, strip, body and strip are then folded over in half, and the
    cord lies in that fold.

    Parameters
    ----------
    folds : int
        1 or 2.
    seam : Stitching
        The rows that close the channel.
    finished_width : float or None
        From the finished edge to where the channel ends, m; None is half the inset of a strip folded twice.
    stitching_width : float or None
        Part of the finished width for the rows of stitches, m; None is all that the cord leaves.
    strip : Strip or None
        None is the body's own cloth.
    efficiency : float or None
        Strength of cloth with this seam over that of the cloth, 1; None is a usual one.

    Raises
    ------
    ValueError
        For another number of folds, or a width that is needed and not given.

    Examples
    --------
    >>> from tautlay.materials import Fabric, Thread, read_library
    >>> library = read_library()
    >>> rows = Stitching(library.find(Thread, "nylon size E"), 0.003, rows=2)
    >>> strip = Strip(library.find(Fabric, "ripstop nylon 37 g/m2"), width=0.085, inset=0.036)
    >>> fold = Fold(2, rows, strip=strip)
    >>> round(fold.width * 1e3, 2), round(fold.lap * 1e3, 2), round(fold.find_room(0.002) * 1e3, 2)
    (18.0, 13.0, 14.86)
    """

    folds: int
    seam: Stitching
    finished_width: float | None = None
    stitching_width: float | None = None
    strip: Strip | None = None
    efficiency: float | None = None

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"folded {'twice' if self.folds == 2 else 'once'}",
            f"{write_value(self.width, 'length')} wide",
            f"{self.seam.thread.name} in rows: {self.seam.rows}",
            f"strip of {self.strip.fabric.name}" if self.strip is not None else "",
        )

    def __post_init__(self) -> None:
        if self.folds not in (1, 2):
            raise ValueError(f"folds = {self.folds} must be 1 or 2.")
        if self.finished_width is None and (self.strip is None or self.folds == 1):
            raise ValueError("finished_width is missing. Only a strip folded twice gives a width of its own.")

    @property
    def width(self) -> float:
        """From the finished edge to where the channel ends, m."""
        if self.strip is not None and self.folds == 2:
            return self.strip.inset / 2
        assert self.finished_width is not None
        return self.finished_width

    @property
    def lap(self) -> float:
        """How far the strip reaches beyond its own seam on the upper side, m; below zero it is too narrow."""
        return self.strip.width - 2 * self.folds * self.width if self.strip is not None else 0.0

    def find_room(self, diameter: float) -> float:
        r"""Return the width for stitches beside a cord, m: what it leaves, or stitching_width.

        A cord of diameter d fills a flat pocket of width :math:`\pi d/2`. A strip folded once can be sewn to the body
        only where there is body, over its inset.

        Parameters
        ----------
        diameter : float
            Of the cord, m.
        """
        if self.stitching_width is not None:
            return self.stitching_width
        left = self.width - flatten_cord(diameter)
        return min(left, self.strip.inset) if self.strip is not None and self.folds == 1 else left


def flatten_cord(diameter: float) -> float:
    r"""Return the width of the narrowest flat pocket that takes a cord, m: half its girth, :math:`\pi d/2`.

    Examples
    --------
    >>> round(flatten_cord(0.002) * 1e3, 2)
    3.14
    """
    return pi * diameter / 2
