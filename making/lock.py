"""Stitches through the side cord."""

from dataclasses import dataclass

from .stitching import Stitching


@dataclass(frozen=True)
class Lock:
    """Stitches through the side cord, which keep the body from sliding along it.

    Parameters
    ----------
    stitching : Stitching
        Rows through the cord.
    corner_length : float or None
        Length at each corner that is sewn to hold the jump of the cord's tension there, m; None where the channel is
        locked over a lock length, or not told.
    """

    stitching: Stitching
    corner_length: float | None = None
