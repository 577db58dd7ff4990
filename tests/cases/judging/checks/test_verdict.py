"""One line says whether a design passes: in the singular and in the plural, passed and failed."""

import pytest

from tautlay.cases.judging.checks import Check, Findings
from tautlay.cases.judging.checks.verdict import write_verdict
from tautlay.making import FACTORS, Capacity


def make_check(part, factor):
    return Check(part, "breaks", 1000.0, Capacity(1000.0 * factor, "force", ()), FACTORS["cord"])


STRONG, WEAK = make_check("left head leg", 6.41), make_check("foot line", 4.99)


@pytest.mark.parametrize(
    ("checks", "words"),
    [
        ((), "NOT CHECKED: the design describes no part"),
        (
            (STRONG,),
            "PASS: 1 check. Closest to its limit, 79 % used: left head leg, breaks (factor of safety 6.4, required 5).",
        ),
        ((STRONG, STRONG), "PASS: all 2 checks. Closest to its limit, 79 % used: "),
        (
            (WEAK,),
            "FAIL: 1 of 1 check. Too little reserve: foot line, breaks, factor 4.9, required 5.",
        ),
        (
            (make_check("left head leg", 4.0), make_check("right head leg", 4.0), WEAK),
            "FAIL: 3 of 3 checks, 2 with left and",
        ),
        ((WEAK, STRONG), "FAIL: 1 of 2 checks. Too little reserve: foot line, breaks"),
    ],
)
def test_verdict_counts_in_singular_and_plural(checks, words):
    assert write_verdict(Findings(checks, ())).startswith(words)
