"""Every requirement that one equilibrium answers: strength, ground, lay, weight and size."""

from collections.abc import Iterator
from math import degrees, isfinite
from typing import NamedTuple

from ....hammock.load_case import LoadCase
from ....hammock.person import SLIPPERY, Person
from ....materials import make_sentence
from ...record import SIValue, measure
from ..checks.check import Check
from ..checks.findings import Findings
from ..checks.shortfall import make_shortfall
from ..checks.uneven_pull import list_aside
from ..clearance import Clearance
from ..comfort.comfort import Comfort
from ..comfort.lay_notes import STRAIGHTEN, advise_level, name_slide, stays_on_side
from ..comfort.measure_list import find_measure
from ..comfort.side_stability import SideStability
from .limit import CLEARANCE, FOOT_ROOM, HOLD, KNEES, PACK_WEIGHT, SIDE_PUSH, Limit
from .requirement import Grade, Requirement, Topic
from .terms import JudgedCase

UNSTABLE = "UNSTABLE sideways"
_REMEDIES = {
    SIDE_PUSH: "Increase hang_angle or raise the straps.",
    FOOT_ROOM: "Lengthen the body or move the head closer to the bar.",
    KNEES: STRAIGHTEN,
    PACK_WEIGHT: "`tautlay lighten` looks for lighter materials.",
}


class CaseFacts(NamedTuple):
    """What one equilibrium tells.

    Parameters
    ----------
    findings : Findings
        Every check.
    clearance : float
        Of the lowest point above the ground, m.
    packed : float
        Added pack weight, kg.
    foot_room : float
        Cloth beyond the soles, m.
    comfort : Comfort or None
        How a person in contact lies.
    stability : SideStability or None
        What holds that person sideways; None where it was not asked or does not apply.
    """

    findings: Findings
    clearance: float
    packed: float
    foot_room: float
    comfort: Comfort | None
    stability: SideStability | None

    def __repr__(self) -> str:
        return f"CaseFacts({self.findings!r}, {'lying' if self.comfort else 'no person in contact'})"


def list_requirements(facts: CaseFacts, case: JudgedCase, limits: tuple[Limit, ...]) -> tuple[Requirement, ...]:
    """Return what one equilibrium answers, the worst first.

    Parameters
    ----------
    facts : CaseFacts
        What it tells.
    case : JudgedCase
        Person and load.
    limits : tuple of Limit
        Those of the maker; measures of the lay count where the person lies in contact.
    """
    judge = _CaseJudge(case)
    found = [
        *(judge.judge_check(check) for check in facts.findings.checks),
        *_judge_aside(judge, facts),
        *_judge_lay(judge, facts, case.who.person),
        *_judge_limits(judge, facts, limits),
    ]
    return tuple(sorted(found, key=lambda each: each.rank))


class _CaseJudge:
    """Makes requirements of one case."""

    def __init__(self, case: JudgedCase) -> None:
        self.case = case

    def judge_check(self, check: Check) -> Requirement:
        """Return a check as a requirement."""
        grade = Grade.PASSES if check.passed else Grade.FAILS if check.breaks else Grade.MISSES
        return Requirement(
            Topic.STRENGTH, check.title, check.title, grade, 1.0 / check.margin,
            _measure_factor(check.found), measure(check.asked.value, "ratio"), "least",
            str(self.case.load), self.case.who.name, "" if check.passed else make_shortfall(check),
            check.capacity.basis,
        )  # fmt: skip

    def judge_limit(self, limit: Limit, found: float, ending: "_Ending") -> Requirement:
        """Return a value and its limit as a requirement."""
        kept = limit.is_kept(found)
        load, person = ("", "") if limit.key == PACK_WEIGHT else (str(self.case.load), self.case.who.name)
        return Requirement(
            ending.topic, limit.title, ending.words or limit.title, Grade.PASSES if kept else ending.grade,
            limit.find_utilisation(found), measure(found, limit.dimension), measure(limit.value, limit.dimension),
            limit.side, load, person, "" if kept else ending.remedy,
        )  # fmt: skip

    def judge_fact(self, name: str, kept: bool, words: str, remedy: str) -> Requirement:
        """Return something of the lay that is or is not so as a requirement."""
        return Requirement(
            Topic.LAY, name, name if kept else words, Grade.PASSES if kept else Grade.LIES_BADLY, None, None, None,
            "least", str(self.case.load), self.case.who.name, "" if kept else remedy,
        )  # fmt: skip


class _Ending(NamedTuple):
    """How a limit ends that is not kept: topic, grade, what is wrong in words, and what to do."""

    topic: Topic
    grade: Grade
    words: str
    remedy: str


def _measure_factor(factor: float) -> SIValue | None:
    """Return a factor of safety; None of a part that bears no load."""
    return measure(factor, "ratio") if isfinite(factor) else None


def judge_nothing(case: JudgedCase, reason: str) -> Requirement:
    """Return the requirement that fails where no equilibrium was found, with the reason."""
    return Requirement(
        Topic.EQUILIBRIUM, "equilibrium", "NO EQUILIBRIUM", Grade.FAILS, None, None, None, "least",
        str(case.load), case.who.name, reason,
    )  # fmt: skip


def _judge_aside(judge: _CaseJudge, facts: CaseFacts) -> Iterator[Requirement]:
    """Yield the legs and side cords that pass with the person in the middle and not off it."""
    swing = None if facts.stability is None else facts.stability.swing
    if swing is not None and swing.end is None:
        yield from map(judge.judge_check, list_aside(facts.findings.checks, swing.pull))


def _judge_lay(judge: _CaseJudge, facts: CaseFacts, person: Person) -> Iterator[Requirement]:
    """Yield what every lying person needs, whatever the maker asks for."""
    if facts.stability is not None:
        yield judge.judge_fact(
            "stable sideways", facts.stability.word != "not", UNSTABLE,
            make_sentence("{held} Increase hang_angle or raise the straps.", held=facts.stability.sentence),
        )  # fmt: skip
    if facts.comfort is None or judge.case.load is not LoadCase.LYING:
        return
    slide = facts.comfort.slide
    yield judge.judge_fact(
        "stays in place lengthwise", abs(slide) <= SLIPPERY, f"slides towards the {name_slide(slide)}",
        f"Friction of {abs(slide):.0%} of the weight is needed. {advise_level(slide)}",
    )  # fmt: skip
    if person.posture.on_side:
        roll = facts.comfort.roll
        yield judge.judge_fact(
            "stays on the side", stays_on_side(roll), "rolls off the side",
            f"The hips roll to {degrees(roll):.0f} deg (90 is on the side). Let the person lie on the back.",
        )  # fmt: skip


def _judge_limits(judge: _CaseJudge, facts: CaseFacts, limits: tuple[Limit, ...]) -> Iterator[Requirement]:
    """Yield the limits of the maker, as far as they apply to this load."""
    for limit in limits:
        found = _find_value(limit.key, facts, judge.case.load)
        if found is not None:
            yield judge.judge_limit(limit, found, _find_ending(limit, found))


def _find_ending(limit: Limit, found: float) -> _Ending:
    """Return how a limit ends that is not kept."""
    if limit.key == CLEARANCE:
        low = Clearance(found, limit.value)
        grade = Grade.FAILS if found < 0.0 else Grade.MISSES
        return _Ending(Topic.GROUND, grade, low.verdict, low.sentence or "")
    remedy = _ask(limit, found)
    if limit.key in (PACK_WEIGHT, FOOT_ROOM):
        return _Ending(Topic.SIZE, Grade.EXCEEDS, "", remedy)
    return _Ending(Topic.LAY, Grade.LIES_BADLY, "", remedy)


def _ask(limit: Limit, found: float) -> str:
    """Return value and limit, and what to do."""
    verb = "Increase" if limit.side == "least" else "Reduce"
    todo = _REMEDIES.get(limit.key, f"{verb} it: try arc, bars, straps and pillow, each alone, with `tautlay sweep`.")
    return make_sentence(
        f"{{title}}: {{found:{limit.dimension}}}, at {limit.side} {{limit:{limit.dimension}}}. {{todo}}",
        title=f"{limit.title[:1].upper()}{limit.title[1:]}", found=found, limit=limit.value, todo=todo,
    )  # fmt: skip


def _find_value(key: str, facts: CaseFacts, load: LoadCase) -> float | None:
    """Return the value that a limit is about; None where it does not apply to this load."""
    if key == CLEARANCE:
        return facts.clearance
    if key == PACK_WEIGHT:
        return facts.packed
    if load is not LoadCase.LYING or facts.comfort is None:
        return None
    if key == FOOT_ROOM:
        return facts.foot_room
    if key == SIDE_PUSH:
        push = facts.stability
        return None if push is None else push.clothed.force if push.word != "not" else 0.0
    value = find_measure(key).read(facts.comfort)
    return abs(value) if key == HOLD else value
