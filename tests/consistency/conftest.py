"""The demonstration hammock, solved once on a coarse mesh."""

from dataclasses import dataclass
from pathlib import Path

import pytest

from tautlay.cases import read_design
from tautlay.meshing import HammockModel, build_model
from tautlay.solver import State, relax

CASES = Path(__file__).parents[2] / "cases"


@dataclass(frozen=True)
class Solved:
    model: HammockModel
    state: State

    def tension(self, name):
        return self.state[self.model.elements[name]].tension

    def thrusts(self):
        return [float(self.state[self.model.elements[f"{end} bar"]].thrust[0]) for end in ("head", "foot")]

    def forces(self):
        """Every cord, line and bar force, by name, N."""
        found = {}
        for name, element in self.model.elements.items():
            record = self.state[element]
            if hasattr(record, "thrust") and "bar" in name:
                found[name] = float(record.thrust[0])
            elif hasattr(record, "tension") and name != "body":
                found[name] = float(max(record.tension)) if hasattr(record.tension, "__len__") else record.tension
        return found


def solve(model, **options):
    state = relax(model.structure, **options)
    assert state.converged, f"{state.reason}: {state.message}"
    return Solved(model, state)


@pytest.fixture(scope="session")
def design():
    return read_design(CASES / "larch_ridge.toml")


@pytest.fixture(scope="session")
def demo(design):
    return solve(build_model(design.hammock, design.person, 0.12), tolerance=1e-7)
