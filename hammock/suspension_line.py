r"""The line from apex to tree, which may end in a separate strap.

Cord of length l and strap in series carry the same pull, so that the line of length L gives as one of

.. math:: EA = L / \left(\frac{l}{EA_{line}} + g\right)

with g, how much the strap gives for each newton, of :meth:`~tautlay.making.TreeStrap.measure_give`. Its mass per length
is the mean of both: a straight line hangs on its ends.
"""

from typing import NamedTuple

from ..making import Wrap
from ..materials.short_repr import write_repr, write_value
from .suspension import EndSuspension


class SuspensionLine(NamedTuple):
    """A line as a whole.

    Parameters
    ----------
    cord : float
        Length of the cord or webbing it begins with, m.
    ea : float
        Axial stiffness of the whole, N.
    linear_mass : float
        Mean mass per length of the whole, kg/m.
    wrap : Wrap or None
        The strap at its end.
    """

    cord: float
    ea: float
    linear_mass: float
    wrap: Wrap | None

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{write_value(self.cord, 'length')} of cord",
            f"EA {write_value(self.ea, 'force')}",
            "strap at its end" if self.wrap is not None else "",
        )


def compose_line(end: EndSuspension) -> SuspensionLine:
    """Return the line at one end.

    Parameters
    ----------
    end : EndSuspension
        Without issues.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock
    >>> head = example_hammock().suspension.head
    >>> compose_line(head).ea == head.line.ea
    True
    """
    line, wrap, strap = end.line, end.wrap, end.strap
    if wrap is None or strap is None:
        return SuspensionLine(end.line_length, line.ea, line.linear_mass, None)
    cord = end.line_length - wrap.reach
    gives = cord / line.ea + strap.measure_give(wrap)
    mass = cord * line.linear_mass + strap.weigh_free(wrap)
    return SuspensionLine(cord, end.line_length / gives, mass / end.line_length, wrap)
