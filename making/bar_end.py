"""What a bar bears at its ends and joints: rods that stand proud, faces that rest on each other, locks."""

from collections.abc import Iterator

from ..materials import Rod, Tube, say
from .bar import BarBuild, BarPart, Joint, Seat, find_outer
from .bar_column import build_column
from .capacity import Capacity, Step
from .failure_mode import SQUEEZES, Weakness, find_strength, name_strength, trace, trace_sizes, warn
from .imperfection import find_imperfections
from .material_class import find_substance

_CANTILEVER = 2.1  # effective over actual length


def stand_proud(bar: BarBuild, eccentricity: float, steps: tuple[Step, ...]) -> Iterator[Weakness]:
    """Yield what a rod bears that stands out of a tube at an end of the bar, as a cantilever from its mouth."""
    joints = bar.joints
    for place, joint in {0: joints[0], len(bar.parts) - 1: joints[-1]}.items() if joints else ():
        part = bar.parts[place]
        if joint.inner != place or not isinstance(part.section, Rod) or joint.end == joint.start:
            continue
        proud = part.length - (joint.end - joint.start)
        rod = min(part.cut(0.0), part.cut(1.0), key=find_outer)
        substance = find_substance(rod)
        alone = BarBuild((BarPart(rod, _CANTILEVER * proud),))
        crooked = find_imperfections(alone)  # the bow of the design is that of the whole bar
        column = build_column(alone, bow=crooked.bow, eccentricity=eccentricity + joint.kink * proud)
        rule = Step(
            say(
                "a cantilever of {proud:length} from the mouth of the tube, {times:g} times as long on pins",
                proud=proud,
                times=_CANTILEVER,
            ),
            "recommended effective length, fixed and free: National Design Specification for Wood, app. G, memory",
            "memory",
        )
        numbers = (*trace((part,), name_strength(rod)), *trace((part,), "modulus"), *trace_sizes((part,)))
        limit = column.find_limit({0: find_strength(rod)})
        capacity = Capacity(limit, "force", (*numbers, crooked.steps[0], *steps[1:], rule, *warn(substance)))
        where = say("{noun}, part {n}", noun=part.noun, n=place + 1)
        yield Weakness("breaks at the mouth", capacity, (substance,), where)


def rest_joint(bar: BarBuild, place: int, joint: Joint) -> Iterator[Weakness]:
    """Yield what a joint bears where its parts rest on each other, and what its lock, plug or collar holds."""
    part = bar.parts[place]
    inner, outer = (_cut_at(bar, each, joint) for each in (joint.inner, joint.outer))
    if joint.end == joint.start:
        for each in (joint.inner, joint.outer):
            yield crush_face(bar, each, min(inner.area, outer.area), "on the next part", "common face")
    elif part.rests_on is Seat.PLUG:
        yield crush_face(bar, joint.inner, inner.area, "on the plug", "end face")
    elif part.rests_on is Seat.RIM:
        for each in (joint.inner, joint.outer):
            yield crush_face(bar, each, outer.area, "on the rim", "rim of the tube")
    if part.holding_force is not None and part.rests_on is not None:
        words = {Seat.LOCK: "slips in its lock", Seat.PLUG: "pushes its plug in", Seat.RIM: "strips its collar"}
        told = Step(f"holding force of part {place + 1}", "the design", "stated")
        where = say("where part {n} joins part {m}", n=place + 1, m=place)
        yield Weakness(words[part.rests_on], Capacity(part.holding_force, "force", (told,)), ("hold",), where)


def _cut_at(bar: BarBuild, place: int, joint: Joint) -> Tube | Rod:
    """Return the section of a part where it ends in a joint."""
    return bar.parts[place].cut(1.0 if place == min(joint.inner, joint.outer) else 0.0)


def crush_face(bar: BarBuild, place: int, area: float, where: str, face: str) -> Weakness:
    """Return the crushing of a part on an area."""
    part = bar.parts[place]
    substance = find_substance(part.section)
    grain = " along the grain" if substance == "wood" else ""
    rule = Step(
        say("the whole {face} bears, {area:area}{grain}", face=face, area=area, grain=grain),
        "judgement: cut square, and a tube plugged or capped",
        "judgement",
    )
    rests = (*trace((part,), name_strength(part.section)), *trace_sizes((part,)), rule, *warn(substance))
    capacity = Capacity(area * find_strength(part.section), "force", rests)
    where_on = say("{noun}, part {n}", noun=part.noun, n=place + 1)
    return Weakness(f"{SQUEEZES[substance]} {where}", capacity, (substance,), where_on)
