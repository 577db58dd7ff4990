"""How the ends of the cords and lines of one hammock are made."""

from dataclasses import dataclass, fields

from ..materials.short_repr import write_repr
from .cord_termination import CordTermination

END_TITLES = {  # field of ``Rigging`` -> which ends these are
    "side_cord": "side cord ends",
    "leg_at_corner": "leg ends at the corners",
    "leg_at_apex": "leg ends at the apexes",
    "line_at_apex": "line ends at the apexes",
    "line_at_tree": "line ends at the trees",
    "strap": "strap ends",
}


@dataclass(frozen=True)
class Rigging:
    """The ends of cords, lines and straps, the same at head and foot, left and right; None is not described.

    Parameters
    ----------
    side_cord : CordTermination or None
        Both ends of each side cord, at the corners.
    leg_at_corner, leg_at_apex : CordTermination or None
        Ends of each leg.
    line_at_apex, line_at_tree : CordTermination or None
        Ends of each line; at the tree, or at the strap that goes round it.
    strap : CordTermination or None
        Ends of the strap, where the line has one.

    Examples
    --------
    >>> from tautlay.making import CordTermination, TerminationType
    >>> Rigging(side_cord=CordTermination(TerminationType.SPLICE, bury=0.15)).leg_at_apex is None
    True
    """

    side_cord: CordTermination | None = None
    leg_at_corner: CordTermination | None = None
    leg_at_apex: CordTermination | None = None
    line_at_apex: CordTermination | None = None
    line_at_tree: CordTermination | None = None
    strap: CordTermination | None = None

    def __repr__(self) -> str:
        return write_repr(
            self,
            *(
                f"{item.name.replace('_', ' ')} {end.method}"
                for item in fields(self)
                if (end := getattr(self, item.name)) is not None
            ),
        )
