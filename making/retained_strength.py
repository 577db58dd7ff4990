"""Share of its strength that the end of a cord or strap retains, by fibre and by how it is made."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from ..materials import Cord, Webbing
from ..materials.short_repr import write_repr
from .capacity import Basis, Capacity, Multiplier
from .cord_termination import CordTermination, TerminationType


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
_POLYESTER_KNOTS = (
    "Yachting Monthly, November 2017, pages 68 to 73: three polyester ropes of 10 mm pulled on a rope maker's machine, "
    "load cell good to 1 %: bowline 0.434 (double braid), 0.523 (braid on twisted core), 0.557 (three strands)"
)
_NYLON_KNOTS = (
    "C. L. Day 1970 and J. G. Dent, USDA 1964, quoted in a book of knots, fibre not told: bowline 60 %, figure eight "
    "48 %, overhand 45 %"
)
_SEWN_STRAPS = "sling practice, no document opened; looked for in sling makers' tables, which rate whole slings"
_CHOKED = (
    "sling makers' tables: choked 80 % of straight where it closes at 120 degrees or more, 82 % of that at 105 to 120 "
    "degrees; the value between is engineering judgement"
)
_ANY_KNOT = RetainedStrength(
    0.45,
    "the weakest knot of a table keeps 45 %",
    f"{_NYLON_KNOTS}; Cordage Institute CI 1401-06, section 4, says 50 %",
    "second hand",
)
_ANY_POLYESTER_KNOT = RetainedStrength(
    0.43,
    "no knot is counted stronger than the weakest bowline that was measured, 43 %",
    _POLYESTER_KNOTS,
    "judgement",
    (0.43, 0.56),
)
_HITCHED = RetainedStrength(
    0.50, "a hitch bends the cord round its own diameter and keeps 50 %",
    "table of bends at D/d 1, unverified; its use for a hitch is engineering judgement", "judgement", (0.50, 0.60),
)  # fmt: skip
_HITCHED_POLYESTER = _ANY_POLYESTER_KNOT._replace(
    text="no hitch in polyester was found pulled to breaking: counted as the weakest bowline, 43 %"
)

# Lower ends of the ranges, by name_fibre: what was measured in one fibre is not used for another.
SHARES: Mapping[tuple[str, TerminationType], RetainedStrength] = MappingProxyType(
    {
        ("UHMWPE", TerminationType.SPLICE): RetainedStrength(
            0.90, "a long buried splice keeps 90 to 100 %; 90 % used",
            "rope tables, whose loads are mostly stated spliced; a sailors' magazine says a splice costs about 10 %",
            "second hand", (0.90, 1.00),
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
        ("UHMWPE", TerminationType.HITCH): _HITCHED,
        ("nylon", TerminationType.BOWLINE): RetainedStrength(
            0.60, "a bowline keeps 60 to 75 %; 60 % used", f"{_NYLON_KNOTS}; Cordage Institute 67 to 75 %, quoted in a "
            "sailors' magazine", "second hand", (0.60, 0.75),
        ),
        ("nylon", TerminationType.FIGURE_EIGHT): RetainedStrength(
            0.48, "a figure eight keeps 48 to 72 %; 48 % used",
            f"{_NYLON_KNOTS}; a loop 72 %, a rope maker's short series in another", "second hand", (0.48, 0.72),
        ),
        ("nylon", TerminationType.OVERHAND): RetainedStrength(
            0.45, "an overhand keeps 45 %", _NYLON_KNOTS, "second hand"
        ),
        ("nylon", TerminationType.HITCH): _HITCHED,
        ("polyester", TerminationType.BOWLINE): RetainedStrength(
            0.43, "a bowline kept 43 to 56 % in three ropes; 43 % used", _POLYESTER_KNOTS, "seen", (0.43, 0.56)
        ),
        ("polyester", TerminationType.HITCH): _HITCHED_POLYESTER,
        ("webbing", TerminationType.SEWN): RetainedStrength(
            0.80, "a sewn, bar-tacked loop keeps 80 to 90 %; 80 % used", _SEWN_STRAPS, "memory", (0.80, 0.90)
        ),
        ("webbing", TerminationType.WATER_KNOT): RetainedStrength(
            0.60, "a water knot keeps 60 to 70 %; 60 % used",
            "a rescue field guide, 64 %, quoted with other tests in a page on ropes; the lower end is unverified",
            "second hand", (0.60, 0.70),
        ),
        ("webbing", TerminationType.HITCH): RetainedStrength(
            0.70, "a choked strap keeps 66 to 80 %, less the tighter it closes; 70 % used", _CHOKED, "judgement",
            (0.66, 0.80),
        ),
        ("UHMWPE webbing", TerminationType.SEWN): RetainedStrength(
            0.80, "a sewn loop is counted with 80 %",
            "a sewn lap in 2 mm UHMWPE cord kept 81 to 85 %, Hasegawa 2022, quoted in an engineering note; its use for "
            "a strap is engineering judgement", "judgement", (0.80, 0.85),
        ),
        ("UHMWPE webbing", TerminationType.WATER_KNOT): RetainedStrength(
            0.25, "a water knot in 1/8 in UHMWPE kept 25 %",
            "a climber's pulls of cord; its use for a strap is engineering judgement", "judgement",
        ),
        ("UHMWPE webbing", TerminationType.HITCH): RetainedStrength(
            0.57, "a choked UHMWPE rope keeps 57 %",
            "Oregon State University synthetic rope tests, cow hitch, quoted among kite flyers; its use for a strap is "
            "engineering judgement", "judgement",
        ),
    }
)  # fmt: skip
_ANY_KNOTS = {"nylon": _ANY_KNOT, "polyester": _ANY_POLYESTER_KNOT}

# For any knot: the lowest of a whole series, and why.
SLIP = RetainedStrength(
    0.08,
    "knots in one test series of UHMWPE kept 8 to 58 %; 8 % used. Bare UHMWPE is so slippery that many knots slip",
    _HMPE_KNOTS, "second hand", (0.08, 0.58),
)  # fmt: skip


def name_fibre(material: Cord | Webbing) -> str:
    """Return by what a material is looked up in ``SHARES``: the fibre of a cord, or the class of a webbing.

    Aramid, liquid-crystal polyester and polypropylene are ``other``, of which no pulls were found. Straps of nylon and
    of polyester are ``webbing``, since slings of both are rated alike.

    Examples
    --------
    >>> from tautlay.materials import Cord, Webbing, read_library
    >>> [name_fibre(read_library().find(Cord, name)) for name in ("12-strand UHMWPE 2 mm", "polyester braid 2 mm")]
    ['UHMWPE', 'polyester']
    >>> name_fibre(read_library().find(Webbing, "UHMWPE/polyester 1 in"))
    'UHMWPE webbing'
    """
    known = () if "liquid-crystal" in material.kind else ("UHMWPE", "nylon", "polyester")
    fibre = next((each for each in known if each in material.kind), "other")
    if isinstance(material, Cord):
        return fibre
    return "webbing" if fibre in ("nylon", "polyester") else f"{fibre} webbing"


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
    return _ANY_KNOTS.get(fibre) if ending.method.is_knot else None
