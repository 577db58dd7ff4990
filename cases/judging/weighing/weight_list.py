"""All parts of a design with their masses, subtotals and totals."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import NamedTuple

from ....cutting import Draft, draft_pieces
from ....hammock.described import Described
from ....hammock.part import list_parts
from ....making import WeightGroup
from .build import Build
from .cloth_weights import weigh_cloth
from .cord_weights import weigh_cords
from .hardware_weights import weigh_bars, weigh_corners, weigh_extras, weigh_toggles
from .thread_weights import weigh_thread
from .weight import Unweighed, Weight

Weigher = Callable[[Build], Iterator[Weight | Unweighed]]
WEIGHERS: tuple[Weigher, ...] = (
    weigh_cloth,
    weigh_thread,
    weigh_cords,
    weigh_toggles,
    weigh_corners,
    weigh_bars,
    weigh_extras,
)


class Total(NamedTuple):
    """A sum of masses, kg: nominal, all at their lowest and all at their highest."""

    mass: float
    least: float
    most: float


@dataclass(frozen=True)
class WeightList:
    """All parts of a design with their masses.

    Parameters
    ----------
    weights : tuple of Weight
        What was weighed, group by group.
    unweighed : tuple of Unweighed
        What the design does not state.
    """

    weights: tuple[Weight, ...]
    unweighed: tuple[Unweighed, ...]

    def __repr__(self) -> str:
        """Return how many parts and how much."""
        return f"WeightList({len(self.weights)} weights, {self.add().mass:.3g} kg, {len(self.unweighed)} not weighed)"

    def add(self, *groups: WeightGroup, carried: bool | None = None) -> Total:
        """Return the mass of groups, all if none is named.

        Parameters
        ----------
        *groups : WeightGroup
            What to add up.
        carried : bool or None
            Only what is dual-use, or only what is not; None is both.
        """
        chosen = [
            weight
            for weight in self.weights
            if (not groups or weight.group in groups) and carried in (None, weight.carried)
        ]
        return Total(
            sum((weight.mass for weight in chosen), 0.0),
            sum((weight.limits[0] for weight in chosen), 0.0),
            sum((weight.limits[1] for weight in chosen), 0.0),
        )

    @property
    def packed(self) -> Total:
        """Pack weight added by the hammock: everything but dual-use parts."""
        return self.add(carried=False)


def weigh_design(design: Described, draft: Draft | None = None) -> WeightList:
    r"""Return the mass of every part of a design, without solving it.

    .. math:: m = \sum_k a_k \mu_k

    with the amount a of each material, seam allowances and cord ends in it, and the mass :math:`\mu` of its unit.

    Parameters
    ----------
    design : Described
        A ``Design``, or anything else with a hammock and how it is made.
    draft : Draft or None
        Its pieces, where a result says how they are cut; None drafts them without one.

    Returns
    -------
    WeightList
        kg.

    Notes
    -----
    The lowest and the highest take every mass at the same end of its range; a cloth mill and a rope maker are rarely
    both at it. Cut-offs, dirt, moisture and the take-up of splices are ignored. A material without a range counts
    as exact.

    Examples
    --------
    >>> from importlib.resources import files
    >>> from tautlay.cases import read_design
    >>> scales = weigh_design(read_design(str(files("tautlay.cases") / "larch_ridge.toml")))
    >>> scales.add(WeightGroup.BARS).mass == sum(w.mass for w in scales.weights if w.group is WeightGroup.BARS)
    True
    """
    build = Build(design.hammock, design.workmanship, list_parts(design.hammock), draft or draft_pieces(design))
    found = [row for weigh in WEIGHERS for row in weigh(build)]
    weights = [row for row in found if isinstance(row, Weight)]
    ordered = sorted(weights, key=lambda weight: list(WeightGroup).index(weight.group))
    return WeightList(tuple(ordered), tuple(row for row in found if isinstance(row, Unweighed)))
