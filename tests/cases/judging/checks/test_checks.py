"""Checks: demand, capacity, factor asked and found, and what they rest on."""

import pytest

from tautlay.cases import read_design, solve_case
from tautlay.cases.judging.checks import Case, Check, list_checks, record_check
from tautlay.cases.judging.forces import Forces
from tautlay.cases.storage.codec import encode
from tautlay.hammock import example_hammock, example_person
from tautlay.making import BASES, FACTORS, Capacity, CapacityStep, Factors, Reductions, Workmanship, find_capacity
from tautlay.materials import Cord, Webbing, read_library
from tautlay.meshing import build_model

FORCES = Forces(*[400.0] * 9, 250.0)


def bears(value):
    return Capacity(value, "force", (CapacityStep("breaking load", "a test", "seen"),))


def find_checks(workmanship=None):
    model = build_model(example_hammock(), example_person(), 0.15)
    return list_checks(Case(model, None, FORCES, workmanship or Workmanship())).checks


def test_check_passes_at_the_asked_factor_and_fails_just_below():
    asked = FACTORS["cord"]
    assert Check("cord", "breaks", 100.0, bears(100.0 * asked.value), asked).passed
    assert not Check("cord", "breaks", 100.1, bears(100.0 * asked.value), asked).passed
    assert Check("slack cord", "breaks", 0.0, bears(500.0), asked).passed


def test_check_of_a_part_that_carries_nothing_can_be_written():
    found = encode(record_check(Check("left head leg", "breaks", 0.0, bears(4448.0), FACTORS["cord"])))
    assert (found["demand_N"], found["safety_factor_found"], found["passed"]) == (0.0, None, True)


def test_each_part_is_held_against_its_own_material():
    hammock = example_hammock()
    wanted = {
        "left side cord": hammock.channel.cord,
        "left head leg": hammock.suspension.head.leg,
        "foot line": hammock.suspension.foot.line,
    }
    found = {check.part: check.capacity.value for check in find_checks() if check.mechanism == "breaks"}
    assert {part: found[part] for part in wanted} == {part: item.breaking_load for part, item in wanted.items()}


def test_a_factor_of_the_design_is_asked_and_says_so():
    check = next(each for each in find_checks(Workmanship(factors=Factors({"cord": 8.0}))) if "leg" in each.part)
    assert (check.asked.value, check.asked.basis) == (8.0, "stated")
    assert "the design" in check.asked.source


# US DoD, UFC 4-159-03, Table 6-8: nylon lines lose 15 % when wet; Tension Technology International, Table 1: nylon 10 to
# 15 %, of polyester nothing is listed; Flory, Hearle and Goksoy, MTS 1990, abstract: nylon rope loses "the usual" 20 %.
@pytest.mark.parametrize(
    ("kind", "name", "left"),
    [
        (Webbing, "tubular nylon 1 in", 0.85),
        (Webbing, "polyester 1 in, 25 g/m", 1.0),
        (Cord, "nylon parachute cord type III", 0.80),
        (Cord, "polyester braid 3 mm", 1.0),
    ],
)
def test_wet_nylon_is_weaker_and_nylon_rope_most(kind, name, left):
    part = read_library().find(kind, name)
    for reductions, share in ((Reductions(wet=True), left), (Reductions(wet=False), 1.0)):
        case = Case(None, None, FORCES, Workmanship(reductions=reductions))
        assert case.find_breaking_load(part).value == pytest.approx(share * part.breaking_load)


@pytest.mark.parametrize(("keeps", "left"), [(0.90, 0.80), (0.80, 0.80), (0.70, 0.70)])
def test_rope_keeps_no_more_than_other_wet_nylon(keeps, left):
    cord = read_library().find(Cord, "nylon parachute cord type III")
    new = find_capacity(cord, "breaking_load", "force", "breaking load")
    wet = Reductions(wet_keeps=keeps).apply(new, cord.kind, rope=True)
    assert wet.value == pytest.approx(left * cord.breaking_load)
    assert f"keeps {left:.0%}" in wet.steps[-1].text


def test_every_capacity_tells_its_steps_and_the_weakest_of_them():
    for entry in map(record_check, find_checks(Workmanship(reductions=Reductions(aged=0.8)))):
        assert entry.capacity_from
        assert all(step.source and step.text for step in entry.capacity_from)
        if "bar" not in entry.part:  # textiles age
            assert entry.capacity_from[-1].basis == "stated"


# The factors are asked of a load put on slowly and have to cover a sudden one, twice as large (statics of a suddenly
# applied load): what just passes the one must just pass the other.
@pytest.mark.parametrize("kind", list(FACTORS))
def test_half_is_asked_of_a_sudden_load(kind):
    slow, sudden = Factors()[kind], Factors(sudden=True)[kind]
    assert sudden.value == max(slow.value / 2, 1)
    assert "sudden" in sudden.source
    assert Factors({kind: 1.5}, sudden=True)[kind].value == 1


# Every capacity can be traced to a source or to the maker's own value, and what rests on memory or judgement is marked.
@pytest.mark.parametrize("name", ["larch_ridge", "otter_creek"])
def test_every_row_of_a_demonstration_tells_its_sources(name):
    result = solve_case(read_design(f"cases/{name}.toml"), mesh_size=0.12)
    assert [each.part for each in result.findings.unchecked] == ["apex rings", "bar tips"]
    for entry in result.summary["checks"]:
        steps = entry["capacity_from"]
        assert steps, entry["part"]
        assert all(step["text"].strip() and step["source"].strip() and step["basis"] in BASES for step in steps)
        assert entry["basis"] == max((step["basis"] for step in steps), key=BASES.index)
        assert entry["factor_from"]["source"]
