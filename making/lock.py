"""Anchor stitching: stitches through the side cord."""

from dataclasses import dataclass

from ..materials.short_repr import write_repr, write_value
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

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{self.stitching.thread.name} in rows: {self.stitching.rows}",
            f"{write_value(self.corner_length, 'length')} at each corner" if self.corner_length is not None else "",
        )
