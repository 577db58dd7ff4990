"""Anchor stitching: stitches through the side cord."""

from dataclasses import dataclass

from .stitching import Stitching


@dataclass(frozen=True)
class Lock:
    """Anchor stitching: stitches through the side cord, which keep the body from sliding along it.

    Parameters
    ----------
    stitching : Stitching
        Rows through the cord.
    corner_length : float or None
        Anchored length at each corner, m; None where the channel is anchored over its lock length, or not given.
    """

    stitching: Stitching
    corner_length: float | None = None
