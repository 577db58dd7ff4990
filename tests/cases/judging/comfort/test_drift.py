"""How far mesh and start move a measure of the lay, and how that is written."""

from importlib.resources import files

import numpy as np
import pytest

from tautlay.cases import read_design
from tautlay.cases.display.reading import Reading, show_reading
from tautlay.cases.display.result_rows import list_comfort, title_lay
from tautlay.cases.judging.comfort.measure_list import MEASURES
from tautlay.cases.solving.solution import solve_equilibrium
from tautlay.solver import Contact


@pytest.fixture(scope="module")
def design():
    return read_design(str(files("tautlay.cases") / "larch_ridge.toml"))


@pytest.fixture(scope="module")
def usual(design):
    return solve_equilibrium(design, load="lying", mesh_size=0.05, hot_spots=False)


@pytest.fixture(scope="module")
def coarse(design):
    return solve_equilibrium(design, load="lying", mesh_size=0.08, hot_spots=False)


def test_every_measure_has_one():
    assert all((measure.drift > 0.0) != (measure.drift_share > 0.0) for measure in MEASURES)


def test_another_mesh_stays_within_what_is_printed(usual, coarse):
    """And does move every measure but those that are nought by symmetry, or the span says more than is so."""
    printed = list(list_comfort(usual.comfort))
    for line, other in zip(printed, list_comfort(coarse.comfort), strict=True):
        low, high = line.span
        assert low <= other.value <= high, line
    moved = [line.title for line, other in zip(printed, list_comfort(coarse.comfort), strict=True) if line != other]
    assert len(moved) >= len(MEASURES) - 2
    assert title_lay(usual.comfort).endswith("as near as can be computed")


def test_a_span_is_rounded_outwards():
    tilt = Reading("torso tilt", np.radians(8.42), "angle", drift=np.radians(0.4))
    assert show_reading(tilt) == "8.0 to 8.9 deg"
    assert show_reading(Reading("hip roll", 0.0, "angle", drift=np.radians(4))) == "-4 to 4 deg"
    assert show_reading(Reading("friction", 2.6, "force", drift=6.0), "metric") == "0 to 9 N"  # never below nothing
    assert show_reading(Reading("area", 0.373, "area", drift=0.041), "metric") == "0.33 to 0.42 m2"
    assert show_reading(Reading("sag", 0.139, "length", drift=0.003), "imperial") == "5.35 to 5.60 in"
    assert show_reading(Reading("weight", 628.0, "force")) == "628 N (141 lbf)"


@pytest.mark.parametrize("found", ["usual", "coarse"])
def test_forces_spread_over_a_triangle_are_those_in_balance(found, request):
    """However far apart the points of balance are, the pressure mat adds up to the force that balances."""
    result = request.getfixturevalue(found)
    contact = next(term for term in result.model.structure.terms if isinstance(term, Contact))
    sample = contact.sample_pushes(result.state.positions)
    balanced = result.state[result.model.elements["contact"]].push
    assert (
        np.linalg.norm(sample.push.sum(axis=1) - balanced, axis=1).max() < 0.05 * np.linalg.norm(balanced, axis=1).max()
    )
    assert np.linalg.norm(sample.push, axis=2).sum() == pytest.approx(np.linalg.norm(balanced, axis=1).sum(), rel=0.03)
