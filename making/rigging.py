"""How the ends of the cords and lines are made at one end of a hammock."""

from collections.abc import Sequence
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
    "sling_at_strap": "sling ends at the straps",
    "sling_at_joint": "sling ends at the joints",
}


@dataclass(frozen=True)
class Rigging:
    """The ends of cords, lines and straps of head or foot, the same left and right; None is not described.

    Parameters
    ----------
    side_cord : CordTermination or None
        The end of each side cord, at the corner.
    leg_at_corner, leg_at_apex : CordTermination or None
        Ends of each leg.
    line_at_apex, line_at_tree : CordTermination or None
        Ends of each line; at the tree, or at the strap that goes round it.
    strap : CordTermination or None
        Ends of the strap, where the line has one.
    sling_at_strap, sling_at_joint : CordTermination or None
        Ends of each sling, where the strap has some: in its loop, and at the joint with the line.

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
    sling_at_strap: CordTermination | None = None
    sling_at_joint: CordTermination | None = None

    def __repr__(self) -> str:
        return write_repr(
            self,
            *(
                f"{item.name.replace('_', ' ')} {end.method}"
                for item in fields(self)
                if (end := getattr(self, item.name)) is not None
            ),
        )


def name_ends_table(ends: Sequence[str], key: str) -> str:
    """Return the table of a design that tells how an end is made: at one end of the hammock, or at both.

    Parameters
    ----------
    ends : sequence of str
        ``"head"``, ``"foot"``, or both.
    key : str
        Field of :class:`Rigging`.

    Examples
    --------
    >>> name_ends_table(["head", "foot"], "strap"), name_ends_table(["foot"], "strap")
    ('ends.strap', 'foot_ends.strap')
    """
    return f"{ends[0]}_ends.{key}" if len(ends) == 1 else f"ends.{key}"
