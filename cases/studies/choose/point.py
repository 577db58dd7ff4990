"""A design of a search for sizes: of each thing that is open the place of its value."""

from dataclasses import replace
from math import inf

from ....materials.short_repr import write_repr
from ...design_issue import DesignError
from ...judging.weighing import weigh_design
from ..sweep.plan import Job, StartFrom, plan_jobs
from ..sweep.sweep import Sweep
from ..sweep.sweep_variable import Option, SweepVariable
from ..sweep.variant import Variant

STEPS = 100  # between two ends: finer than anybody sews, and designs that are asked for twice are solved once
NEAR = 2  # steps to the next smaller or larger size
Picks = tuple[int, ...]


class PointSet:
    """Makes and weighs the designs of a search, each once.

    Parameters
    ----------
    sweep : Sweep
        What is open.
    """

    def __init__(self, sweep: Sweep) -> None:
        self.sweep = sweep
        self.masses: dict[Picks, float | None] = {}
        self.orders: dict[int, list[int]] = {}  # of each list, by weight

    def __repr__(self) -> str:
        return write_repr(self, self.sweep.name, f"{len(self.masses)} weighed")

    @property
    def sizes(self) -> list[int]:
        """Places of what lies between two ends."""
        return [place for place, choice in enumerate(self.sweep.choices) if not choice.options]

    @property
    def listed(self) -> list[int]:
        """Places of what is chosen from a list."""
        return [place for place, choice in enumerate(self.sweep.choices) if choice.options]

    def plan(self, point: Picks, start: Picks) -> Job | None:
        """Return a design that starts from another's shape, if both have the same flat body; None if it cannot be made.

        Parameters
        ----------
        point, start : tuple of int
            The design, and from whose shape it starts.
        """
        variants = tuple(self.make_variant(each) for each in dict.fromkeys((start, point)))
        try:
            jobs = plan_jobs(replace(self.sweep, variants=variants), start_from=StartFrom.FIRST)
        except DesignError:
            return None  # neither can be made
        return None if jobs[-1].design is None else jobs[-1]

    def weigh(self, point: Picks) -> float | None:
        """Return the added pack weight, kg; None if it cannot be made."""
        if point not in self.masses:
            try:
                design = self.sweep.make_design(self.make_variant(point))
            except (DesignError, ValueError):
                self.masses[point] = None
            else:
                self.masses[point] = weigh_design(design).packed.mass
        return self.masses[point]

    def label(self, point: Picks, place: int) -> str:
        """Return the value of one thing that is open, in words."""
        return _take(self.sweep.choices[place], point[place]).label

    def order(self, begin: Picks, place: int) -> list[int]:
        """Return the values of a list by weight, the lightest first; found once, since sizes hardly change the order.

        What cannot be made there stands at the end. Where nothing can, as it stands, and it is found anew elsewhere.
        """
        if place in self.orders:
            return self.orders[place]
        masses = [self.weigh(swap_pick(begin, place, pick)) for pick in range(len(self.sweep.choices[place].options))]
        found = sorted(range(len(masses)), key=lambda pick: inf if (mass := masses[pick]) is None else mass)
        if any(mass is not None for mass in masses):
            self.orders[place] = found
        return found

    def list_near(self, point: Picks, place: int) -> list[Picks]:
        """Return the designs with another value at a place: any of a list, of a size one a little to each side."""
        count = len(self.sweep.choices[place].options)
        picks = range(count) if count else [point[place] - NEAR, point[place] + NEAR]
        others = [pick for pick in picks if pick != point[place] and 0 <= pick <= max(count - 1, STEPS)]
        return [swap_pick(point, place, pick) for pick in others]

    def make_variant(self, point: Picks) -> Variant:
        """Return the values of a design."""
        pairs = zip(self.sweep.choices, point, strict=True)
        return Variant(1, point, tuple(_take(choice, place) for choice, place in pairs))


def swap_pick(point: Picks, place: int, pick: int) -> Picks:
    """Return a point with one value changed."""
    return (*point[:place], pick, *point[place + 1 :])


def _take(choice: SweepVariable, place: int) -> Option:
    """Return the value at a place of a list, or so many steps from the low end."""
    return choice.options[place] if choice.options else choice.pick(place / STEPS)
