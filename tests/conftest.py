"""What all tests share."""

import dataclasses
from importlib.resources import files

import numpy as np
import pytest

from tautlay.cases import read_design, solve_case

from ._saddle import make_occupant, make_saddle, write_result


@pytest.fixture(scope="session")
def saddle():
    return make_saddle()


@pytest.fixture(scope="session")
def lain(saddle):
    """The made-up hammock with a made-up person in it, pressing within 20 cm of the middle."""
    middle = saddle.points[saddle.triangles].mean(1)
    return dataclasses.replace(saddle, occupant=make_occupant(np.where(np.abs(middle[:, 1]) < 0.2, 1500.0, 0.0)))


@pytest.fixture(scope="session")
def shown(saddle, tmp_path_factory):
    """A result folder with load steps: the trough less deep, and under less tension."""
    steps = []
    for share in (0.0, 0.5):
        points = saddle.points * [1.0, 1.0, 0.8 + 0.2 * share] + [0.0, 0.0, 0.2 * (1 - share)]
        less = {name: share * getattr(saddle, name) for name in ("force", "larger_stress", "warp_share", "weft_share")}
        steps.append((share, dataclasses.replace(saddle, points=points, **less)))
    return write_result(tmp_path_factory.mktemp("shown"), saddle, "distributed", steps)


@pytest.fixture(scope="session")
def shown_lying(lain, tmp_path_factory):
    """A result folder with a person in contact, and the whole load only."""
    return write_result(tmp_path_factory.mktemp("lying"), lain, "lying")


@pytest.fixture(scope="session")
def solved_larch():
    """The metric demonstration on a coarse mesh."""
    return solve_case(read_design(str(files("tautlay.cases") / "larch_ridge.toml")), mesh_size=0.12, hot_spots=False)
