"""Capacity of a bar at its ends and joints: rods that stick out of tubes, contact faces, pole locks."""

from collections.abc import Iterator

from ..materials import RodSection, Tube, make_sentence
from .bar import BarBuild, BarJoint, BarPart, ThrustPath, find_outer
from .bar_column import build_column
from .capacity import Capacity, CapacityStep
from .failure_mode import SQUEEZES, FailureMode, find_strength, name_strength, trace, trace_sizes, warn
from .imperfection import find_imperfections
from .material_class import find_substance

_CANTILEVER = 2.1  # effective over actual length


def list_cantilever_modes(bar: BarBuild, eccentricity: float, steps: tuple[CapacityStep, ...]) -> Iterator[FailureMode]:
    """Yield the failure mode of a rod that sticks out of a tube at an end of the bar, as a cantilever."""
    joints = bar.joints
    for place, joint in {0: joints[0], len(bar.parts) - 1: joints[-1]}.items() if joints else ():
        part = bar.parts[place]
        if joint.inner != place or not isinstance(part.section, RodSection) or joint.end == joint.start:
            continue
        free = part.length - (joint.end - joint.start)
        rod = min(part.cut(0.0), part.cut(1.0), key=find_outer)
        substance = find_substance(rod)
        alone = BarBuild((BarPart(rod, _CANTILEVER * free),))
        crooked = find_imperfections(alone)  # the bow of the design is that of the whole bar
        column = build_column(alone, bow=crooked.bow, eccentricity=eccentricity + joint.kink * free)
        rule = CapacityStep(
            make_sentence(
                "cantilever of {free:length} beyond the tube, as a column {times:g} times as long on pins",
                free=free,
                times=_CANTILEVER,
            ),
            "recommended effective length, fixed and free: National Design Specification for Wood, app. G, unverified",
            "memory",
        )
        numbers = (*trace((part,), name_strength(rod)), *trace((part,), "modulus"), *trace_sizes((part,)))
        limit = column.find_limit({0: find_strength(rod)})
        capacity = Capacity(limit, "force", (*numbers, crooked.steps[0], *steps[1:], rule, *warn(substance)))
        where = make_sentence("{noun}, part {n}", noun=part.noun, n=place + 1)
        yield FailureMode("breaks at tube mouth", capacity, (substance,), where)


def list_joint_modes(bar: BarBuild, place: int, joint: BarJoint) -> Iterator[FailureMode]:
    """Yield the failure modes of a joint: of its contact faces, and of its lock, plug or collar."""
    part = bar.parts[place]
    inner, outer = (_cut_at(bar, each, joint) for each in (joint.inner, joint.outer))
    if joint.end == joint.start:
        for each in (joint.inner, joint.outer):
            yield crush_face(bar, each, min(inner.area, outer.area), "on next part", "common face")
    elif part.rests_on is ThrustPath.PLUG:
        yield crush_face(bar, joint.inner, inner.area, "on plug", "end face")
    elif part.rests_on is ThrustPath.RIM:
        for each in (joint.inner, joint.outer):
            yield crush_face(bar, each, outer.area, "on rim", "rim of the tube")
    if part.holding_force is not None and part.rests_on is not None:
        words = {
            ThrustPath.LOCK: "pole lock slips",
            ThrustPath.PLUG: "plug pushes in",
            ThrustPath.RIM: "collar strips",
        }
        stated = CapacityStep(f"holding force of part {place + 1}", "the design", "stated")
        where = make_sentence("where part {n} joins part {m}", n=place + 1, m=place)
        yield FailureMode(words[part.rests_on], Capacity(part.holding_force, "force", (stated,)), ("hold",), where)


def _cut_at(bar: BarBuild, place: int, joint: BarJoint) -> Tube | RodSection:
    """Return the section of a part where it ends in a joint."""
    return bar.parts[place].cut(1.0 if place == min(joint.inner, joint.outer) else 0.0)


def crush_face(bar: BarBuild, place: int, area: float, where: str, face: str) -> FailureMode:
    """Return the crushing of a part on an area."""
    part = bar.parts[place]
    substance = find_substance(part.section)
    grain = " along the grain" if substance == "wood" else ""
    rule = CapacityStep(
        make_sentence("the whole {face} is in contact, {area:area}{grain}", face=face, area=area, grain=grain),
        "engineering judgement: cut square, and a tube plugged or capped",
        "judgement",
    )
    rests = (*trace((part,), name_strength(part.section)), *trace_sizes((part,)), rule, *warn(substance))
    capacity = Capacity(area * find_strength(part.section), "force", rests)
    where_on = make_sentence("{noun}, part {n}", noun=part.noun, n=place + 1)
    return FailureMode(f"{SQUEEZES[substance]} {where}", capacity, (substance,), where_on)
