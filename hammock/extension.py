"""The cloth beyond a spreader bar that is set in, as a maker describes it."""

from dataclasses import dataclass
from enum import StrEnum

from ..materials.short_repr import write_repr, write_value
from .loaded_line import LoadedLine


class ExtensionMake(StrEnum):
    """How an extension is joined to the body."""

    SEWN_ON = "sewn on"  # a piece of its own, sewn to the end of the body
    RUNS_ON = "runs on"  # one piece with the body, darts take in what is too wide


class CapShape(StrEnum):
    """What closes the end between the legs."""

    NONE = "none"
    TWO_EDGES = "two edges"  # a triangle, its two lower edges straight: the simplest to cut
    SHAPED = "shaped"  # its lower edge an arc


@dataclass(frozen=True)
class Extension:
    """The cloth beyond a bar that is set in; its length is that of the bar's ``set_in``.

    Parameters
    ----------
    made : ExtensionMake
        How it is joined to the body.
    opening : float
        Length from each corner along the bar over which body and extension are not joined, m, so that the tip of the
        bar, a plate and eyes find room; zero is none.
    corner_room : float
        Length from each corner along the leg that the cloth leaves free there, m; zero where there is no opening.
    closed : bool
        Whether a triangle of cloth closes each opening once the hammock is on its bars.
    cap : CapShape
        What closes the end.
    darts : int
        How many take in what is too wide, of one that runs on; zero of one that is sewn on.
    line : LoadedLine or None
        Of the loaded cloth under the bar, to which it is cut; None is an estimate.
    """

    made: ExtensionMake = ExtensionMake.SEWN_ON
    opening: float = 0.0
    corner_room: float = 0.0
    closed: bool = False
    cap: CapShape = CapShape.NONE
    darts: int = 0
    line: LoadedLine | None = None

    def __repr__(self) -> str:
        return write_repr(
            self,
            str(self.made),
            f"open {write_value(self.opening, 'length')} from each corner" if self.opening else "",
            f"cap: {self.cap}" if self.cap is not CapShape.NONE else "",
            f"{self.darts} darts" if self.darts else "",
            "cut to a solved line" if self.line is not None else "",
        )
