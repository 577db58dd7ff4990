"""Where the bags of a trial lie, and how large they are.

Engineering judgement, no source: bags of 5 litres that lie flat across the middle of the cloth, end to end over the
metre about half its length, where it is lowest and flattest.
"""

from dataclasses import dataclass
from typing import NamedTuple

from ....hammock.hammock import Body
from ....hammock.outline import draw_outline
from ....meshing.bag_load import Bag
from ...judging.sensitivity.range_input import Input
from ..scatter.distribution import Distribution

WATERS = (20.0, 40.0, 60.0)  # kg
BAG_MASS = 5.0  # kg of water in each bag
PLACES = 4
_LENGTH, _BREADTH = 0.25, 0.40  # m, along and across the body
_OUTER = 0.39  # m from half the length to the middle of the outermost bags
_OF_WIDTH = 0.9  # of the cloth that bags may cover
_OF_LENGTH = 0.8
_PLACED = (0.01, "engineering judgement: 90 of 100 within 1 cm of the marks")
_FLAT = (0.02, "engineering judgement: 90 of 100 within 2 cm, measured once they lie")


class BagLayout(NamedTuple):
    """How the bags lie.

    Parameters
    ----------
    outer : float
        From half the length of the flat cloth to the middle of the outermost bags, m; the others lie between them, all
        at the same distance.
    length, breadth : float
        What each covers along and across the body, m.
    """

    outer: float
    length: float
    breadth: float

    @property
    def offsets(self) -> tuple[float, ...]:
        """From half the length towards the foot to the middle of each place, m."""
        return tuple(self.outer * (2 * place / (PLACES - 1) - 1) for place in range(PLACES))

    def place(self, body: Body, water: float) -> tuple[Bag, ...]:
        """Return the bags with some kilograms of water in all on a body, an equal share at each place."""
        share = water / PLACES
        return tuple(Bag(body.length / 2 + offset, self.length, self.breadth, share) for offset in self.offsets)


def plan_layout(body: Body) -> BagLayout:
    """Return how bags lie on a body: closer on a short one, narrower on a narrow one.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock
    >>> body = example_hammock().body
    >>> layout = plan_layout(body)
    >>> [(round(bag.along, 2), bag.mass) for bag in layout.place(body, 20.0)]
    [(0.61, 5.0), (0.87, 5.0), (1.13, 5.0), (1.39, 5.0)]
    """
    _, waist = draw_outline(body).waist
    closer = min(1.0, _OF_LENGTH * body.length / (2 * _OUTER + _LENGTH))
    return BagLayout(closer * _OUTER, closer * _LENGTH, min(_BREADTH, _OF_WIDTH * waist))


@dataclass(frozen=True, repr=False)
class BagInput(Input):
    """How exactly bags lie as they should.

    Parameters
    ----------
    field : str
        Which size of the layout, ``"outer"`` or ``"breadth"``.
    """

    field: str

    def put(self, layout: BagLayout, value: float) -> BagLayout:
        """Return a layout with another value, m."""
        return layout._replace(**{self.field: value})


def list_bag_laws(layout: BagLayout) -> dict[Input, Distribution]:
    """Return how places and breadth of the bags scatter."""
    found: dict[Input, Distribution] = {}
    rows = (("outer", "place of the outer bags", _PLACED), ("breadth", "breadth of the bags", _FLAT))
    for field, title, (spread, source) in rows:
        value = float(getattr(layout, field))
        ends = (value - spread, value + spread)
        found[BagInput(title, value, ends, "length", "", field)] = Distribution("normal", *ends, source)
    return found
