"""An invented hammock and person for examples and tests; no real product and no real person."""

from math import radians

from ..materials import Cord, Fabric, Tube, Webbing
from .hammock import Arc, Bar, Body, Channel, Hammock
from .person import Person, Sex
from .suspension import EndSuspension, Suspension


def example_hammock() -> Hammock:
    """Return an invented hammock, the same at head and foot.

    Examples
    --------
    >>> example_hammock().head_bar.length
    0.86
    """
    fabric = Fabric("invented ripstop", "ripstop nylon", 0.055, 30e3, 25e3, 0.15, 200.0, 9e3, 8e3)
    cord = Cord("invented cord", "12-strand UHMWPE", 0.0025, 4e-3, 6e3, 150e3)
    strap = Webbing("invented strap", "polyester", 0.025, 0.0013, 0.025, 6e3, 40e3)
    tube = Tube("invented tube", "aluminium", 0.016, 0.001, 69e9, 2710.0, 230e6)
    body = Body(2.0, 1.16, 1.12, Arc(0.19), Arc(0.19), fabric)
    bar = Bar(0.86, tube)
    end = EndSuspension(0.75, cord, 1.0, strap, 1.9)
    hang = Suspension(end, end, hang_angle=radians(30.0))
    return Hammock(body, Channel(cord), bar, bar, hang)


def example_person() -> Person:
    """Return an invented person of 80 kg and 1.78 m.

    Examples
    --------
    >>> example_person().mass
    80.0
    """
    return Person(1.78, 80.0, Sex.MALE, 0.1)
