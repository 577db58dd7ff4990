"""Paper that a pattern is printed on."""

from typing import NamedTuple

from ...materials import parse_quantity
from ...materials.short_repr import write_repr, write_value

MARGIN = 0.010  # m that printers leave white
OVERLAP = 0.010  # m that each sheet shares with the next
LONGEST = 5.0  # m of a roll, and of any page: PDF ends at 5.08 m
_SIZES = {"a4": (0.210, 0.297), "letter": (0.2159, 0.2794), "a3": (0.297, 0.420), "a0": (0.841, 1.189)}


class Paper(NamedTuple):
    """A size of paper.

    Parameters
    ----------
    name : str
        What it is called.
    width, height : float
        m; the height of a roll is what is cut off it at most.
    roll : bool
        Whether its height is cut to what is needed.
    """

    name: str
    width: float
    height: float
    roll: bool = False

    def __repr__(self) -> str:
        return write_repr(self, self.name, f"{write_value(self.width, 'length')} wide")

    def turn(self) -> "Paper":
        """Return it lying on its side."""
        return self._replace(width=self.height, height=self.width)

    @property
    def room(self) -> tuple[float, float]:
        """What can be printed on, m."""
        return self.width - 2 * MARGIN, self.height - 2 * MARGIN

    @property
    def step(self) -> tuple[float, float]:
        """From one sheet to the next, m."""
        return self.room[0] - OVERLAP, self.room[1] - OVERLAP


def find_paper(text: str) -> Paper:
    """Return the paper of a name: a4, letter, a3, a0, or a width such as ``36 in roll``.

    Parameters
    ----------
    text : str
        As a maker writes it.

    Raises
    ------
    ValueError
        For any other name, and a roll that is too narrow or too wide.

    Examples
    --------
    >>> find_paper("a4").height, find_paper("36 in roll").roll
    (0.297, True)
    """
    name = text.strip().lower()
    if name in _SIZES:
        width, height = _SIZES[name]
        return Paper(name.capitalize() if name == "letter" else name.upper(), width, height)
    if not name.endswith("roll"):
        raise ValueError(f'unknown paper {text!r:.60}. Choose {", ".join(_SIZES)} or a roll such as "36 in roll".')
    width = parse_quantity(text.strip()[:-4].strip(), "length")
    if not 0.15 <= width <= 2.0:
        raise ValueError("a roll must be between 15 cm and 2 m wide.")
    return Paper(text.strip(), width, LONGEST, roll=True)
