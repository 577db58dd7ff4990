"""One verdict: its order, its worst cases, its colour and its words. All numbers are invented."""

from dataclasses import fields, replace

import pytest

from tautlay.cases.judging.checks import Check, Findings
from tautlay.cases.judging.comfort.comfort import Comfort
from tautlay.cases.judging.comfort.side_stability import SidePush, SideStability
from tautlay.cases.judging.verdict.case_requirements import CaseFacts, judge_nothing, list_requirements
from tautlay.cases.judging.verdict.limit import USUAL_LIMITS, Limit
from tautlay.cases.judging.verdict.requirement import Grade
from tautlay.cases.judging.verdict.terms import JudgedCase, JudgeTerms, NamedPerson
from tautlay.cases.judging.verdict.verdict import merge_cases, write_outcome, write_unasked, write_unjudged
from tautlay.hammock import LoadCase, example_person
from tautlay.hammock.person import LyingSide, Posture
from tautlay.making import FACTORS, Capacity, CapacityStep

LIGHT, HEAVY = (NamedPerson(name, example_person()) for name in ("light", "heavy"))
TERMS = JudgeTerms((LIGHT, HEAVY))


def check(part, demand, kind="cord", value=1000.0):
    capacity = Capacity(value, "force", (CapacityStep("breaking load", "a test", "seen"),))
    return Check(part, "breaks", demand, capacity, FACTORS[kind])


def push(force):
    return SidePush(force, force * 0.02)


def judge(*checks, who=LIGHT, load=LoadCase.LYING, limits=USUAL_LIMITS, clearance=0.5, stability=None):
    facts = CaseFacts(Findings(checks, ()), clearance, 0.3, 0.1, None, stability)
    return list_requirements(facts, JudgedCase(who, load), limits)


def unstable(force=-3.0):
    return SideStability(0, 0.04, 600.0, 0.35, push(50.0), push(force), push(force))


def merge(*cases, unjudged=()):
    return merge_cases(cases, judged=("lying",), unjudged=unjudged)


def test_what_fails_at_the_load_comes_before_what_lacks_reserve_before_the_lay_before_limits():
    found = merge(
        judge(check("leg", 500.0), check("line", 1200.0), check("side cord", 100.0), stability=unstable(),
              limits=(Limit("packed_kg", "most", 0.25), *USUAL_LIMITS)),
    )  # fmt: skip
    assert [each.grade for each in found.failed] == [Grade.FAILS, Grade.MISSES, Grade.LIES_BADLY, Grade.EXCEEDS]
    assert [each.name for each in found.failed] == [
        "line, breaks", "leg, breaks", "stable sideways", "added pack weight",
    ]  # fmt: skip
    words = write_outcome(found)
    assert words.startswith("FAIL: 4 of ")
    places = [words.index(each) for each in ("line, breaks", "leg, breaks", "UNSTABLE sideways", "pack weight")]
    assert places == sorted(places)


def test_of_two_people_and_two_loads_the_heaviest_need_counts_and_says_whose_it_is():
    need = {(who, load): demand for who, load, demand in (
        (LIGHT, LoadCase.LYING, 120.0), (LIGHT, LoadCase.SUDDEN, 150.0),
        (HEAVY, LoadCase.LYING, 190.0), (HEAVY, LoadCase.SUDDEN, 170.0),
    )}  # fmt: skip
    found = merge(*(judge(check("leg", demand), who=who, load=load) for (who, load), demand in need.items()))
    leg = next(each for each in found.requirements if each.name == "leg, breaks")
    assert (leg.person, leg.load) == ("heavy", "lying")
    assert leg.utilisation == pytest.approx(5.0 * 190.0 / 1000.0)


def test_a_part_that_breaks_counts_worse_than_one_that_uses_more_but_only_lacks_reserve():
    # a bar of which 2 is required breaks at 0.9; a leg of which 5 is required has 1.5: 333 % used
    bar, leg = check("bar", 1000.0, "metal", 900.0), check("leg", 1000.0, "cord", 1500.0)
    found = merge(judge(leg), judge(bar))
    assert [each.name for each in found.failed] == ["bar, breaks", "leg, breaks"]
    assert found.failed[0].utilisation < found.failed[1].utilisation


def test_left_and_right_are_one_requirement():
    found = merge(judge(check("left head leg", 100.0), check("right head leg", 120.0)))
    assert [each.name for each in found.requirements if "leg" in each.name] == ["right head leg, breaks"]


@pytest.mark.parametrize(
    ("demand", "unjudged", "kind"),
    [(100.0, (), "good"), (100.0, ("sudden",), "open"), (300.0, (), "bad"), (300.0, ("sudden",), "bad")],
)
def test_what_was_not_looked_at_is_never_green_and_what_fails_is_always_red(demand, unjudged, kind):
    found = merge(judge(check("leg", demand)), unjudged=unjudged)
    assert found.kind == kind
    assert found.passed == (kind == "good")
    assert ("sudden" in write_unjudged(found)) == bool(unjudged)


@pytest.mark.parametrize(
    ("clearance", "grade", "words"), [(0.31, Grade.PASSES, ""), (0.29, Grade.MISSES, "TOO LOW"), (-0.1, Grade.FAILS, "BELOW")]
)  # fmt: skip
def test_the_ground_is_a_requirement_under_every_load(clearance, grade, words):
    (ground,) = judge(load=LoadCase.SUDDEN, clearance=clearance)
    assert ground.grade is grade
    assert words in ground.words


def test_a_person_who_rolls_out_does_not_lie_well_and_strength_does_not_change_that():
    found = merge(judge(check("leg", 100.0), stability=unstable()))
    assert [(each.words, each.grade) for each in found.failed] == [("UNSTABLE sideways", Grade.LIES_BADLY)]
    assert "hang_angle" in found.failed[0].remedy
    words = write_outcome(found, Findings((check("leg", 100.0),), ()))
    assert words.startswith("FAIL: UNSTABLE sideways. Strength passes:")


@pytest.mark.parametrize(("key", "found"), [("side_push_N", 50.0), ("back_sag_m", 0.14), ("foot_room_m", 0.1)])
@pytest.mark.parametrize(("side", "factor"), [("least", 1.2), ("most", 0.8)])
def test_a_limit_of_the_maker_is_met_up_to_the_value_found_and_not_beyond(key, found, side, factor):
    comfort = Comfort(**{field.name: 0.0 for field in fields(Comfort)} | {"back_sag": 0.14, "high_pressure_part": ""})
    stability = SideStability(0, 0.04, 600.0, 0.35, push(50.0), push(50.0), push(50.0))
    facts = CaseFacts(Findings((), ()), 0.5, 0.3, 0.1, comfort, stability)
    case = JudgedCase(LIGHT, LoadCase.LYING)

    def find(value):
        limit = Limit(key, side, value)
        return next(each for each in list_requirements(facts, case, (limit,)) if each.name == limit.title)

    assert find(found).passed
    missed = find(found * factor)
    assert not missed.passed
    assert missed.utilisation == pytest.approx(1.2 if side == "least" else 1.25)
    assert missed.remedy


def test_no_equilibrium_fails_before_everything_else_and_says_why():
    nothing = judge_nothing(JudgedCase(HEAVY, LoadCase.LYING), "The person slid out.")
    found = merge(judge(check("line", 1200.0)), (nothing,))
    assert found.failed[0] is nothing
    assert found.remedies[0] == "The person slid out."


def test_cases_that_are_left_out_are_named_by_load_and_where_needed_by_person():
    done = tuple(case for case in TERMS.list_cases() if case.title == "sudden, light")
    assert TERMS.list_unjudged(done) == ("sitting", "lying", "sudden, heavy")
    assert TERMS.list_unjudged(TERMS.list_cases()) == ()
    assert TERMS.name_cases(TERMS.list_cases()) == ("sitting", "sudden", "lying")


def test_a_verdict_says_in_what_use_a_hammock_was_not_asked_to_hold():
    assert "lying on the side" in write_unasked(TERMS)
    assert "sitting" not in write_unasked(TERMS)
    assert "sitting across, lying on the side" in write_unasked(replace(TERMS, loads=(LoadCase.LYING, LoadCase.SUDDEN)))
    turned = replace(LIGHT.person, posture=Posture(lie=LyingSide.SIDE))
    assert write_unasked(replace(TERMS, people=(LIGHT._replace(person=turned),))) == ""


def test_a_part_fails_once_in_what_to_do():
    both = (check("leg", 500.0), Check("leg", "slips", 400.0, check("leg", 1.0).capacity, FACTORS["cord"]))
    assert len(merge(judge(*both)).remedies) == 1
