"""Measured and computed agree within their scatter, or the table says why not."""

from pathlib import Path

import pytest

from ._comparison import Band, Comparison, vary, write_table

PAGE = Path(__file__).with_name("README.md")


@pytest.mark.slow
def test_what_does_not_agree_has_a_reason_and_nothing_else_has(comparisons):
    assert [each.quantity for each in comparisons if each.agrees == bool(each.reason)] == []


@pytest.mark.slow
def test_at_least_eight_experiments_are_compared(comparisons):
    assert len({each.experiment for each in comparisons}) >= 8


@pytest.mark.slow
def test_every_comparison_tells_inputs_and_source(comparisons):
    for each in comparisons:
        assert each.inputs
        assert each.source
        assert each.measured.low <= each.measured.value <= each.measured.high
        assert each.computed.low <= each.computed.value <= each.computed.high


@pytest.mark.slow
def test_page_has_the_table_as_it_is_computed_now(comparisons):
    assert write_table(comparisons) in PAGE.read_text(encoding="utf-8"), "run `python -m tests.experiments`"


def test_independent_inputs_are_added_as_errors_are():
    band = vary(lambda a, b: a + 2 * b, {"a": 1.0, "b": 1.0}, {"a": (0.7, 1.3), "b": (0.8, 1.2)})
    assert [round(each, 9) for each in band] == [2.5, 3.0, 3.5]


def test_bands_that_do_not_meet_do_not_agree():
    told = ("a test", "pull", "N", Band.around(10.0, 1.0))
    assert Comparison(*told, Band(10.9, 12.0, 13.0), "none", "none", "seen").agrees
    assert not Comparison(*told, Band(11.1, 12.0, 13.0), "none", "none", "seen").agrees
