"""How the end of a cord or a strap is made."""

from dataclasses import dataclass
from enum import StrEnum

from ..materials import Cord, make_sentence
from ..materials.short_repr import write_repr, write_value
from .capacity import Capacity, CapacityStep
from .factor import Factor


class TerminationType(StrEnum):
    """How an end is made; the value is the word of the design file."""

    SPLICE = "spliced eye"
    ADJUSTABLE = "adjustable splice"
    BOWLINE = "bowline"
    FIGURE_EIGHT = "figure eight"
    OVERHAND = "overhand"
    KNOT = "other knot"
    WATER_KNOT = "water knot"
    SEWN = "sewn loop"
    HITCH = "girth hitch"
    RUNS_ON = "runs on"
    OTHER = "other way"

    @property
    def is_buried(self) -> bool:
        """Whether the cord's end is buried in the cord itself."""
        return self in (TerminationType.SPLICE, TerminationType.ADJUSTABLE)

    @property
    def is_knot(self) -> bool:
        """Whether it is tied."""
        return self in KNOTS

    @property
    def place(self) -> str:
        """Where it breaks, in words."""
        return _PLACES.get(self, "knot")


KNOTS = (
    TerminationType.BOWLINE,
    TerminationType.FIGURE_EIGHT,
    TerminationType.OVERHAND,
    TerminationType.KNOT,
    TerminationType.WATER_KNOT,
)
_PLACES = {
    TerminationType.SPLICE: "splice",
    TerminationType.ADJUSTABLE: "splice",
    TerminationType.SEWN: "sewn loop",
    TerminationType.HITCH: "hitch",
    TerminationType.RUNS_ON: "bend",
    TerminationType.OTHER: "end",
}


@dataclass(frozen=True)
class CordTermination:
    """One end of a cord or strap.

    Parameters
    ----------
    method : TerminationType
        How it is made.
    bury : float or None
        Length of cord buried in itself, m; of splices only.
    coated : bool or None
        Whether the cord is coated, which holds a bury better; None is not given.
    locked : bool
        Whether a splice is locked or stitched, so that it cannot creep out while slack.
    lap : float or None
        Length sewn, m; of a sewn loop in a cord only.
    over : float or None
        Diameter of what it is bent over, m; None is not given.
    keeps : float or None
        Share of the strength left in the maker's own tests, instead of the published one.
    tail : float or None
        Cord beyond finished length, bury and lap, m: second leg of the eye, knot or loop, free end; None is not given.

    Examples
    --------
    >>> CordTermination(TerminationType.SPLICE, bury=0.1524).method.place
    'splice'
    """

    method: TerminationType
    bury: float | None = None
    coated: bool | None = None
    locked: bool = False
    lap: float | None = None
    over: float | None = None
    keeps: float | None = None
    tail: float | None = None

    def __repr__(self) -> str:
        return write_repr(
            self,
            str(self.method),
            f"bury {write_value(self.bury, 'length')}" if self.bury is not None else "",
            f"over {write_value(self.over, 'length')}" if self.over is not None else "",
            "locked" if self.locked else "",
        )


LEAST_BURY, UNCOATED_BURY = 60.0, 100.0  # cord diameters
SHORTEST_LAP = 0.025  # m, the shortest that was tested
_BURY_SOURCE = "fibre maker: 60 coated, 100 uncoated; rope maker: 60; quoted in an engineering note"


def measure_bury(ending: CordTermination, cord: Cord) -> tuple[float, Capacity, Factor]:
    r"""Return how long a bury must be, how long it is, and the rule.

    At least :math:`60\,d`; :math:`100\,d` in a cord that is known to be uncoated. A shorter bury is not weaker, it
    slips: no strength can be given for it.

    Parameters
    ----------
    ending : CordTermination
        A splice with its bury.
    cord : Cord
        12-strand UHMWPE.

    Returns
    -------
    tuple of float, Capacity and Factor
        Length needed, m; length there is, m; the factor 1.

    Raises
    ------
    ValueError
        Without a bury.

    Examples
    --------
    >>> from tautlay.materials import Cord, read_library
    >>> cord = read_library().find(Cord, "12-strand UHMWPE 2 mm")
    >>> needed, made, rule = measure_bury(CordTermination(TerminationType.SPLICE, bury=6 * 0.0254), cord)
    >>> round(needed, 3), str(made.steps[0].text), rule.value
    (0.12, 'bury of 15.2 cm, 76 diameters of the cord', 1.0)
    """
    if ending.bury is None:
        raise ValueError("this splice has no bury.")
    needed = UNCOATED_BURY if ending.coated is False else LEAST_BURY
    text = make_sentence(
        "bury of {bury:length}, {diameters:.0f} diameters of the cord",
        bury=ending.bury,
        diameters=ending.bury / cord.diameter,
    )
    made = Capacity(ending.bury, "length", (CapacityStep(text, "the design", "stated"),))
    meaning = f"{needed:.0f} diameters of the cord buried"
    return needed * cord.diameter, made, Factor("bury", 1.0, f"{meaning}; {_BURY_SOURCE}", "second hand", meaning)
