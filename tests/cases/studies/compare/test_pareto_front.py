"""The set that nothing beats, against its definition pair by pair; all designs are invented."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from tautlay.cases.studies.compare.pareto_front import choose_figures, find_pareto_front
from tautlay.cases.studies.compare.value_columns import RankingError
from tautlay.cases.studies.sweep.result_value import find_result_value
from tautlay.cases.studies.sweep.sweep_row import RowStatus, SweepRow

from ...._rows import make_grid, make_row

KEYS = ("packed_kg", "least_margin", "back_sag_m")


def beats(one, other, keys, digits):
    """Tell by the definition whether one design beats another."""

    def value(row, key):
        found = row.figures[key] if digits is None else float(f"{row.figures[key]:.{digits}g}")
        return found if find_result_value(key).better == "less" else -found

    pairs = [(value(one, key), value(other, key)) for key in keys]
    return all(a <= b for a, b in pairs) and any(a < b for a, b in pairs)


def search(rows, keys, digits):
    """Return the numbers of what nothing beats, pair by pair."""
    return {row.number for row in rows if not any(beats(other, row, keys, digits) for other in rows)}


few = some.sampled_from([0.0, 0.1, 0.2, 0.20001, 0.3, 1.0])
any_size = some.floats(-1e3, 1e3, allow_nan=False)


@settings(max_examples=150, deadline=None)
@given(
    some.lists(some.tuples(*[few | any_size] * 3), max_size=25),
    some.sampled_from([KEYS[:2], KEYS[1:], KEYS]),
    some.sampled_from([None, 2, 4]),
)
def test_it_is_what_the_definition_says(table, keys, digits):
    rows = [make_row(number, **dict(zip(KEYS, values, strict=True))) for number, values in enumerate(table, 1)]
    if not rows:
        return
    found = find_pareto_front(rows, keys, digits=digits)
    assert {row.number for row in found.rows} == search(rows, keys, digits)
    first = [row.figures[keys[0]] for row in found.rows]
    if digits is None:
        assert first == sorted(first, reverse=keys[0] == "least_margin")
    assert found.compared == len(rows)


@settings(max_examples=60, deadline=None)
@given(some.lists(some.tuples(few, few), min_size=1, max_size=20), some.randoms())
def test_the_order_of_rows_does_not_matter(table, random):
    rows = [make_row(n, packed_kg=a, least_margin=b) for n, (a, b) in enumerate(table, 1)]
    mixed = random.sample(rows, len(rows))
    found, again = find_pareto_front(rows, KEYS[:2]), find_pareto_front(mixed, KEYS[:2])
    assert {row.number for row in found.rows} == {row.number for row in again.rows}
    assert {frozenset(group) for group in found.equal} == {frozenset(group) for group in again.equal}


def test_equal_designs_all_stay_and_are_named():
    rows = [
        make_row(1, packed_kg=0.3, least_margin=1.2),
        make_row(2, packed_kg=0.3, least_margin=1.2),
        make_row(3, packed_kg=0.300001, least_margin=1.2),  # alike in four digits
        make_row(4, packed_kg=0.3, least_margin=1.1),
    ]
    found = find_pareto_front(rows, KEYS[:2])
    assert {row.number for row in found.rows} == {1, 2, 3}
    assert found.equal == ((1, 2, 3),)
    assert "Ties: 1 and 2 and 3." in found.explain()
    assert {row.number for row in find_pareto_front(rows, KEYS[:2], digits=None).rows} == {1, 2}


def test_what_does_not_hold_is_out_unless_asked_for():
    rows = make_grid()
    found = find_pareto_front(rows, KEYS[:2])
    assert 3 not in {row.number for row in found.rows}
    assert (found.compared, found.failing, found.lacking) == (10, 1, 1)
    assert "(excluded: 1 that fail, 1 not solved or without these values)" in found.explain()
    both = find_pareto_front(rows, KEYS[:2], failing=True)
    assert 3 in {row.number for row in both.rows}  # the lightest of all, though it fails
    assert (both.compared, both.failing, both.lacking) == (11, 0, 1)


def test_rows_without_a_figure_are_counted_and_not_compared():
    rows = [
        make_row(1, packed_kg=0.3, least_margin=1.2),
        make_row(2, packed_kg=0.1),
        SweepRow(3, {}, RowStatus.LOST, "gone"),
    ]
    found = find_pareto_front(rows, KEYS[:2])
    assert ([row.number for row in found.rows], found.lacking) == ([1], 2)


@pytest.mark.parametrize(
    ("keys", "words"),
    [
        (["packed_kg"], "Choose two or more"),
        (["packed_kg", "packed_kg"], "Choose two or more"),
        (["packed_kg", "sag_m"], "sag_m has no better direction. Choose from packed_kg"),
        (["packed_kg", "cloth"], "no design has a value cloth"),
    ],
)
def test_figures_that_decide_nothing_are_refused(keys, words):
    with pytest.raises(RankingError, match=words):
        find_pareto_front(make_grid(), keys)


def test_weight_and_margin_count_if_nobody_says_otherwise():
    assert choose_figures(make_grid()) == ("packed_kg", "least_margin")
    assert choose_figures([make_row(1, packed_kg=0.1)]) == ("packed_kg",)
