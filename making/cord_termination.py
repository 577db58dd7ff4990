"""How the end of a cord or a strap is made, and the strength it retains."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import NamedTuple

from ..materials import Cord, Webbing, make_sentence
from ..materials.short_repr import write_repr, write_value
from .capacity import Basis, Capacity, CapacityStep, Multiplier
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


class RetainedStrength(NamedTuple):
    """Share of its strength that a cord retains, its source, and its range if one is published."""

    value: float
    text: str
    source: str
    basis: Basis
    range: tuple[float, float] | None = None

    def __repr__(self) -> str:
        return write_repr(self, f"{self.value:.0%}", self.text, self.basis, self.source)

    def leave(self, whole: Capacity, ending: str) -> Capacity:
        """Return the strength that a termination of that name leaves of a cord's strength."""
        times = Multiplier(f"{ending}, share kept", "end", self.value, self.range)
        return whole.keep(self.value, self.text, self.source, self.basis, times=times)


_HMPE_KNOTS = "Oregon State University synthetic rope tests and Hasegawa 2022, quoted in an engineering note"
_KNOTS = "common test literature, no document opened"
_SLINGS = "sling practice, no document opened"
_ANY_KNOT = RetainedStrength(
    0.50, "a knot keeps 50 %: strength can drop by as much", "Cordage Institute CI 1401-06, section 4", "seen"
)
_HITCHED = RetainedStrength(
    0.50, "a hitch bends the cord round its own diameter and keeps 50 %",
    "table of bends at D/d 1, unverified; its use for a hitch is engineering judgement", "judgement", (0.50, 0.60),
)  # fmt: skip

# Lower ends of the ranges. By fibre of a cord, or "webbing".
SHARES: Mapping[tuple[str, TerminationType], RetainedStrength] = MappingProxyType(
    {
        ("UHMWPE", TerminationType.SPLICE): RetainedStrength(
            0.90, "a long buried splice keeps 90 to 100 %; 90 % used",
            "rope tables, whose loads are mostly stated spliced, no document opened", "memory", (0.90, 1.00),
        ),
        ("UHMWPE", TerminationType.ADJUSTABLE): RetainedStrength(
            0.60, "an adjustable splice keeps 60 to 80 %; 60 % used",
            "a rope maker's value and riggers' tests, quoted in a discussion among sailors", "second hand",
            (0.60, 0.80),
        ),
        ("UHMWPE", TerminationType.BOWLINE): RetainedStrength(
            0.47, "a bowline in 2 mm cord keeps 47 % unless it slips", _HMPE_KNOTS, "second hand"
        ),
        ("UHMWPE", TerminationType.FIGURE_EIGHT): RetainedStrength(
            0.51, "a figure eight keeps 51 % unless it slips", _HMPE_KNOTS, "second hand"
        ),
        ("UHMWPE", TerminationType.SEWN): RetainedStrength(
            0.81, "a sewn lap keeps 81 % (40 mm) to 85 % (25 mm); 81 % used",
            "Hasegawa 2022, 2 mm cord, quoted in an engineering note", "second hand", (0.81, 0.85),
        ),
        ("nylon", TerminationType.BOWLINE): RetainedStrength(
            0.60, "a bowline keeps 60 to 70 %; 60 % used", _KNOTS, "memory", (0.60, 0.70)
        ),
        ("nylon", TerminationType.FIGURE_EIGHT): RetainedStrength(
            0.65, "a figure eight keeps 65 to 80 %; 65 % used", _KNOTS, "memory", (0.65, 0.80)
        ),
        ("nylon", TerminationType.OVERHAND): RetainedStrength(
            0.55, "an overhand keeps 55 to 65 %; 55 % used", _KNOTS, "memory", (0.55, 0.65)
        ),
        ("webbing", TerminationType.SEWN): RetainedStrength(
            0.80, "a sewn, bar-tacked loop keeps 80 to 90 %; 80 % used", _SLINGS, "memory", (0.80, 0.90)
        ),
        ("webbing", TerminationType.WATER_KNOT): RetainedStrength(
            0.60, "a water knot keeps 60 to 70 %; 60 % used", _SLINGS, "memory", (0.60, 0.70)
        ),
        ("webbing", TerminationType.HITCH): RetainedStrength(
            0.70, "a choked strap keeps 70 to 80 %; 70 % used", f"{_SLINGS}; rigging notes say 75 to 80 %", "memory",
            (0.70, 0.80),
        ),
    }
)  # fmt: skip

# For any knot: the lowest of a whole series, and why.
SLIP = RetainedStrength(
    0.08,
    "knots in one test series of UHMWPE kept 8 to 58 %; 8 % used. Bare UHMWPE is so slippery that many knots slip",
    _HMPE_KNOTS, "second hand", (0.08, 0.58),
)  # fmt: skip

LEAST_BURY, UNCOATED_BURY = 60.0, 100.0  # cord diameters
SHORTEST_LAP = 0.025  # m, the shortest that was tested
_BURY_SOURCE = "fibre maker: 60 coated, 100 uncoated; rope maker: 60; quoted in an engineering note"


def name_fibre(material: Cord | Webbing) -> str:
    """Return by what a material is looked up in ``SHARES``: ``webbing``, or the fibre of a cord.

    Polyester cord counts as nylon, as the published knots do.

    Examples
    --------
    >>> from tautlay.materials import Cord, read_library
    >>> [name_fibre(read_library().find(Cord, name)) for name in ("12-strand UHMWPE 2 mm", "polyester braid 2 mm")]
    ['UHMWPE', 'nylon']
    """
    if isinstance(material, Webbing):
        return "webbing"
    if "UHMWPE" in material.kind:
        return "UHMWPE"
    alike = ("nylon" in material.kind or "polyester" in material.kind) and "liquid-crystal" not in material.kind
    return "nylon" if alike else "other"


def find_share(material: Cord | Webbing, ending: CordTermination) -> RetainedStrength | None:
    """Return the share of strength a termination retains, or None where nothing is published.

    Parameters
    ----------
    material : Cord or Webbing
        What it is made in.
    ending : CordTermination
        How it is made; the maker's own ``keeps`` comes before what is published.

    Returns
    -------
    RetainedStrength or None
        The lower end of a published range; its text says so.

    Examples
    --------
    >>> from tautlay.materials import Cord, read_library
    >>> cord = read_library().find(Cord, "nylon parachute cord type III")
    >>> bowline, splice = CordTermination(TerminationType.BOWLINE), CordTermination(TerminationType.SPLICE)
    >>> find_share(cord, bowline).value, find_share(cord, splice) is None
    (0.6, True)
    """
    if ending.keeps is not None:
        return RetainedStrength(
            ending.keeps, f"its end keeps {ending.keeps:.0%}", "the design, the maker's own tests", "stated"
        )
    fibre = name_fibre(material)
    if found := SHARES.get((fibre, ending.method)):
        return found
    if fibre in ("nylon", "other") and ending.method.is_knot:
        return _ANY_KNOT
    return _HITCHED if fibre != "webbing" and ending.method is TerminationType.HITCH else None


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
