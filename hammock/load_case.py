"""Load cases of a hammock."""

from enum import Enum, StrEnum, auto
from typing import Self


class WeightPattern(Enum):
    """How the weight of a person comes onto the cloth; see :func:`~tautlay.meshing.loading.load_person`."""

    FOOTPRINT = auto()  # lying on the back: the weight of each part of the body spread over its footprint
    SEAT = auto()  # across the middle: weight spread under seat and thighs, shanks at the edge
    CONTACT = auto()  # a jointed body sinks into the cloth


class LoadCase(StrEnum):
    """Ways in which a person loads the cloth: a name, and all that is known of it.

    Parameters
    ----------
    name : str
        In design files and commands.
    words, meaning : str
        In a heading, and as a sentence; ``{factor}`` stands for what the weight is multiplied with.
    pattern : WeightPattern
        How the load is made.
    sudden : bool
        Whether the weight comes at once: it is multiplied with the design's factor for that, and what a part must bear
        has that factor in it.

    Examples
    --------
    >>> LoadCase.SUDDEN.words.format(factor=2.0), LoadCase.LYING.in_contact
    ('sudden, 2 x weight', True)
    """

    words: str
    meaning: str
    pattern: WeightPattern
    sudden: bool

    DISTRIBUTED = (
        "distributed",
        "spread weight",
        "The weight of a person lying on the back, spread over the cloth.",
        WeightPattern.FOOTPRINT,
    )
    LYING = (
        "lying",
        "lying",
        "A jointed person in contact with cloth: smooth for who lies on the back, with friction on the side.",
        WeightPattern.CONTACT,
    )
    SITTING = (
        "sitting",
        "sitting across",
        "The spread weight of a person who sits facing left, feet over the left side; for tipping: tautlay sit.",
        WeightPattern.SEAT,
    )
    SUDDEN = (
        "sudden",
        "sudden, {factor:g} x weight",
        "The spread weight times {factor:g}. 2 means letting go while just touching the cloth; a drop needs more.",
        WeightPattern.FOOTPRINT,
        True,
    )

    def __new__(cls, name: str, words: str, meaning: str, pattern: WeightPattern, sudden: bool = False) -> Self:
        """Make a case equal to its name."""
        case = str.__new__(cls, name)
        case._value_ = name
        case.words, case.meaning, case.pattern, case.sudden = words, meaning, pattern, sudden
        return case

    @property
    def in_contact(self) -> bool:
        """Whether a person lies in it who has a shape and finds rest."""
        return self.pattern is WeightPattern.CONTACT


def find_load_case(name: str) -> LoadCase:
    """Return the load case of that name.

    Raises
    ------
    ValueError
        If there is none; the message names those that there are.
    """
    for case in LoadCase:
        if case == name:
            return case
    raise ValueError(f"there is no load case {name!r}; there is {', '.join(LoadCase)}.")


HANGING = LoadCase.DISTRIBUTED  # under which a hammock is hung at its angle, and from which every other load begins
DESIGN_LOADS = (LoadCase.LYING, LoadCase.SITTING, LoadCase.SUDDEN)
"""Under which a hammock must hold, if nothing else is asked: whoever gets in sits across first."""
SUDDEN_FACTOR = 2.0
r"""Force of a weight W let go while it just touches an elastic support, over W.

Dropped from a height h, the weight has lost the energy :math:`W (h + x)` where the support, of stiffness k, has given
by x and turns it back with :math:`k x^2/2`. With :math:`d = W/k`, how far the weight lowers the support at rest, both
are equal at

.. math:: x/d = 1 + \sqrt{1 + 2 h/d},

which is also the force over W: 2 for h = 0, 2.73 for h = d, 4.3 for h = 5 d. Limits: a massless linear support and
nothing lost; a hammock stiffens as it sinks, cloth and body lose some. Source: the impact factor of a falling weight,
textbook statics, such as S. Timoshenko, Strength of Materials, part I (energy of strain), unverified.
"""
