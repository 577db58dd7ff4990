"""Where neither a design nor anything lighter passes: what excludes what, on made-up evaluations."""

from types import SimpleNamespace

import pytest

from tautlay.cases.studies.lighten.evaluation import Evaluation
from tautlay.cases.studies.lighten.no_answer import explain_failure
from tautlay.cases.studies.lighten.part_swaps import ReplaceablePart, Swap
from tautlay.cases.studies.sweep.sweep_row import RowStatus, SweepRow

PARTS = (ReplaceablePart("suspension.leg", "2 mm", (Swap("1.75 mm", 0.004), Swap("1.5 mm", 0.006))),)
LIGHT = SimpleNamespace(text="packed_kg < 280 g", meets=lambda row: row.figures["packed_kg"] < 0.280)


def make_evaluator(designs, limits=(LIGHT,)):
    """Return what was tried: by the number of the swap its mass and what it fails."""
    tried = {}
    for swap, (mass, failed) in designs.items():
        row = SweepRow(swap + 1, {}, RowStatus.SOLVED, figures={"packed_kg": mass}, failed=failed)
        reason = "; ".join((*failed, *(each.text for each in limits if not each.meets(row))))
        tried[(swap,)] = Evaluation((swap,), row, reason)
    return SimpleNamespace(
        tried=tried, parts=PARTS, as_designed=(0,),
        list_unmet=lambda row: (*row.failed, *(each.text for each in limits if not each.meets(row))),
    )  # fmt: skip


def test_a_limit_and_a_strength_that_no_combination_meets_together_are_named_with_the_nearest():
    coarse = make_evaluator({0: (0.282, ()), 1: (0.278, ("leg, splice breaks",)), 2: (0.276, ("leg, splice breaks",))})
    assert explain_failure(coarse, make_evaluator({})) == (
        'No combination that was solved meets both "leg, splice breaks" and "packed_kg < 280 g": each fails one of '
        "them. Nearest: the current design, which fails packed_kg < 280 g."
    )


def test_what_the_mesh_of_the_design_finds_counts():
    coarse = make_evaluator({0: (0.282, ()), 1: (0.278, ())})
    fine = make_evaluator({0: (0.282, ("back sag", "seam")), 1: (0.278, ("seam",))})
    assert explain_failure(coarse, fine) == "Nearest: suspension.leg = 1.75 mm, which fails seam."


@pytest.mark.parametrize("designs", [{0: (0.275, ()), 1: (0.271, ("leg",))}, {}], ids=["it passes", "unsolved"])
def test_nothing_is_said_of_a_design_that_passes_or_has_no_equilibrium(designs):
    evaluator = make_evaluator(designs)
    evaluator.tried.setdefault((0,), Evaluation((0,), SweepRow(1, {}, RowStatus.NO_REST, "slides"), "slides"))
    assert explain_failure(evaluator, make_evaluator({})) == ""
