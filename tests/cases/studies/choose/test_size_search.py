"""The search for sizes on a made-up law of weight and strength whose lightest is known, and searches side by side."""

from functools import partial

import pytest

from tautlay.cases.studies.choose.shortfall_list import add_shortfalls, find_offsets, list_short_kinds
from tautlay.cases.studies.choose.side_by_side import run_side_by_side
from tautlay.cases.studies.choose.size_search import Ask, Ladders, SizeSearch

from ._made_up import STRENGTH, MadeUp, answer, foretell

ASK = Ask(answer, foretell)
LIGHTEST = min(
    (MadeUp().weigh((a, b, k)), (a, b, k))
    for a in range(10, 91) for b in range(10, 101) for k in range(3) if a * b / 2500 * STRENGTH[k] >= 1.0
)[0]  # fmt: skip


def test_three_starts_end_within_two_hundredths_of_the_lightest():
    starts = [(80, 90, 0), (20, 95, 0), (88, 30, 0)]
    searches = [SizeSearch(MadeUp(), start, {}, 200) for start in starts]
    rounds = []

    def solve(questions):
        rounds.append(len(questions))
        return [foretell(each) if isinstance(each, Ladders) else answer(each) for each in questions]

    run_side_by_side([partial(lambda search, ask: search.run(Ask(ask, ask)), each) for each in searches], solve)
    ends = [MadeUp().weigh(each.best) for each in searches]
    assert ends == pytest.approx([LIGHTEST] * 3, rel=0.02)
    assert all(answer([(each.best, each.best)])[0].figures["reserve_cord"] >= 1.0 for each in searches)
    assert rounds[0] == 3
    assert max(len(each.rows) for each in searches) < 120


def test_a_search_solves_no_more_than_it_may_and_keeps_the_best():
    search = SizeSearch(MadeUp(), (90, 100, 0), {}, 12)
    search.run(ASK)
    assert len(search.rows) <= 12
    assert search.best is not None


def test_an_offset_asks_for_more_on_the_mesh_of_the_search():
    (coarse,), (fine,) = answer([((50, 50, 2), ())]), answer([((50, 50, 2), ())], strength=(1.6, 0.5, 0.8))
    offsets = find_offsets(coarse, fine)
    assert add_shortfalls(coarse, {}) == 0.0
    assert add_shortfalls(coarse, offsets) == pytest.approx(0.2231, abs=1e-4)  # ln 0.8
    search = SizeSearch(MadeUp(), (90, 100, 0), offsets, 200).run(ASK)
    assert (
        answer([(search.best, ())], strength=tuple(0.8 * each for each in STRENGTH))[0].figures["reserve_cord"] >= 1.0
    )


def test_what_cannot_be_made_is_never_the_best():
    search = SizeSearch(MadeUp(), (5, 5, 1), {}, 30).run(ASK)
    assert search.best is None or min(search.best[:2]) >= 10


def test_an_error_of_one_search_is_raised():
    def fail(ask):
        ask(1)
        raise ValueError("no")

    with pytest.raises(ValueError, match="no"):
        run_side_by_side([fail, lambda ask: ask(2)], lambda questions: questions)


def test_parts_that_become_too_weak_are_named_by_their_kind():
    (strong,), (weak,) = answer([((80, 80, 0), ())]), answer([((50, 40, 2), ())])
    assert list_short_kinds(weak, strong, {}) == {"cord"}
    assert list_short_kinds(strong, weak, {}) == set()
    assert "" in list_short_kinds(None, strong, {})
