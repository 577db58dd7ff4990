"""What rows say of what was judged; all designs are invented."""

import json

import pytest

from tautlay.cases.studies.compare.condition import read_condition
from tautlay.cases.studies.compare.row_verdict import format_verdict
from tautlay.cases.studies.sweep.exclusion import explain_exclusion
from tautlay.cases.studies.sweep.stored_row import StoredRow
from tautlay.cases.studies.sweep.sweep_row import RowStatus, SweepRow, list_unjudged, write_pass

FIGURES = {"packed_kg": 0.25, "least_margin": 1.1}


def read(*measurement):
    return StoredRow(1, "{}", "solved", "", json.dumps([FIGURES, "cord breaks", [], [], *measurement])).read()


def test_a_row_of_an_earlier_version_is_read_and_passes_in_part():
    row = read()
    assert (row.holds, row.earned) == (True, False)
    assert row.unjudged
    assert format_verdict(row) == "pass in part; cord breaks"


@pytest.mark.parametrize(
    ("judged", "unjudged", "words"),
    [(["sudden", "lying"], [], "pass"), (["lying"], ["sudden"], "pass under lying"),
     (["distributed"], ["sudden", "lying"], "pass under distributed")],
)  # fmt: skip
def test_a_row_says_under_what_it_passes(judged, unjudged, words):
    row = read(judged, unjudged)
    assert (write_pass([row]), row.earned) == (words, not unjudged)
    assert list_unjudged([row]) == unjudged
    assert read_condition("unjudged = sudden", [row]).meets(row) == ("sudden" in unjudged)


def make_rows(*failed):
    return [SweepRow(n, {}, RowStatus.SOLVED, figures=FIGURES, failed=each) for n, each in enumerate(failed, 1)]


@pytest.mark.parametrize(
    "failed",
    [
        [("sag",), ()],  # one passes
        [("sag",), ("sag",)],  # nothing but one requirement fails
        [("sag", "bar"), ("sag", "bar")],  # nobody meets either
        [("sag",), ("bar",), ("leg",)],  # one that fails neither: it is something else
    ],
)
def test_nothing_is_said_to_exclude_where_it_cannot_be_told(failed):
    assert explain_exclusion(make_rows(*failed)) is None


def test_two_requirements_that_no_design_meets_together_are_named_with_the_nearest_design():
    words = explain_exclusion(make_rows(("sag", "leg"), ("bar",), ("bar", "leg")))
    assert words == 'No design meets both "bar" and "sag": each fails one of them. Nearest: 2, which fails bar.'
