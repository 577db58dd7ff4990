"""Where a search for sizes finds nothing that passes: what is said, on made-up rows."""

import pytest

from tautlay.cases.studies.choose.no_answer import explain_rows, explain_sizes
from tautlay.cases.studies.sweep.sweep_row import RowStatus, SweepRow


def make_row(number, *failed, status=RowStatus.SOLVED, reason=""):
    figures = {"least_margin": 1.0 - 0.1 * number}
    return SweepRow(number, {"leg": f"{number} mm"}, status, reason, failed=failed, figures=figures)


HEAVY, WEAK, BOTH = make_row(1, "added pack weight"), make_row(2, "leg"), make_row(3, "added pack weight", "leg")
PAIR = 'No design that was solved meets both "added pack weight" and "leg": each fails one of them.'
SLIDES = make_row(4, status=RowStatus.NO_REST, reason="the person slides out")


@pytest.mark.parametrize(
    ("nearest", "words"),
    [
        (HEAVY, f"{PAIR} Nearest: 1 mm, which fails added pack weight."),
        (SLIDES, "Nearest: 4 mm: the person slides out"),
        (None, "Of no design that was tried can everything be checked"),
    ],
)
def test_the_nearest_is_told_with_what_excludes_what(nearest, words):
    assert explain_sizes([BOTH, WEAK, HEAVY, SLIDES], nearest).startswith(words)


def test_what_passes_on_the_coarse_mesh_alone_is_never_said_to_fail_nothing():
    passing = make_row(5)
    assert explain_sizes([WEAK, passing], passing) == (
        "Nearest: 5 mm, which passes on the mesh of the search; on that of the design too little is expected to be left."
    )


def test_of_a_finite_set_the_nearest_is_the_one_that_fails_least():
    assert explain_rows([BOTH, WEAK, HEAVY]) == f"{PAIR} Nearest: 1 mm, which fails added pack weight."
    assert explain_rows([SLIDES]) == ""
