"""One search for sizes and materials from one start: by turns what is chosen from lists, then sizes.

Of each list the lightest value that is strong enough is foretold from one solved shape (``frozen_shape``), and all of
them are solved together. Sizes are then searched by COBYQA (T. M. Ragonneau and Z. Zhang; package ``cobyqa``), a
trust-region method without derivatives for few variables and constraints that are dear to know. At the end swaps are
tried with the sizes that would follow (``resized_swap``). There is no bound: how often starts agree is all that says
how good it is.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np

from ....hammock.arrays import FloatArray
from ....materials.short_repr import write_repr
from ..sweep.sweep_row import SweepRow
from .frozen_shape import Foretold
from .point import STEPS, Picks, PointSet, swap_pick
from .resized_swap import fit_lines, resize
from .shortfall_list import Offsets, add_shortfalls, list_short_kinds, measure_shortfalls

ROUNDS = ((0.25, 20), (0.12, 14), (0.06, 10))  # radius of the first step, share of the range; designs tried
EXCHANGES, EXCHANGED = 2, (0.1, 12)  # swaps whose sizes are searched anew; radius and designs of each
_WORTH = 0.003  # of the mass: what a swap must be expected to save
_LAST = 0.01  # radius at which sizes are found: a hundredth of the range
_MORE = 3  # designs beyond the number of sizes from which COBYQA makes its first models
_CLOSE = 1e-9
_OF_SHAPE = "cloth"  # kind of parts that is blamed where a design no longer lies or hangs as required: the stiffest


class Ladders(NamedTuple):
    """A design, and of each thing that is chosen from a list the designs with its values, the lightest first."""

    begin: Picks
    lists: tuple[tuple[Picks, ...], ...]
    offsets: Offsets

    def __repr__(self) -> str:
        return write_repr(self, f"{len(self.lists)} lists")


class Ask(NamedTuple):
    """Who answers a search: rows of designs, each with the one from whose shape it starts; and what is foretold."""

    solve: Callable[[Sequence[tuple[Picks, Picks]]], list[SweepRow | None]]
    foretell: Callable[[Ladders], Foretold]

    def __repr__(self) -> str:
        return write_repr(self)


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
            here = self.start
            for radius, tries in ROUNDS:
                before, here = here, self._choose(ask, here)
                if self.points.sizes:
                    here = self._find_sizes(ask, here, radius, tries)
                if here == before:
                    break
            self._choose(ask, here)
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
            self.rows.update(zip(left, ask.solve([(point, start) for point in left]), strict=True))

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
        ordered = self.points.order(begin, place)
        here = ordered.index(begin[place])
        return [
            swap_pick(begin, place, pick) for pick in [*ordered[max(here - 1, 0) : here], *ordered[here + 1 : here + 2]]
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

    def _find_sizes(self, ask: Ask, begin: Picks, radius: float, tries: int) -> Picks:
        """Search sizes with what is chosen from lists kept; return the lightest that passes, else what misses least."""
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
            options={
                "maxfev": tries,
                "radius_init": radius,
                "radius_final": _LAST,
                "nb_points": min(2 * len(self.points.sizes) + 1, len(self.points.sizes) + _MORE),
            },
        )
        alike = [point for point in self.rows if self._keeps_lists(point, begin)]
        return min(alike, key=lambda point: (max(self._miss(point), _CLOSE), self._weigh(point) or np.inf, point))

    def _choose(self, ask: Ask, begin: Picks) -> Picks:
        """Return a design with the lightest strong enough value of each list, as foretold, if it comes out so."""
        ordered = {place: self.points.order(begin, place) for place in self.points.listed}
        lists = tuple(tuple(swap_pick(begin, place, pick) for pick in picks) for place, picks in ordered.items())
        told = ask.foretell(Ladders(begin, lists, self.offsets)).rungs if lists else ()
        rungs = {place: rung for place, rung in zip(ordered, told, strict=True) if rung is not None}
        chosen = {place: ordered[place][rung.place] for place, rung in rungs.items()}
        point = self._put(begin, chosen)
        self._solve(ask, [point], begin)
        reach = max(self._miss(begin), _CLOSE)
        short = list_short_kinds(self.rows[point], self.rows[begin], self.offsets)
        blamed = short | ({_OF_SHAPE} if "" in short else set())
        saved = {place: self._saves(begin, place, pick) for place, pick in chosen.items()}
        heavier = {place: pick for place, pick in chosen.items() if saved[place] < 0.0}
        left = sorted(
            (place for place in chosen if saved[place] > 0.0),
            key=lambda place: (not rungs[place].kinds & blamed, saved[place]),
            reverse=True,
        )
        while left and self._miss(point) > reach:  # put back what is blamed first, then what saves least
            left.pop()
            point = self._put(begin, heavier | {place: chosen[place] for place in left})
            self._solve(ask, [point], begin)
        return point if self._miss(point) <= reach else begin

    def _put(self, begin: Picks, chosen: Mapping[int, int]) -> Picks:
        """Return a design with some values chosen."""
        for place, pick in chosen.items():
            begin = swap_pick(begin, place, pick)
        return begin

    def _saves(self, begin: Picks, place: int, pick: int) -> float:
        """Return what a swap saves, kg."""
        return (self._weigh(begin) or 0.0) - (self._weigh(swap_pick(begin, place, pick)) or 0.0)
