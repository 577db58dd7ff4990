"""The line of the loaded cloth under a bar, as it was read off a solved shape."""

from typing import NamedTuple

from ..materials.short_repr import write_repr, write_value


class LoadedLine(NamedTuple):
    """How far from the meeting point of the legs the cloth under a bar hangs: all that its cone needs, laid flat.

    Tuples of numbers, so that what is drawn from them can be kept.

    Parameters
    ----------
    along : tuple of float
        Distance along the flat edge of the body from the right corner to the left one, m.
    distance : tuple of float
        From the apex, m.
    """

    along: tuple[float, ...]
    distance: tuple[float, ...]

    def __repr__(self) -> str:
        return write_repr(self, f"{len(self.along)} points over {write_value(self.along[-1], 'length')}")
