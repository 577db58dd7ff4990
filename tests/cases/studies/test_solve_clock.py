"""Studies that solve again and again tell what they are at, and how long the rest takes."""

import re
import time
from importlib.resources import files

import pytest

from tautlay.cases import find_tip_margin, find_trim, make_hang_sheet, read_design
from tautlay.cases.studies import solve_clock
from tautlay.cases.studies.solve_clock import SolveClock

LARCH = str(files("tautlay.cases") / "larch_ridge.toml")


def test_estimate_follows_what_the_solves_took():
    now, lines = [0.0], []
    clock = SolveClock(lines.append, 5, lambda: now[0])
    for took in (10.0, 4.0, 6.0, 5.0, 5.0):
        with clock.solve("a"):
            now[0] += took
    assert lines == ["a", "a, about 14 s left", "a, about 12 s left", "a, about 10 s left", "a, about 5 s left"]
    clock.expect(40)
    with clock.solve("b") as line:
        assert line == "b, about 3 min left"


def test_solve_that_fails_counts_too():
    lines = []
    clock = SolveClock(lines.append, 2, iter([0.0, 100.0, 0.0, 0.0]).__next__)
    with pytest.raises(ValueError, match="no shape"), clock.solve("a"):
        raise ValueError("no shape")
    with clock.solve("b"):
        pass
    assert lines == ["a", "b, about 35 s left"]


STUDIES = {
    "hang": lambda tell: make_hang_sheet(read_design(LARCH), mesh_size=0.12, report=tell),
    "tip": lambda tell: find_tip_margin(read_design(LARCH), mesh_size=0.1, report=tell),
    "trim": lambda tell: find_trim(read_design(LARCH), "torso 3 deg", mesh_size=0.12, report=tell),
}


@pytest.mark.slow
@pytest.mark.parametrize("study", STUDIES)
def test_estimates_come_true_within_a_factor_of_two(study, monkeypatch):
    """Of what is told before the middle of the work, in time of the processor."""
    told = []
    monkeypatch.setattr(solve_clock.SolveClock.__init__, "__defaults__", (time.process_time,))
    STUDIES[study](lambda line: told.append((time.process_time(), line)))
    end = time.process_time()
    assert len(told) > 2
    assert all("left" in line for _, line in told[1:])
    for moment, line in told[2 : len(told) // 2 + 2]:
        number, unit = re.search(r"about ([0-9.]+) (s|min|h) left", line).groups()
        left = float(number) * {"s": 1, "min": 60, "h": 3600}[unit]
        assert 0.5 * (end - moment) - 1.0 < left < 2 * (end - moment) + 1.0, told
