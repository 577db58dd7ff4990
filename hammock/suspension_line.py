r"""The line from apex to tree, which may end in a separate strap.

Cord of length l and strap in series carry the same pull, so that the line of length L gives as one of

.. math:: EA = L / \left(\frac{l}{EA_{cord}} + \frac{f}{EA_{strap}}\right)

with f of :class:`~tautlay.making.Wrap`. Its mass per length is the mean of both: a straight line hangs on its ends.
"""

from typing import NamedTuple

from ..making import Wrap
from ..materials.short_repr import write_repr, write_value
from .hammock import Suspension


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


def compose_line(suspension: Suspension, end: str) -> SuspensionLine:
    """Return the line at one end.

    Parameters
    ----------
    suspension : Suspension
        Without issues.
    end : {"head", "foot"}
        Which.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock
    >>> suspension = example_hammock().suspension
    >>> compose_line(suspension, "head").ea == suspension.line.ea
    True
    """
    s, line = suspension, suspension.line
    wrap = s.trees.wrap(end) if s.trees else None
    if wrap is None or s.trees is None or s.trees.strap is None:
        return SuspensionLine(s.line_length, line.ea, line.linear_mass, None)
    webbing, cord = s.trees.strap.webbing, s.line_length - wrap.reach
    gives = cord / line.ea + wrap.flexibility / webbing.ea
    mass = cord * line.linear_mass + wrap.strands * wrap.strand * webbing.linear_mass
    return SuspensionLine(cord, s.line_length / gives, mass / s.line_length, wrap)
