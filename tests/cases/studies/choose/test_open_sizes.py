"""A search for sizes that is stopped: the best so far is confirmed on the mesh of the design."""

import pytest

from tautlay.cases.studies.choose import open_sizes
from tautlay.cases.studies.choose.choosing import choose_design
from tautlay.cases.studies.sweep.worker_pool import PoolSettings

from ._small import write_open

pytestmark = pytest.mark.slow
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
