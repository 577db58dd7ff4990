"""Other goals than the least weight: best in a measure within a weight limit, and what nothing beats, on made-up rows."""

from itertools import product
from types import SimpleNamespace

import pytest

from tautlay.cases import DesignError
from tautlay.cases.studies.choose.choice_words import list_sentences
from tautlay.cases.studies.choose.evaluator import Tried
from tautlay.cases.studies.choose.goal_search import GoalSearch
from tautlay.cases.studies.choose.open_design import read_open_design
from tautlay.cases.studies.choose.outcome import ChooseResult, ChosenDesign
from tautlay.cases.studies.choose.proven_search import HEAVY
from tautlay.cases.studies.sweep.result_value import find_result_value
from tautlay.cases.studies.sweep.sweep_row import RowStatus, SweepRow

from ._small import LOADS, vary, write_open

LYING = LOADS.replace("distributed", "lying")
RANGE = '\n[[vary]]\nkey = "suspension.leg_length"\nfrom = "65 cm"\nto = "75 cm"\n'
SAG, WEIGHT, MARGIN = map(find_result_value, ("back_sag_m", "packed_kg", "least_margin"))
LIMIT = 0.300  # kg


def make_made_up(number):
    """Return the row of a made-up design: heavier ones sag less, one in four fails, and they come in no order."""
    packed = 0.250 + 0.003 * ((number * 7) % 20)
    sag = 0.30 - 0.4 * (packed - 0.250) + 0.01 * ((number * 5) % 3)
    failed = ("seam",) if number % 4 == 0 else ()
    figures = {"packed_kg": packed, "back_sag_m": sag, "least_margin": 1.0 + 0.05 * (number % 3), "lay_used": 0.5}
    return SweepRow(number, {"leg": f"{number}"}, RowStatus.SOLVED, figures=figures, governs="leg", failed=failed)


ROWS = {number: make_made_up(number) for number in range(1, 21)}
PASSING = [row for row in ROWS.values() if row.holds and row.figures["packed_kg"] <= LIMIT]


def search(goals, *, refuse=(), most=100, stop=False):
    """Return a search through the made-up designs that has ended; some fail on their own mesh."""
    jobs = {
        number: SimpleNamespace(
            key=f"{number}", start_key="", variant=SimpleNamespace(number=number),
            design=SimpleNamespace(hammock=number, terms=None, sudden_factor=2.0),
        )
        for number in ROWS
    }  # fmt: skip
    candidates = sorted(
        (
            SimpleNamespace(job=jobs[n], number=n, packed=row.figures["packed_kg"], weak=(), heavy=row.figures["packed_kg"] > LIMIT)
            for n, row in ROWS.items()
        ),
        key=lambda each: each.packed,
    )  # fmt: skip
    evaluator = SimpleNamespace(
        tried={}, passes=lambda row: row.earned,
        solve=lambda asked, others: [Tried(job, ROWS[job.variant.number]) for job in asked],
    )  # fmt: skip

    def confirm(tried):
        fails = tried.job.variant.number in refuse
        return SweepRow(1, tried.row.choices, RowStatus.SOLVED, figures=tried.row.figures, failed=("leg",) * fails)

    found = GoalSearch(tuple(candidates), evaluator, confirm, most, goals=goals)
    proven = found.run()
    found.settle(confirm=not stop)
    return found, proven


def list_unbeaten(keys, rows):
    """Return by trying all pairs what nothing beats; less is better of all but margins."""
    costs = {
        row.number: [float(f"{row.figures[k]:.4g}") * (-1 if k == "least_margin" else 1) for k in keys] for row in rows
    }
    beaten = {
        one for one, other in product(costs, costs)
        if all(b <= a for a, b in zip(costs[one], costs[other], strict=True)) and costs[one] != costs[other]
    }  # fmt: skip
    return set(costs) - beaten


def test_the_best_in_a_measure_within_a_limit_of_weight_is_that_of_all():
    found, proven = search((SAG,))
    best = min(PASSING, key=lambda row: row.figures["back_sag_m"])
    assert proven
    assert [each.row for each in found.front] == [best]
    assert found.best.row is best
    assert found.counts[HEAVY] == sum(row.figures["packed_kg"] > LIMIT for row in ROWS.values()) > 0
    assert found.seen == {n for n, row in ROWS.items() if row.figures["packed_kg"] <= LIMIT}


@pytest.mark.parametrize("goals", [(WEIGHT, SAG), (WEIGHT, MARGIN), (WEIGHT, SAG, MARGIN)], ids=len)
def test_nothing_beats_what_is_named_and_everything_else_is_beaten(goals):
    found, _ = search(goals)
    assert {each.row.number for each in found.front} == list_unbeaten([goal.key for goal in goals], PASSING)
    assert found.best.row is min((each.row for each in found.front), key=lambda row: row.figures["packed_kg"])


def test_what_fails_on_the_mesh_of_the_design_makes_room_for_what_it_beat():
    first = [each.row.number for each in search((WEIGHT, SAG))[0].front]
    refuse = first[:2]
    found, _ = search((WEIGHT, SAG), refuse=refuse)
    rest = [row for row in PASSING if row.number not in refuse]
    assert {each.row.number for each in found.front} == list_unbeaten(["packed_kg", "back_sag_m"], rest)
    assert {tried.row.number for tried, _ in found.refuted} == set(refuse)
    assert found.compared == len(rest)
    assert search((SAG,), refuse=list(ROWS))[0].best is None


def test_a_search_that_ends_early_is_no_proof_and_a_stopped_one_not_confirmed():
    found, proven = search((SAG,), most=6)
    assert not proven
    assert len(found.seen) <= 6
    assert not search((SAG,), stop=True)[0].confirmed


def make_result(asked, found):
    """Return what a made-up search ended with, of a design that is read and not solved."""
    chosen = ChosenDesign(found.best_row, found.best_row.figures["packed_kg"], True, "a", asked.sweep.base)
    return ChooseResult(
        asked, chosen, 20, 0, len(found.seen), found.counts, True, front=tuple(each.row for each in found.front),
        compared=found.compared,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("goal", "words"),
    [
        ('["back_sag_m"]', f"Best of {len(PASSING)} that pass: back sag"),
        ('["packed_kg", "back_sag_m"]', f"Of {len(PASSING)} that pass nothing beats these"),
    ],
)
def test_the_words_name_goal_values_and_proof(tmp_path, goal, words):
    asked = read_open_design(
        write_open(
            tmp_path, vary("ends.leg_at_corner.bury", '["14 cm", "15 cm"]'), more=f"goal = {goal}\n", judge=LYING
        )
    )
    found, _ = search(asked.goals)
    told = "\n".join(list_sentences(make_result(asked, found), "metric"))
    assert words in told
    assert "Proven: every combination was solved, or is excluded for certain." in told
    assert "Lightest" not in told
    for row in (each.row for each in found.front):
        assert f"{row.figures['back_sag_m'] * 100:.1f} cm" in told


@pytest.mark.parametrize(
    ("goal", "text", "judge", "words"),
    [
        ('["back_sagg_m"]', vary("body.layers", "[1, 2]"), LYING, "Did you mean back_sag_m"),
        ('["sag_m"]', vary("body.layers", "[1, 2]"), LYING, "no value of which less or more is better"),
        ('["back_sag_m"]', vary("body.layers", "[1, 2]"), LOADS, "needs somebody who lies"),
        ('["back_sag_m"]', RANGE, LYING, "Give each range a `count`"),
        ('["packed_kg", "packed_kg"]', vary("body.layers", "[1, 2]"), LYING, "each value counts once"),
        ("[]", vary("body.layers", "[1, 2]"), LYING, "goal"),
    ],
)
def test_a_goal_that_cannot_be_searched_is_told(tmp_path, goal, text, judge, words):
    with pytest.raises(DesignError) as error:
        read_open_design(write_open(tmp_path, text, more=f"goal = {goal}\n", judge=judge))
    assert words in str(error.value)
