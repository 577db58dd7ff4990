"""Every record of the solver puts itself into one short line, with sizes and units, and prints no array."""

import inspect

import numpy as np
import pytest

import tautlay.solver
from tautlay.solver import (
    Cable,
    Contact,
    Element,
    FabricLaw,
    Friction,
    Hinge,
    Joint,
    Law,
    Membrane,
    Pressure,
    Progress,
    Rod,
    SlidingCable,
    State,
    StiffnessModel,
    Structure,
    Strut,
    find_grips,
    relax,
)

from ._laws import LAWS

COUNT = 40  # cells along each side: some thousand triangles


def make_structure():
    """Return a sheet with one of every element; most of them far too large to be printed."""
    ids = np.arange((COUNT + 1) ** 2).reshape(COUNT + 1, COUNT + 1)
    flat = np.stack(np.meshgrid(*[np.linspace(0, 2, COUNT + 1)] * 2, indexing="ij"), -1).reshape(-1, 2)
    a, b, c, d = ids[:-1, :-1], ids[1:, :-1], ids[1:, 1:], ids[:-1, 1:]
    corners = np.concatenate([np.stack([a, b, c], -1).reshape(-1, 3), np.stack([a, c, d], -1).reshape(-1, 3)])
    body = len(flat) + np.arange(4)
    places = np.vstack([np.pad(flat, ((0, 0), (0, 1))), [[0.8, 1, 0.1], [1, 1, 0.1], [1.2, 1, 0.1], [0, 0, 1]]])
    edge = np.stack([ids[0, :-1], ids[0, 1:]], axis=1)
    elements = [
        Membrane(corners, flat[corners], FabricLaw(30e3, 25e3, 0.15, 100.0)),
        Pressure(corners, -10.0),
        Cable(edge, 20e3, np.linspace(0.04, 0.05, COUNT)),
        SlidingCable(ids[-1], 20e3, 1.99),
        Strut(edge, 1e5, 0.01),
        Rod([body[:2], body[1:3]], 1e5, 0.2),
        Joint([body[:3]], 10.0),
        Hinge([[*body[:3], ids[0, 0], ids[-1, 0]]], [[2.0]], [[1.0]], 0.0, 10.0, 5.0),
        Contact(corners, [body[:2], body[1:3]], 2 * [[0.1, 0.1]], 1e4),
        Friction(body[None], [[0.25] * 4], corners[:1], [[1.0, 0.0, 0.0]], [3.0], 0.003),
    ]
    fixed = np.zeros(len(places), bool)
    fixed[[*ids[0], *ids[-1], *ids[:, 0], *ids[:, -1], body[3]]] = True
    forces = np.zeros_like(places)
    forces[body[:3], 2] = -20.0
    return Structure(places, elements, fixed=fixed, forces=forces)


STRUCTURE = make_structure()
HEARD = []
STATE = relax(STRUCTURE, max_iterations=3, progress=HEARD.append)
ELEMENTS = {type(element).__name__: element for element in STRUCTURE.elements}
RESULTS = {f"{name}Result": STATE[element] for name, element in ELEMENTS.items()}
COLUMN = next(ELEMENTS["SlidingCable"].columns(STATE.positions, StiffnessModel.EXACT))
RECORDS = {**ELEMENTS, **RESULTS, "Structure": STRUCTURE, "State": STATE, "Progress": HEARD[-1]}
RECORDS |= {"StiffnessColumn": COLUMN, "Coupling": ELEMENTS["Contact"].couplings()[0]}
RECORDS |= {"FabricLaw": ELEMENTS["Membrane"].law, "LawResponse": ELEMENTS["Membrane"].law.respond(np.zeros((9, 3)))}

PLACED = next(term for term in STRUCTURE.terms if isinstance(term, Contact))
RECORDS |= {"PushSample": PLACED.sample_pushes(STATE.positions)}
RECORDS |= {"Grips": find_grips(PLACED, STATE.positions, {0: PLACED.segments[0]}, 0.003)}

EXACTLY = {
    "Membrane": "Membrane(3200 triangles, 4 m2, FabricLaw(30 N/mm warp, 25 weft, 0.1 shear, Poisson 0.15))",
    "FabricLaw": "FabricLaw(30 N/mm warp, 25 weft, 0.1 shear, Poisson 0.15)",
    "Pressure": "Pressure(3200 triangles, -10 N/m2)",
    "Cable": "Cable(40 segments, 1.8 m, EA 2e+04 N)",
    "SlidingCable": "SlidingCable(41 nodes, 1.99 m, EA 2e+04 N)",
    "Strut": "Strut(40 segments, 0.4 m, EA 1e+05 N)",
    "Rod": "Rod(2 segments, 0.4 m, EA 1e+05 N)",
    "Joint": "Joint(1 joint, 10 N m/rad)",
    "Hinge": "Hinge(1 hinge, across 5 N m/rad)",
    "Contact": "Contact(3200 triangles, 2 capsules, 1e+04 Pa/m)",
    "Structure": "Structure(1685 nodes, 4572 free directions, 10 elements, load 60 N)",
    "SlidingCableResult": "SlidingCableResult(tension 101 N, 2 m, 40 pieces)",
    "CableResult": "CableResult(40 segments, tension 0 to 5e+03 N)",
    "StiffnessColumn": "StiffnessColumn(41 nodes, 1.01e+04 N/m)",
    "Coupling": "Coupling(3200 members, 3 by 3 nodes)",
    "LawResponse": "LawResponse(9 taut, 0 wrinkled, 0 slack, line stress up to 0 N/m)",
}


@pytest.mark.parametrize("record", RECORDS.values(), ids=RECORDS)
def test_record_is_one_short_line_without_arrays(record):
    words = repr(record)
    assert words.startswith(f"{type(record).__name__}(")
    assert words.endswith(")")
    assert "\n" not in words
    assert "array" not in words
    assert "..." not in words
    assert len(words) < 100


@pytest.mark.parametrize(("name", "words"), EXACTLY.items(), ids=EXACTLY)
def test_record_tells_sizes_and_units(name, words):
    assert repr(RECORDS[name]) == words


def test_state_tells_how_it_ended():
    assert repr(STATE) == f"State(step limit, residual {STATE.residual:.2g}, {STATE.iterations} steps, 1685 nodes)"
    shown = State(STATE.positions, STATE.reactions, 1.0, 8.5e-7, tautlay.solver.Reason.CONVERGED, 331, 340, {})
    assert repr(shown) == "State(converged, residual 8.5e-07, 331 steps, 1685 nodes)"
    assert str(Progress(331, 8.5e-7, -12.25, "implicit")) == (
        "Progress(step 331, implicit, residual 8.5e-07, energy -12.25 J)"
    )


def test_every_record_that_is_offered_is_looked_at():
    offered = {name for name in tautlay.solver.__all__ if inspect.isclass(getattr(tautlay.solver, name))}
    bare = {Element.__name__, Law.__name__, StiffnessModel.__name__, "Reason"}
    assert offered - bare <= set(RECORDS)


@pytest.mark.parametrize("name", LAWS)
def test_membrane_names_any_law(name):
    law = LAWS[name].law
    words = repr(Membrane([[0, 1, 2]], [[[0, 0], [1, 0], [0, 1]]], law))
    assert words.startswith("Membrane(1 triangle, 0.5 m2, ")
    assert type(law).__name__ in words
    assert len(words) < 100


def test_law_tells_what_is_unusual_about_it():
    law = FabricLaw(123456.0, 0.1234567, -0.1234, 0.001234567, tension_only=False, prestress=(1.0, 0.0, 0.0))
    assert repr(law) == "FabricLaw(123 N/mm warp, 0.000123 weft, 1.23e-06 shear, Poisson -0.12, both ways, prestressed)"
