"""Searches for sizes to their end: on made-up laws, and one that is stopped."""

from types import SimpleNamespace

import pytest

from tautlay.cases.studies.choose import open_sizes
from tautlay.cases.studies.choose.choosing import choose_design
from tautlay.cases.studies.choose.frozen_shape import Foretold
from tautlay.cases.studies.choose.open_sizes import OpenSizes
from tautlay.cases.studies.sweep.worker_pool import PoolSettings

from ._made_up import STRENGTH, MadeUp, MadeUpSweep, find_rung, make_row
from ._small import write_open

ONE = '\n[[vary]]\nkey = "suspension.leg_length"\nfrom = "65 cm"\nto = "80 cm"\n'


class MadeUpEvaluator:
    """Answers with rows of a law of point and cases: the factor on the strength that they leave."""

    def __init__(self, sweep, runner, unchecked=frozenset(), done=None):
        self.sweep, self.runner, self.unchecked, self.done = sweep, runner, unchecked, done
        self.tried = {}

    @property
    def solved(self):
        return len(self.tried)

    def find(self, point):
        cases = self.sweep.cases or ("light", "heavy")
        share = min(self.runner.law(point, case, self.sweep.name.startswith("fine")) for case in cases)
        return self.tried.setdefault(point, make_row(point, share * STRENGTH[point[2]]))

    def solve(self, jobs, others=()):
        return [SimpleNamespace(row=self.find(job.key)) for job in jobs]

    def passes(self, row):
        return row.earned

    def explain(self, row):
        return row.failed[0] if row.failed else ""


def search(monkeypatch, law, starts=1):
    """Return what a search for the sizes of a made-up law ends with, and the search."""

    def ask(_, questions):
        rungs = [
            tuple(find_rung([make_row(p, STRENGTH[p[2]] * law(p, "heavy", False)) for p in each], question.offsets)
                  for each in question.ladders)
            for question in questions
        ]  # fmt: skip
        return [Foretold(each, ("heavy",)) for each in rungs]

    monkeypatch.setattr(open_sizes, "_solve_alone", lambda evaluator, point: evaluator.find(point))
    monkeypatch.setattr(open_sizes, "DesignEvaluator", MadeUpEvaluator)
    runner = SimpleNamespace(law=law, ask=ask)
    coarse, fine = (MadeUpSweep(name) for name in ("coarse", "fine"))
    asked = SimpleNamespace(
        terms=SimpleNamespace(most=40 * starts, starts=starts, seed=1), rough=True, sweep=coarse,
        fine=SimpleNamespace(make_design=lambda variant: variant),
    )  # fmt: skip
    monkeypatch.setattr(open_sizes, "PointSet", lambda sweep: MadeUp(sweep))
    sizes = OpenSizes(asked, MadeUpEvaluator(coarse, runner), MadeUpEvaluator(fine, runner), lambda *_: None)
    return sizes.run(), sizes


def weigh_lightest(law):
    """Return the least weight that a law allows on the fine mesh, of all designs."""
    return min(
        MadeUp().weigh((a, b, k))
        for a in range(10, 91) for b in range(10, 101) for k in range(3)
        if a * b / 2500 * STRENGTH[k] * min(law((a, b, k), case, True) for case in ("light", "heavy")) >= 1.0
    )  # fmt: skip


def find_first():
    """Return the start from which the mesh of the design is judged."""
    return open_sizes.draw_starts(MadeUp(), 1, 1)[0]


def turn(point, case, fine):
    """Bear less of the light person than of the heavy one, but in the widest designs."""
    return 0.9 if case == "heavy" else min(1.0, 0.5 + 0.5 * point[1] / 90)


def test_a_search_goes_on_from_what_the_mesh_of_the_design_refutes(monkeypatch):
    first = find_first()

    def bear_less(point, case, fine):
        return 0.8 if fine and point != first else 1.0

    found, sizes = search(monkeypatch, bear_less)
    assert [reason for _, reason in found.refuted] == ["cord"]
    assert found.chosen.confirmed
    assert found.chosen.row.figures["reserve_cord"] >= 1.0
    assert found.chosen.packed == pytest.approx(weigh_lightest(bear_less), rel=0.02)
    assert min(each.packed for each in found.starts) < found.chosen.packed
    assert len(sizes.searches) == 1  # the one that went on


def test_cases_that_were_left_out_are_taken_up_where_they_are_the_worst_after_all(monkeypatch):
    found, sizes = search(monkeypatch, turn, starts=3)
    assert found.refuted
    assert sizes.coarse is sizes.every
    assert found.chosen.confirmed
    assert found.chosen.packed == pytest.approx(weigh_lightest(turn), rel=0.03)
    limited, *_ = [each for each in sizes.used if each.sweep.cases]
    assert found.solved > limited.solved > 0  # what was solved under some cases counts too


def test_cases_that_decide_are_kept_where_the_others_are_not_the_worst(monkeypatch):
    found, sizes = search(monkeypatch, lambda point, case, fine: 0.9 if case == "heavy" else 1.0)
    assert not found.refuted
    assert sizes.coarse.sweep.cases == ("heavy",)
    assert found.chosen.confirmed


def test_what_is_refuted_again_and_again_is_never_called_confirmed(monkeypatch):
    first = find_first()

    def fall_short(point, case, fine):
        return 0.99 / make_row(point, STRENGTH[point[2]]).figures["reserve_cord"] if fine and point != first else 1.0

    found, _ = search(monkeypatch, fall_short)
    assert len(found.refuted) == 3
    assert not found.chosen.confirmed


def test_what_cannot_be_met_on_the_mesh_of_the_design_is_no_answer(monkeypatch):
    first = find_first()
    found, _ = search(monkeypatch, lambda point, case, fine: 0.15 if fine and point != first else 1.0)
    assert found.chosen is None
    assert len(found.refuted) == 1
    assert "too little is expected to be left" in found.exclusion


def test_where_nothing_passes_two_requirements_are_named_with_what_is_nearest(monkeypatch):
    found, _ = search(monkeypatch, lambda point, case, fine: 0.17)  # enough where the back sags too far
    assert found.chosen is None
    assert all(each.packed is None for each in found.starts)
    assert found.exclusion.startswith('No design that was solved meets both "back sag" and "cord": each fails one')
    assert "Nearest: 9" in found.exclusion


@pytest.mark.slow
@pytest.mark.parametrize("again", [False, True], ids=["once", "twice"])
def test_a_search_that_is_stopped_confirms_the_best_so_far_unless_stopped_again(tmp_path, monkeypatch, again):
    path = write_open(tmp_path, ONE, more='mesh_size = "25 cm"\nstarts = 1\nmost = 20\n')

    def stop(text):
        if "best so far" in text:
            if again:
                monkeypatch.setattr(open_sizes, "_solve_alone", interrupt)
            raise KeyboardInterrupt

    found = choose_design(path, tmp_path / "a.sqlite", settings=PoolSettings(1), report=stop)
    assert found.stopped
    assert found.solved < 20
    assert found.chosen.confirmed is not again
    assert found.chosen.row.earned


def interrupt(*_):
    raise KeyboardInterrupt
