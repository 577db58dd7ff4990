"""The weight of bars, corner plates and the extra items of the design."""

from collections.abc import Iterator

from ....hammock.part import Part
from ....making import Amount, CapacityStep, CornerPlate, WeightGroup, find_unit_mass
from ....materials import RodSection, Tube, make_sentence
from .build import Build, take_finished
from .weight import Unweighed, Weight, weigh_amount

_CORNERS = 4


def weigh_bars(build: Build) -> Iterator[Weight | Unweighed]:
    """Yield every part of both bars; what was weighed has no range."""
    for part in build.parts:
        if isinstance(part.material, Tube | RodSection):
            yield _weigh_bar(part, part.material)


def _weigh_bar(part: Part, section: Tube | RodSection) -> Weight:
    """Return one part of a bar."""
    amount, unit = take_finished(part, "length"), find_unit_mass(section)
    least, most = (1.0, 1.0) if part.weighed else (unit.least / unit.value, unit.most / unit.value)
    limits = (part.mass * least, part.mass * most)
    basis = "stated" if part.weighed else unit.basis
    return Weight(part.name, section.name, part.group, part.mass, limits, basis, amount, carried=part.carried)


def weigh_corners(build: Build) -> Iterator[Weight | Unweighed]:
    """Yield the four corner plates; eyes over a bar's tip are weighed with their cords."""
    corner = build.workmanship.corner
    if corner is None:
        yield Unweighed("corners", "what joins cord, leg and bar is missing. Add [corner].")
    elif isinstance(corner, CornerPlate):
        if corner.area is None:
            yield Unweighed("corner plates", "their size is missing. Add length to [corner].")
            return
        text = make_sentence(
            "{count} plates of {length:length} x {width:length} less their holes",
            count=_CORNERS,
            length=corner.length,
            width=corner.width,
        )
        used = Amount(_CORNERS * corner.area, "area", (CapacityStep(text, "the design", "stated"),))
        yield weigh_amount("corner plates", corner.plate, used, WeightGroup.SUSPENSION, count=_CORNERS)


def weigh_toggles(build: Build) -> Iterator[Weight | Unweighed]:
    """Yield what joins slings and line in front of a trunk; a knot is weighed with its cord."""
    for end in build.hammock.ends:
        strap = end.suspension.strap
        if strap is not None and strap.slings is not None and (mass := strap.slings.toggle_mass) is not None:
            yield Weight(f"{end.name} toggle", "as weighed", WeightGroup.STRAPS, mass, (mass, mass), "stated")


def weigh_extras(build: Build) -> Iterator[Weight | Unweighed]:
    """Yield the extra items of the design."""
    for each in build.workmanship.extras:
        limits = (each.whole, each.whole)
        yield Weight(
            each.name, "as weighed", each.group, each.whole, limits, "stated", count=each.count, carried=each.carried
        )
    if not build.workmanship.extras:
        yield Unweighed("rings, tips of bars, bags, other cords", "the design lists none. Add an [[extra]] for each.")
