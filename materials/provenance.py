"""Where a number comes from."""

from dataclasses import dataclass
from typing import Literal, get_args

from .short_repr import write_repr

Status = Literal["seen", "second hand", "derived", "memory"]
# From the best to the weakest.
STATUSES: tuple[str, ...] = get_args(Status)


@dataclass(frozen=True)
class Provenance:
    """Origin of one number of a material.

    Parameters
    ----------
    text : str
        The value as written, with its unit.
    source : str
        Document with table or page, formula, or what else it rests on.
    status : {"seen", "second hand", "derived", "memory"}
        Read in the document; read in one that quotes it; computed from such values; unverified.
    range : (float, float) or None
        Smallest and largest likely value, SI.
    note : str
        Limits of use.
    """

    text: str
    source: str
    status: Status
    range: tuple[float, float] | None = None
    note: str = ""

    def __repr__(self) -> str:
        return write_repr(self, self.text, self.status, self.source)
