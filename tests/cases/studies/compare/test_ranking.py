"""Designs of a sweep sorted, filtered and made a table of; all designs are invented."""

import pytest

from tautlay.cases.studies.compare.ranking import rank_rows
from tautlay.cases.studies.compare.value_columns import RankingError, find_scale, order_labels
from tautlay.cases.studies.sweep.sweep_row import RowStatus, SweepRow

from ...._rows import make_grid, make_row


@pytest.fixture(scope="module")
def rows():
    return make_grid()


def list_numbers(rows, **asked):
    return [row.number for row in rank_rows(rows, **asked).rows]


def test_those_that_hold_come_first_then_those_that_do_not_then_those_not_solved(rows):
    ranking = rank_rows(rows)
    assert ranking.sort == "packed_kg"
    kinds = [("holds" if row.holds else row.status) for row in ranking.rows]
    assert kinds == ["holds"] * 10 + ["solved", "refused"]
    weights = [row.figures["packed_kg"] for row in ranking.rows[:10]]
    assert weights == sorted(weights)
    assert (ranking.held, ranking.total) == (10, 12)


def test_what_is_better_stands_first_whichever_way_that_is(rows):
    margins = [row.figures["least_margin"] for row in rank_rows(rows, sort="least_margin", holding=True).rows]
    assert margins == sorted(margins, reverse=True)
    sags = [row.figures["sag_m"] for row in rank_rows(rows, sort="sag_m", holding=True).rows]
    assert sags == sorted(sags)  # neither way is better: from least to most


def test_choices_are_sorted_as_quantities_or_as_the_sweep_lists_them():
    labels = ["1.5 m", "as designed", "16 cm", "9 in"]
    assert order_labels(labels) == ["as designed", "16 cm", "9 in", "1.5 m"]
    assert order_labels(["thin", "as designed", "thick"]) == ["as designed", "thin", "thick"]
    assert find_scale(["10 g", "12 cm"]) is None
    assert find_scale(["2", "10"]).values == {"2": 2.0, "10": 10.0}
    rows = [make_row(n, {"depth": label}) for n, label in enumerate(labels, 1)]
    assert list_numbers(rows, sort="depth") == [2, 3, 4, 1]


def test_rows_without_the_figure_come_after_those_that_have_it():
    rows = [make_row(1, packed_kg=0.2), make_row(2, packed_kg=0.3, back_sag_m=0.1), make_row(3, back_sag_m=0.05)]
    assert list_numbers(rows, sort="back_sag_m") == [3, 2, 1]


@pytest.mark.parametrize(
    ("condition", "numbers"),
    [
        ("packed_kg < 80 g", {1, 2, 3}),
        ("packed_kg<2.8219 oz", {1, 2, 3}),  # 80 g
        ("packed_kg >= 0.18 kg", {10, 11, 12}),
        ("least_margin >= 1.3", {7, 8, 10, 11, 12}),
        ("cloth = taffeta, 60 g/m2", {7, 8, 9, 10, 11, 12}),
        ("cloth == taffeta, 60 g/m2", {7, 8, 9, 10, 11, 12}),
        ("cloth != taffeta, 60 g/m2", {1, 2, 3, 4, 5, 6}),
        ("cloth ~ NYLON", {1, 2, 3, 4, 5, 6}),
        ("body.arc.depth > 150 mm", {2, 3, 5, 6, 8, 9, 11, 12}),
        ("body.arc.depth = 0.16 m", {2, 5, 8, 11}),
        ("holds", set(range(1, 13)) - {3, 6}),
        ("not  holds", {3, 6}),
        ("not solved", {6}),
        ("status = refused", {6}),
        ("failed ~ cord", {3}),
        ("reason ~ meet", {6}),
        ("number <= 2", {1, 2}),
        ("sag_m > -1 m", set(range(1, 13)) - {6}),
    ],
)
def test_conditions_pick_what_they_say(rows, condition, numbers):
    assert set(list_numbers(rows, where=[condition])) == numbers


def test_conditions_are_all_met_and_kept_for_telling(rows):
    ranking = rank_rows(rows, where=["cord = thin", "least_margin > 1.1"], holding=True)
    assert {row.number for row in ranking.rows} == {7, 8, 9}
    assert ranking.conditions == ("cord = thin", "least_margin > 1.1", "passes")


@pytest.mark.parametrize(
    ("condition", "words"),
    [
        ("packed_kg < 300", "'300' needs a unit. Write a mass"),
        ("packed_kg < 300 N", "N is a force, write kg or lb for a mass"),
        ("least_margni > 1", "Did you mean least_margin?"),
        ("weight < 1 kg", "Did you mean packed_kg?"),
        ("back_sag_m < 1 cm", "unknown column back_sag_m"),
        ("packed_kg = 80 g", "Write packed_kg <= 80 g"),
        ("cloth = taffeta", "Did you mean taffeta, 60 g/m2?"),
        ("cloth < taffeta", "cloth has no order"),
        ("body.arc.depth > 1 kg", "'1 kg' has an unknown unit 'kg'. Write a length"),
        ("status = solvd", "Did you mean solved?"),
        ("status < solved", "status is text"),
        ("number > two", "whole number"),
        ("hold", "Did you mean holds?"),
        ("", "is not a condition"),
    ],
)
def test_conditions_that_make_no_sense_are_refused_in_a_sentence(rows, condition, words):
    with pytest.raises(RankingError, match=r"\.$") as caught:
        rank_rows(rows, where=[condition])
    assert words in str(caught.value)
    assert "\n" not in str(caught.value)


def test_names_with_signs_in_them_can_be_asked_for():
    rows = [make_row(1, {"d < 2": "a = b"}), make_row(2, {"d < 2": "c"})]
    assert list_numbers(rows, where=["d < 2 = a = b"]) == [1]


def test_unknown_keys_are_refused_with_the_nearest(rows):
    with pytest.raises(
        RankingError, match=r"unknown column sag\. Did you mean sag_m\? List all: `tautlay rank FILE --columns`\."
    ):
        rank_rows(rows, sort="sag")
    with pytest.raises(RankingError, match="No design of this sweep is solved yet"):
        rank_rows([SweepRow(1, {}, RowStatus.OPEN)], sort="packed_kg")


def test_columns_hold_everything_in_order(rows):
    columns = rank_rows(rows, sort="number").to_columns()
    assert list(columns) == [
        "number", "cloth", "cord", "body.arc.depth", "status", "holds", "reason", "governs", "failed", "unchecked", "unjudged",
        "unbeaten", "packed_kg", "least_margin", "sag_m",
    ]  # fmt: skip
    assert {len(column) for column in columns.values()} == {12}
    assert columns["packed_kg"] == [row.figures.get("packed_kg") for row in rank_rows(rows, sort="number").rows]
    assert columns["failed"][10] == "cord breaks"
    assert columns["reason"][11] == "the arcs meet."


def test_a_choice_called_like_a_column_keeps_a_column_of_its_own():
    rows = [make_row(1, {"status": "new", "chosen status": "old", "packed_kg": "x"}, packed_kg=0.2)]
    columns = rank_rows(rows).to_columns()
    assert (columns["status"], columns["packed_kg"]) == (["solved"], [0.2])
    assert sorted(key for key in columns if key.startswith("chosen")) == [
        "chosen chosen status", "chosen packed_kg", "chosen status",
    ]  # fmt: skip
    assert list_numbers(rows, where=["chosen packed_kg = x"]) == [1]
