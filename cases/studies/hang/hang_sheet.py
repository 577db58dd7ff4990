"""Where a hammock can be hung: which tree spacings fit the current design, and what to change for others.

Unchanged, lines and straps stay, and the hang angle follows from the tree spacing: each spacing is solved, on
a coarse mesh and under the spread weight.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import radians
from typing import NamedTuple

import numpy as np

from ....hammock import HammockError
from ....hammock.load_case import HANGING
from ....hammock.side_view import find_distance_limits
from ....materials import make_sentence
from ....materials.short_repr import write_repr, write_value
from ....meshing.hang_angle_limits import estimate_distances
from ...design import Design
from ...judging.clearance import MARGIN
from ...result import Result
from ...solving.no_equilibrium import NoEquilibriumError
from ...solving.solution import solve_equilibrium
from ...unit_display import write_sentence
from ..line_callback import LineCallback
from ..solve_clock import SolveClock
from .hang_option import FLATTEST_FIT, STEEPEST_FIT, HangOption, ImpossibleHang, find_spot
from .strap_heights import Rehang, keep_angle

USUAL_ANGLE = radians(30.0)  # where the design gives a distance; common practice, no source
_MESH = 0.12  # m; the pull on the trees is within 1 % of that of a mesh three times finer
_SPREAD = np.radians((50.0, 17.0))  # estimated angles between which the range is looked for
_SAMPLES = 7
_CROSSINGS, _TO_CROSS = 3, 3  # limits that usually lie inside what was sampled, and solves that each takes to be found
_CLOSE = 0.005  # m, of the ends of the range


@dataclass(frozen=True)
class HangSheet:
    """Where one design can be hung.

    Parameters
    ----------
    design : Design
        With the girths of this sheet.
    spots : tuple of HangOption or ImpossibleHang
        With lines and straps unchanged, spacing by spacing.
    reach : tuple of float or None
        Nearest and farthest trees between which it fits unchanged, m; None if it fits nowhere.
    kept : HangOption
        How it hangs at the angle that is kept.
    rehangs : tuple of Rehang
        What keeps that angle, distance by distance.
    """

    design: Design
    spots: tuple[HangOption | ImpossibleHang, ...]
    reach: tuple[float, float] | None
    kept: HangOption
    rehangs: tuple[Rehang, ...]

    def __repr__(self) -> str:
        return write_repr(
            self,
            self.design.name,
            f"{len(self.spots)} distances",
            f"fits from {write_value(self.reach[0], 'length')} to {write_value(self.reach[1], 'length')}"
            if self.reach
            else "fits nowhere",
        )


def make_hang_sheet(
    design: Design,
    distances: Sequence[float] = (),
    *,
    angle: float | None = None,
    clearance: float | None = None,
    mesh_size: float = _MESH,
    report: LineCallback | None = None,
) -> HangSheet:
    """Return how a design hangs between trees at several distances.

    Parameters
    ----------
    design : Design
        What is hung, with its person.
    distances : sequence of float
        Of the trees, m; empty takes seven over the range in which it fits.
    angle : float or None
        Hang angle to keep, rad; None takes the design's, or 30 degrees where it gives a distance.
    clearance : float or None
        Height of the lowest point to keep, m; None takes that at the kept angle with the straps of the design.
    mesh_size : float
        Edge length in the field, m.
    report : callable or None
        Receives a line on what is being solved.

    Returns
    -------
    HangSheet
        Distances in rising order.

    Raises
    ------
    NoEquilibriumError
        If it hangs nowhere, or not at the kept angle.
    """
    solves = 1 + _SAMPLES + _CROSSINGS * _TO_CROSS + (len(distances) or _SAMPLES)
    hanger = _Hanger(design, mesh_size, SolveClock(report, solves))
    wanted = angle or design.hammock.suspension.hang_angle or USUAL_ANGLE
    kept = hanger.hang_at_angle(wanted)
    samples = hanger.sample()
    reach = hanger.find_reach(samples)
    if not distances:
        first, last = reach or (samples[0].distance, samples[-1].distance)
        distances = np.linspace(first, last, _SAMPLES).tolist()
    hanger.clock.expect(len(set(distances) - set(hanger.known)))
    spots = tuple(hanger.hang(distance) for distance in sorted(distances))
    ways = tuple(keep_angle(kept, distance, clearance) for distance in sorted(distances))
    return HangSheet(design, spots, reach, find_spot(kept), ways)


class _Hung(NamedTuple):
    """A hammock between two trees as it was solved, and how that hangs."""

    result: Result
    spot: HangOption


class _Hanger:
    """Hangs one design between many trees, each time from the nearest shape it knows."""

    def __init__(self, design: Design, mesh_size: float, clock: SolveClock) -> None:
        self.design, self.mesh_size, self.clock = design, mesh_size, clock
        self.known: dict[float, _Hung] = {}

    def hang_at_angle(self, angle: float) -> Result:
        """Return the equilibrium at a hang angle, rad, wherever the trees then stand."""
        ropes = replace(self.design.hammock.suspension, hang_angle=angle, tree_distance=None)
        words = make_sentence("hang angle of {angle:angle}", angle=angle)
        try:
            with self.clock.solve(write_sentence(words, self.design.units)):
                found = solve_equilibrium(self.design.hang(ropes), load=HANGING, mesh_size=self.mesh_size)
                self._keep(found.model.tree_distance, found)
        except HammockError as error:
            raise NoEquilibriumError(
                f"It cannot hang at that angle. Choose another --angle. {error.faults[0]}"
            ) from None
        return found

    def _keep(self, distance: float, found: Result) -> None:
        """Look a result through, which takes as long as its solve, and keep it."""
        self.known[distance] = _Hung(found, find_spot(found))

    def hang(self, distance: float) -> HangOption | ImpossibleHang:
        """Return how it hangs between trees at a distance, m."""
        if distance not in self.known:
            words = make_sentence("trees {distance:length} apart", distance=distance)
            nearest = min(self.known, key=lambda other: abs(other - distance))
            changed = self.design.hang_between(distance)
            try:
                with self.clock.solve(write_sentence(words, self.design.units)):
                    start = self.known[nearest].result
                    found = solve_equilibrium(changed, load=HANGING, mesh_size=self.mesh_size, start=start)
                    self._keep(distance, found)
            except HammockError as error:
                return ImpossibleHang(distance, error.faults[0].sentence)
            except NoEquilibriumError as error:
                return ImpossibleHang(distance, str(error))
        return self.known[distance].spot

    def sample(self) -> list[HangOption]:
        """Return the hang at spacings from a steep to a flat hang, as estimated; at least one."""
        hammock = self.design.hammock
        near, far = find_distance_limits(hammock)
        steep, flat = estimate_distances(hammock, self.design.person, _SPREAD)
        first, last = max(float(steep), near + _CLOSE), min(float(flat), far - _CLOSE)
        tried = [self.hang(distance) for distance in np.linspace(first, max(first, last), _SAMPLES).tolist()]
        found = [spot for spot in tried if isinstance(spot, HangOption)]
        return found or [self.known[distance].spot for distance in sorted(self.known)]

    def find_reach(self, samples: list[HangOption]) -> tuple[float, float] | None:
        """Return the nearest and farthest trees between which it fits, m.

        The farther the trees, the flatter and higher it hangs. Steep, the cloth sags and pulls harder at its channels;
        flat, cords and bars bear more: it is strongest between.
        """
        first, last = samples[0].distance, samples[-1].distance
        strongest = min(samples, key=lambda spot: spot.utilisation).distance
        low = max(
            self._cross(lambda spot: STEEPEST_FIT - spot.angle, first, last),
            self._cross(lambda spot: spot.clearance - MARGIN, first, last),
            self._cross(lambda spot: 1.0 - spot.utilisation, first, strongest),
        )
        high = min(
            self._reach_until(lambda spot: spot.angle - FLATTEST_FIT, first, last),
            self._reach_until(lambda spot: 1.0 - spot.utilisation, strongest, last),
        )
        low += 0.0 if low == first else _CLOSE  # inside what was found
        return (low, high) if low < high else None

    def _reach_until(self, room: Callable[[HangOption], float], first: float, last: float) -> float:
        """Return up to which distance there is room, m: ``last`` if to the end."""
        beyond = self._cross(lambda spot: -room(spot), first, last)
        return min(beyond - _CLOSE, last)

    def _cross(self, room: Callable[[HangOption], float], first: float, last: float) -> float:
        """Return from which distance on there is room, m: ``first`` if always, infinity if nowhere."""
        from scipy.optimize import brentq

        def look(distance: float) -> float:
            spot = self.hang(distance)
            if isinstance(spot, ImpossibleHang):
                raise NoEquilibriumError(str(spot.reason))
            return room(spot)

        if look(first) >= 0.0:
            return first
        if look(last) < 0.0:
            return float("inf")
        below = max(each for each in self.known if first <= each <= last and look(each) < 0.0)
        above = min(each for each in self.known if below < each <= last)
        return float(brentq(look, below, above, xtol=_CLOSE))
