"""Pulls to breaking, stretch of rope and a column, against the numbers that the checks count with."""

from math import pi

from tautlay.making import CordTermination, TerminationType, find_share
from tautlay.making.retained_strength import SLIP
from tautlay.materials import Cord, buckling_load, read_library

from ._comparison import Band, Comparison

POUND, INCH = 4.4482216152605, 0.0254  # N, m, NIST SP 811 B.8
# UFC 4-159-03 (2005), Table 6-8, double braided nylon: breaking strength and AE, kip, smallest, middle and largest size.
NYLON_ROPES = ((33.6, 118.9), (202.0, 715.0), (680.0, 2407.1))


def compare():
    """Yield them."""
    yield _compare_nylon()
    yield _compare_strip()
    yield from _compare_knots()


def _compare_nylon():
    """Return stiffness over breaking load of nylon rope."""
    ratios = sorted(ea / load for load, ea in NYLON_ROPES)
    cord = read_library().find(Cord, "nylon parachute cord type III")
    low, high = cord.provenance["ea"].range
    return Comparison(
        experiment="double braided nylon mooring rope, 25 to 122 mm",
        quantity="stiffness over breaking load",
        unit="1",
        measured=Band(ratios[0], ratios[1], ratios[-1]),
        computed=Band(*(each / cord.breaking_load for each in (low, cord.ea, high))),
        inputs="19 sizes, dry, loaded again and again; the library's parachute cord with its range.",
        source="UFC 4-159-03 (2005), Table 6-8.",
        sureness="seen",
        reason="the ropes were loaded again and again, which stiffens nylon; the library's value is that of a first pull, and "
        "its range ends 6 % below. A softer cord lets one hang lower, so nothing was changed.",
    )


def _compare_strip():
    """Return the buckling load of a steel strip, whose ends are somewhere between pinned and clamped."""
    width, depth = 0.377 * INCH, 0.122 * INCH
    rigidity = 29e6 * POUND / INCH**2 * width * depth**3 / 12
    pinned = buckling_load([27.5 * INCH], [rigidity])
    assert abs(pinned / (pi**2 * rigidity / (27.5 * INCH) ** 2) - 1) < 1e-6
    return Comparison(
        experiment="steel strip pushed until it buckles",
        quantity="buckling load",
        unit="N",
        measured=Band.around(43.5 * POUND, 0.52 * POUND),
        computed=Band(pinned, pinned, 4 * pinned),
        inputs="0.122 x 0.377 x 27.5 in, modulus 29e6 psi, eight loads. How the ends were held is not told: pinned is "
        "computed, and the band goes to clamped, four times as much, too wide to prove anything.",
        source="a student's report on columns.",
        sureness="seen",
    )


def _compare_knots():
    """Yield bowlines pulled to breaking against the shares that the checks count with."""
    polyester = find_share(read_library().find(Cord, "polyester braid 3 mm"), CordTermination(TerminationType.BOWLINE))
    told = {
        "quantity": "share of the breaking load kept",
        "unit": "1",
        "source": "Yachting Monthly, November 2017, pages 68 to 73, a rope maker's machine, load cell good to 1 %.",
        "sureness": "seen",
    }
    yield Comparison(
        experiment="bowline in 10 mm polyester rope",
        measured=Band(1600 / 3690, 1490 / 2850, 1470 / 2640),
        computed=Band(polyester.range[0], polyester.value, polyester.range[1]),
        inputs="three makes of rope; the library counts with the least of these same pulls, so that this row only says that "
        "it is not above them.",
        **told,
    )
    yield Comparison(
        experiment="bowline in 10 mm rope with a UHMWPE core under a polyester cover",
        measured=Band.around(2090 / 5360, 0.01 * 2090 / 5360),
        computed=Band(SLIP.value, SLIP.value, SLIP.value),
        inputs="one make; the checks count any knot in UHMWPE as one that slips, with the least of another test series.",
        reason="meant so: knots in bare UHMWPE slip at loads that differ by a factor of seven, and the least is counted.",
        **told,
    )
