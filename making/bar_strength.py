r"""Capacity of a spreader bar in each failure mode.

The thrust :math:`P` that reaches the strength :math:`f` of a part: :math:`P/A + P\,m\,r/I = f`, with the lever arm m of
the thrust on the bent bar from :class:`~tautlay.making.column.Column`. On a uniform bar this is the secant formula for
an eccentric thrust and the Perry formula for a bow.
Sources: S. P. Timoshenko and J. M. Gere, Theory of Elastic Stability, 2nd ed. (1961), ch. 1 and 2; NASA SP-8007 (1968)
for thin walls; all unverified.
"""

from collections.abc import Iterator
from math import exp, sqrt

from ..materials import Tube, make_sentence
from .bar import BarBuild, find_outer
from .bar_column import build_column
from .bar_end import crush_face, list_cantilever_modes, list_joint_modes
from .capacity import Capacity, CapacityStep
from .column import Column, Strain
from .failure_mode import SQUEEZES, FailureMode, find_strength, name_strength, trace, trace_sizes, warn
from .imperfection import find_imperfections
from .material_class import Substance, find_substance

_THIN = 30.0  # radius over wall from which the wall can buckle
_JOINT_COSTS = 0.8  # of the capacity of a bar without play; below, the joint is named
_STOCKY = 1.5  # growth of the lever arm: below it is crushed

_FAILS = {"metal": "bends for good", "wood": "snaps", "laminate": "snaps"}


def list_weaknesses(bar: BarBuild) -> Iterator[FailureMode]:
    """Yield every failure mode of a bar, with its capacity.

    Parameters
    ----------
    bar : BarBuild
        Without errors.

    Yields
    ------
    FailureMode
        Elastic buckling; bending up to the strength, by substance; thin walls; rods that stick out of tubes; ends,
        plugs and rims; locks with a holding force.

    Examples
    --------
    >>> from tautlay.making import BarPart
    >>> tube = Tube("demo", "aluminium", 0.016, 0.001, 70e9, 2700.0, 240e6)
    >>> found = {each.mechanism: each.capacity.value for each in list_weaknesses(BarBuild((BarPart(tube, 0.9),)))}
    >>> [(mechanism, round(value)) for mechanism, value in found.items()]
    [('buckles', 1135), ('bends for good', 1015), ('flattens at end', 11310)]
    """
    bow, eccentricity, steps = find_imperfections(bar)
    column = build_column(bar, bow=bow, eccentricity=eccentricity)
    tight = build_column(bar, bow=bow, eccentricity=eccentricity, tight=True)
    yield _buckle(bar, column, tight)
    for substance in dict.fromkeys(find_substance(part.section) for part in bar.parts):
        yield _bend(bar, substance, (column, tight), steps)
    yield from _dent(bar, column, steps)
    yield from list_cantilever_modes(bar, eccentricity, steps)
    for place in dict.fromkeys((0, len(bar.parts) - 1)):
        yield crush_face(bar, place, bar.parts[place].cut(1.0 if place else 0.0).area, "at end", "end face")
    for place, joint in enumerate(bar.joints, 1):
        yield from list_joint_modes(bar, place, joint)


def _buckle(bar: BarBuild, column: Column, tight: Column) -> FailureMode:
    """Return the elastic buckling of the straight bar."""
    load = column.buckling_load
    rule = CapacityStep(
        "stepped column on pins, EI y'' + P y = 0", "Timoshenko and Gere (1961), ch. 2, unverified", "derived"
    )
    steps = (*trace(bar.parts, "modulus"), *trace_sizes(bar.parts), rule)
    kinds = tuple(dict.fromkeys(find_substance(part.section) for part in bar.parts))
    mechanism = "buckles at a joint" if load < _JOINT_COSTS * tight.buckling_load else "buckles"
    return FailureMode(mechanism, Capacity(load, "force", steps), kinds, make_sentence("whole length"))


def _bend(
    bar: BarBuild, substance: Substance, columns: tuple[Column, Column], steps: tuple[CapacityStep, ...]
) -> FailureMode:
    """Return the thrust at which the first part of a substance reaches its strength."""
    column, tight = columns
    strengths = {
        place: find_strength(part.section)
        for place, part in enumerate(bar.parts)
        if find_substance(part.section) == substance
    }
    load = column.find_limit(strengths)
    worst, strain = max(column.strain(load, strengths).items(), key=lambda item: item[1].share)
    mechanism = _name_failure(strain, substance)
    if load < _JOINT_COSTS * tight.find_limit(strengths):
        mechanism = "kinks at a joint"
    rule = CapacityStep(
        "thrust and bending of the bent column reach the strength; for short struts too",
        "secant and Perry formula, Timoshenko and Gere (1961), ch. 1, unverified",
        "derived",
    )
    part = bar.parts[worst]
    rests = (*trace((part,), name_strength(part.section)), *trace(bar.parts, "modulus"), *trace_sizes(bar.parts))
    capacity = Capacity(load, "force", (*rests, *steps, rule, *warn(substance)))
    where = make_sentence("{noun}, {x:length} from the left end", noun=part.noun, x=strain.place)
    return FailureMode(mechanism, capacity, (substance,), where)


def _name_failure(strain: Strain, substance: Substance) -> str:
    """Return how a part fails, by how far the thrust has bent the bar."""
    if strain.growth < _STOCKY:
        return SQUEEZES[substance]
    return _FAILS[substance]


def _dent(bar: BarBuild, column: Column, steps: tuple[CapacityStep, ...]) -> Iterator[FailureMode]:
    r"""Yield the local buckling of thin walls, :math:`\sigma = 0.6\,\gamma E t/R`."""
    for place, part in enumerate(bar.parts):
        tube = max(part.cut(0.0), part.cut(1.0), key=find_outer)
        if not isinstance(tube, Tube):
            continue
        slimness = (tube.outer_diameter - tube.wall) / 2 / tube.wall
        if slimness < _THIN:
            continue
        knock_down = 1 - 0.901 * (1 - exp(-sqrt(slimness) / 16))
        strength = 0.6 * knock_down * tube.modulus / slimness
        rule = CapacityStep(
            make_sentence(
                "the wall buckles at {strength:stress}, radius {slimness:.0f} times the wall",
                strength=strength,
                slimness=slimness,
            ),
            "0.6 gamma E t/R, gamma = 1 - 0.901 (1 - exp(-sqrt(R/t)/16)), NASA SP-8007, unverified",
            "memory",
        )
        rests = (*trace((part,), "modulus"), *trace_sizes((part,)), *steps, rule)
        capacity = Capacity(column.find_limit({place: strength}), "force", rests)
        yield FailureMode("wall buckles", capacity, (find_substance(tube),), make_sentence("{noun}", noun=part.noun))
