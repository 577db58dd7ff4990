"""One search for sizes and materials from one start: by turns sizes, then what is chosen from lists.

Sizes are searched by COBYQA (T. M. Ragonneau and Z. Zhang; package ``cobyqa``), a trust-region method without
derivatives for few variables and constraints that are dear to know. Of each list the lightest that passes is then found
by halving, with all else kept, and what could be lighter alone is tried together. At the end swaps are tried with the
sizes that would follow (``resized_swap``). There is no bound: how often starts agree is all that says how good it is.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np

from ....hammock.arrays import FloatArray
from ....materials.short_repr import write_repr
from ..sweep.sweep_row import SweepRow
from .point import STEPS, Picks, PointSet, swap_pick
from .resized_swap import fit_lines, resize
from .shortfall_list import Offsets, add_shortfalls, measure_shortfalls

Ask = Callable[[Sequence[tuple[Picks, Picks]]], list[SweepRow | None]]
ROUNDS = ((0.25, 30), (0.12, 25), (0.06, 20))  # radius of the first step, share of the range; designs tried
EXCHANGES, EXCHANGED = 3, (0.1, 20)  # swaps whose sizes are searched anew; radius and designs of each
_WORTH = 0.003  # of the mass: what a swap must be expected to save
_LAST = 0.01  # radius at which sizes are found: a hundredth of the range
_CLOSE = 1e-9


class SpentError(Exception):
    """A search has solved as many designs as it may."""


@dataclass
class SizeSearch:
    """A search from one start.

    Parameters
    ----------
    points : PointSet
        Makes and weighs designs.
    start : tuple of int
        Where it begins.
    offsets : mapping of str to float
        As in :mod:`~tautlay.cases.studies.choose.shortfall_list`.
    most : int
        How many designs it solves.
    """

    points: PointSet
    start: Picks
    offsets: Offsets
    most: int
    rows: dict[Picks, SweepRow | None] = field(default_factory=dict)

    def __repr__(self) -> str:
        return write_repr(self, f"{len(self.rows)} solved of {self.most}")

    @property
    def best(self) -> Picks | None:
        """The lightest of those that pass, as far as the offsets say; None if there is none."""
        passing = [(mass, point) for point in self.rows if self._miss(point) <= _CLOSE and (mass := self._weigh(point))]
        return min(passing)[1] if passing else None

    @property
    def nearest(self) -> Picks:
        """The best, else what misses least."""
        return self.best or min(self.rows, key=lambda point: (self._miss(point), point))

    def run(self, ask: Ask) -> "SizeSearch":
        """Search until nothing gets lighter, or as many are solved as may be."""
        try:
            self._solve(ask, [self.start], self.start)
            for radius, tries in ROUNDS:
                before = self.nearest
                if self.points.sizes:
                    self._find_sizes(ask, self.nearest, radius, tries)
                if self.points.listed:
                    self._choose(ask)
                if self.nearest == before:
                    break
            if self.points.sizes and self.points.listed and self.rows[self.nearest] is not None:
                self._exchange(ask)
        except SpentError:
            pass  # the best so far stands in rows
        return self

    def _weigh(self, point: Picks) -> float | None:
        return self.points.weigh(point)

    def _miss(self, point: Picks) -> float:
        return add_shortfalls(self.rows[point], self.offsets)

    def _solve(self, ask: Ask, points: Sequence[Picks], start: Picks) -> None:
        """Solve points that were not."""
        left = [point for point in dict.fromkeys(points) if point not in self.rows]
        if len(self.rows) + len(left) > self.most:
            raise SpentError
        if left:
            self.rows.update(zip(left, ask([(point, start) for point in left]), strict=True))

    def _exchange(self, ask: Ask) -> None:
        """Swap what is chosen from a list, with sizes that follow, while that is expected to be lighter."""
        for _ in range(EXCHANGES):
            begin, mass = self.nearest, self._weigh(self.nearest) or 0.0
            guess = self._guess_exchange(ask, begin)
            if guess is None or guess[0] >= mass * (1.0 - _WORTH):
                return
            self._find_sizes(ask, guess[1], *EXCHANGED)
            if self.nearest == begin:
                return

    def _guess_exchange(self, ask: Ask, begin: Picks) -> tuple[float, Picks] | None:
        """Return the swap that is expected to be lightest once sizes have followed: its mass, kg, and the design."""
        alike = [point for point, row in self.rows.items() if row is not None and self._keeps_lists(point, begin)]
        lines = fit_lines(
            self._share(begin),
            np.array([self._share(point) for point in alike]),
            np.array([self._weigh(point) or 0.0 for point in alike]),
            np.array([measure_shortfalls(self.rows[point], self.offsets) for point in alike]),
        )
        swaps = [each for place in self.points.listed for each in self._list_swaps(begin, place)]
        self._solve(ask, swaps, begin)
        guesses = []
        for swap in swaps if lines is not None else []:
            assert lines is not None  # or there is nothing to go through
            shortfalls = measure_shortfalls(self.rows[swap], self.offsets)
            found = resize(lines, self._weigh(swap) or 0.0, shortfalls) if self.rows[swap] is not None else None
            if found is not None:
                guesses.append((found.mass, self._resize(swap, found.shares)))
        return min(guesses, default=None)

    def _list_swaps(self, begin: Picks, place: int) -> list[Picks]:
        """Return the design with the values next to its own in one list, by weight."""
        ordered = self._order(begin, place)
        here = ordered.index(begin[place])
        return [
            swap_pick(begin, place, pick) for pick in [*ordered[max(here - 2, 0) : here], *ordered[here + 1 : here + 3]]
        ]

    def _keeps_lists(self, point: Picks, begin: Picks) -> bool:
        return all(point[place] == begin[place] for place in self.points.listed)

    def _share(self, point: Picks) -> FloatArray:
        return np.array([point[place] / STEPS for place in self.points.sizes])

    def _resize(self, point: Picks, shares: FloatArray) -> Picks:
        """Return a design with other sizes, in whole steps."""
        sized = list(point)
        for place, share in zip(self.points.sizes, shares, strict=True):
            sized[place] = round(float(np.clip(share, 0.0, 1.0)) * STEPS)
        return tuple(sized)

    def _find_sizes(self, ask: Ask, begin: Picks, radius: float, tries: int) -> None:
        """Search sizes with what is chosen from lists kept."""
        from cobyqa import minimize
        from scipy.optimize import Bounds, NonlinearConstraint

        scale = self._weigh(begin) or 1.0

        def weigh(shares: FloatArray) -> float:
            return (self._weigh(self._resize(begin, shares)) or scale) / scale

        def measure(shares: FloatArray) -> FloatArray:
            point = self._resize(begin, shares)
            self._solve(ask, [point], begin)
            return measure_shortfalls(self.rows[point], self.offsets)

        minimize(
            weigh,
            self._share(begin),
            bounds=Bounds(np.zeros(len(self.points.sizes)), np.ones(len(self.points.sizes))),
            constraints=NonlinearConstraint(measure, 0.0, np.inf),
            options={"maxfev": tries, "radius_init": radius, "radius_final": _LAST},
        )

    def _choose(self, ask: Ask) -> None:
        """Choose from lists with sizes kept: each alone, then together."""
        begin = self.nearest
        reach = max(self._miss(begin), _CLOSE)
        ordered = {place: self._order(begin, place) for place in self.points.listed}
        low = dict.fromkeys(ordered, 0)
        high = {place: options.index(begin[place]) for place, options in ordered.items()}
        while open_places := [place for place in ordered if low[place] < high[place]]:
            middle = {place: (low[place] + high[place]) // 2 for place in open_places}
            tries = {place: swap_pick(begin, place, ordered[place][middle[place]]) for place in open_places}
            self._solve(ask, list(tries.values()), begin)
            for place, point in tries.items():
                if self._miss(point) <= reach:
                    high[place] = middle[place]
                else:
                    low[place] = middle[place] + 1
        self._combine(ask, begin, {place: ordered[place][high[place]] for place in ordered}, reach)

    def _order(self, begin: Picks, place: int) -> list[int]:
        """Return the values of a list by weight, the lightest first, without those that cannot be made."""
        count = len(self.points.sweep.choices[place].options)
        weighed = [(self._weigh(swap_pick(begin, place, pick)), pick) for pick in range(count)]
        return [pick for _, pick in sorted((mass, pick) for mass, pick in weighed if mass is not None)]

    def _combine(self, ask: Ask, begin: Picks, lighter: dict[int, int], reach: float) -> None:
        """Take what is lighter alone together; while that fails, put back what saves least."""
        mass = self._weigh(begin) or 0.0
        saved = {place: mass - (self._weigh(swap_pick(begin, place, pick)) or mass) for place, pick in lighter.items()}
        left = sorted((place for place in lighter if lighter[place] != begin[place]), key=lambda place: -saved[place])
        while left:
            point = begin
            for place in left:
                point = swap_pick(point, place, lighter[place])
            self._solve(ask, [point], begin)
            if self._miss(point) <= reach:
                return
            left.pop()
