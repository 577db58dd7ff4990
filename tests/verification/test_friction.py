"""Friction against closed forms: a block on a slope, a belt round a cylinder; no energy out of nothing."""

import numpy as np
import pytest

from tautlay.solver import Contact, FabricLaw, Membrane, Rod, Structure, relax
from tautlay.solver.grip import find_grips, make_friction

STICK = 1e-3
FOOT = 0.1  # m
FEET = np.array([[0.0, 0.0, FOOT], [0.6, 0.3, FOOT], [0.6, -0.3, FOOT], [0.4, 0.0, 2 * FOOT]])  # three feet and a top
PAIRS = np.array([[0, 1], [0, 2], [0, 3], [1, 2], [1, 3], [2, 3]])
GRID = np.arange(-6, 40), np.arange(-18, 19)  # of the floor, 2.5 cm apart
FLOOR = 0.025 * np.array([[x, y, 0.0] for x in GRID[0] for y in GRID[1]])
CELLS = np.array([len(GRID[1]) * i + j for i in range(len(GRID[0]) - 1) for j in range(len(GRID[1]) - 1)])
TILES = np.concatenate([CELLS[:, None] + [0, len(GRID[1]), 1], CELLS[:, None] + [1, len(GRID[1]), len(GRID[1]) + 1]])
HOLD = len(FLOOR)


class Block:
    """A frame of rods on three round feet on a plane, under a weight that pulls at an angle."""

    def __init__(self, angle):
        self.places = np.concatenate([FLOOR, FEET])
        rods = Rod(HOLD + PAIRS, 1e6, np.linalg.norm(FEET[PAIRS[:, 0]] - FEET[PAIRS[:, 1]], axis=1))
        self.contact = Contact(TILES, HOLD + np.array([[0, 0], [1, 1], [2, 2]]), np.full((3, 2), FOOT), 1e5)
        self.elements = [rods, self.contact]
        self.forces = np.zeros_like(self.places)
        self.forces[HOLD:] = 10.0 * np.array([np.sin(angle), 0.0, -np.cos(angle)])

    def solve(self, friction, start, steps=60):
        fixed = np.repeat(np.arange(len(self.places))[:, None] < HOLD, 3, axis=1)
        fixed[:, :2] |= not friction  # without it nothing but a level floor holds the block
        elements = [*self.elements, *friction]
        structure = Structure(self.places, elements, fixed=fixed, forces=self.forces, gravity=(0, 0, 0))
        return structure, relax(structure, start=start, tolerance=1e-8, gear="implicit", max_iterations=steps)


def slide(angle, coefficient, rounds=5):
    """Return the last state of a block after some rounds, and the grips and friction it ended with."""
    block = Block(angle)
    level = Block(0.0)
    structure, state = level.solve([], level.places)
    carriers = dict.fromkeys(range(3), HOLD + np.arange(4))
    grips = None
    for _ in range(rounds):
        placed = next(term for term in structure.terms if isinstance(term, Contact))
        grips = find_grips(placed, state.positions, carriers, STICK, grips)
        friction = make_friction(placed, grips, coefficient, STICK)
        structure, state = block.solve([friction], state.positions)
        if not state.converged:
            break
    return state, friction


@pytest.mark.parametrize("degrees", [5.0, 20.0, 35.0])
def test_a_block_holds_on_a_slope_up_to_the_angle_of_friction(degrees):
    """tan(angle) = coefficient, textbook statics: a hundredth more holds, a hundredth less slides."""
    angle = np.radians(degrees)
    state, friction = slide(angle, 1.01 * np.tan(angle))
    assert state.converged
    found = friction.result(state.positions)
    assert found.share.max() < 1.0
    assert -found.force.sum(axis=0)[0] == pytest.approx(40.0 * np.sin(angle), rel=0.01)
    state, _ = slide(angle, 0.99 * np.tan(angle))
    assert not state.converged


def test_friction_pulls_along_the_cloth_however_far_the_body_has_turned():
    """A point that was gripped keeps slip and pull, but where body and cloth touch now: no couple turns the cloth."""
    cloth = [[0.0, 0, 0], [0.01, 0, 0], [0, 0.01, 0]]
    places = np.array([*cloth, [0, 0, 0.4], [1, 0, 0.4], [0, 1, 0.4], [0, 0, 1.4]])
    ball, carriers = Contact([[0, 1, 2]], [[3, 3]], [[0.5, 0.5]], 1e4).attach(places), {0: np.array([3, 4, 5, 6])}
    grips = find_grips(ball, places, carriers, STICK)
    places[4:] += [[0.0, 0, 0.5], [0.0, 0.003, 0.1], [0.0, 0, 0.2]]  # an arm that carries its skin too is raised
    before = make_friction(ball, grips, 0.3, STICK).result(places)
    friction = make_friction(ball, find_grips(ball, places, carriers, STICK, grips), 0.3, STICK)
    now = friction.result(places)
    assert now.force == pytest.approx(before.force, rel=1e-9)
    assert 0.0 < now.slip[0] == pytest.approx(min(before.slip[0], STICK))
    pull = np.zeros_like(places)
    friction.add_force(places, pull)
    assert np.abs(pull[:3, 2]).max() < 1e-9 * np.abs(pull[:3]).max()


ROUND, LENGTH, COUNT = 0.2, 1.2, 120


def lay_belt():
    """A strip over the upper half of a cylinder along y, both ends hanging down; rows of two nodes."""
    along = np.linspace(-LENGTH / 2, LENGTH / 2, COUNT + 1)
    turn = np.clip(along / ROUND, -np.pi / 2, np.pi / 2)
    hang = np.abs(along) - ROUND * np.pi / 2
    x = ROUND * np.sin(turn)
    z = np.where(hang > 0, -hang, ROUND * np.cos(turn))
    places = np.array([[a, y, b] for a, b in zip(x, z, strict=True) for y in (-0.05, 0.05)])
    flat = np.array([[a, y] for a in along for y in (-0.05, 0.05)])
    rows = 2 * np.arange(COUNT)
    triangles = np.concatenate(
        [np.column_stack([rows, rows + 2, rows + 1]), np.column_stack([rows + 1, rows + 2, rows + 3])]
    )
    return places, flat, triangles


@pytest.mark.parametrize("coefficient", [0.1, 0.35])
def test_a_belt_round_a_cylinder_multiplies_its_tension(coefficient):
    """T2/T1 = exp(mu theta), L. Euler 1769, J. A. Eytelwein 1808 (textbook statics, from memory)."""
    strip, flat, triangles = lay_belt()
    cloth = len(strip)
    drum = np.array([[0.0, -0.4, 0.0], [0.0, 0.4, 0.0], [0.1, 0.0, 0.1], [-0.1, 0.1, 0.0]])
    places = np.concatenate([strip, drum])
    contact = Contact(triangles, [[cloth, cloth + 1]], [[ROUND, ROUND]], 3e8)
    membrane = Membrane(triangles, flat[triangles], FabricLaw(2e5, 2e5, 0.0, 1e5))
    fixed = np.zeros((len(places), 3), dtype=bool)
    fixed[cloth:] = fixed[-6:-4] = True
    fixed[:cloth, 1] = True
    forces = np.zeros_like(places)
    forces[:2, 2] = -50.0
    carriers = {0: np.arange(cloth, cloth + 4)}

    def solve(elements, start):
        structure = Structure(places, [membrane, contact, *elements], fixed=fixed, forces=forces, gravity=(0, 0, 0))
        state = relax(structure, start=start, tolerance=1e-7, gear="implicit")
        assert state.converged
        return structure, state

    structure, state = solve([], places)
    grips, before, pull = None, np.inf, 0.0
    for number in range(30):
        placed = next(term for term in structure.terms if isinstance(term, Contact))
        grips = find_grips(placed, state.positions, carriers, STICK, grips)
        if number < 8:
            places[cloth - 2 : cloth, 2] -= 1e-3  # the other end is pulled down, farther than the stick length
        structure, state = solve([make_friction(placed, grips, coefficient, STICK)], state.positions)
        pull = float(structure.unbalanced(state.positions)[cloth - 2 : cloth, 2].sum())
        if number >= 8 and abs(pull - before) < 1e-4 * abs(pull):
            break
        before = pull
    assert abs(pull) / 100.0 == pytest.approx(np.exp(coefficient * np.pi), rel=0.02)
