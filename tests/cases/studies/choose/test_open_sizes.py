"""Sizes and materials searched together on a coarse mesh: starts agree, the finer mesh confirms, and more is not solved."""

import pytest

from tautlay.cases.studies.choose import open_sizes
from tautlay.cases.studies.choose.choosing import choose_design
from tautlay.cases.studies.sweep.worker_pool import PoolSettings

from ._small import vary, write_open

pytestmark = pytest.mark.slow
PEOPLE = """
[[person]]
name = "own"
stature = "1.75 m"
mass = "74 kg"
sex = "male"
head_from_bar = "14 cm"

[[person]]
name = "large"
who = "man, 98th percentile"
head_from_bar = "14 cm"
"""
STRONG = '["12-strand UHMWPE 2 mm", "12-strand UHMWPE 2.5 mm", "12-strand UHMWPE 2.8 mm", "12-strand UHMWPE 3.2 mm"]'
STRAPS = '["polyester 1 in, 33 g/m", "UHMWPE/polyester 1 in", "flat nylon 1 in, type XVII", "tubular nylon 1 in"]'
OPEN = (
    vary("trees.strap", STRAPS)
    + vary("suspension.line", STRONG)
    + vary("suspension.leg", STRONG)
    + '\n[[vary]]\nkey = "suspension.leg_length"\nfrom = "80 cm"\nto = "100 cm"\n'
)


def test_a_lighter_design_for_a_larger_person_too_is_found_from_every_start(tmp_path):
    path = write_open(tmp_path, OPEN, more="starts = 2\nmost = 24\n", size="25 cm")
    design = tmp_path / "design.toml"
    text = design.read_text(encoding="utf-8")
    head, _, rest = text.partition("[person]")
    design.write_text(head + PEOPLE + rest[rest.index("[load]") :], encoding="utf-8")
    found = choose_design(path, tmp_path / "a.sqlite", settings=PoolSettings(1))
    ends = [each.packed for each in found.starts]
    assert found.chosen.confirmed
    assert found.chosen.row.earned
    assert max(ends) <= 1.02 * min(ends)
    assert found.solved <= 30  # the answer is solved under all cases too
    assert all(each.reason for each in found.lighter)
    assert all("give the search more designs" not in each.reason for each in found.lighter)


ONE = '\n[[vary]]\nkey = "suspension.leg_length"\nfrom = "65 cm"\nto = "80 cm"\n'


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
