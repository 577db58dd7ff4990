"""Cords that slide: rings and pulleys, cord round a bend, cord along a scalloped edge, and the traps.

Friction cannot be expressed with these elements, so the capstan rows of the same references and the
channel with friction are left out; what is checked is their frictionless limit, one tension all along.
"""

from typing import NamedTuple

import numpy as np
import pytest
from scipy.optimize import minimize_scalar

from tautlay.solver import Cable, FabricLaw, Membrane, Pressure, Reason, SlidingCable, Structure, relax

from ._exact import hang_ring, hang_two_spans

G = 9.80665
FAILED = (Reason.COLLAPSED, Reason.MECHANISM)


def arrange(kind, positions, ea, length, *, held, loads=None, start=None):
    """Return the state of one cord through all ``positions``; ``loads`` maps nodes to forces, N."""
    positions = np.array(positions, dtype=float)
    forces = np.zeros_like(positions)
    for node, force in (loads or {}).items():
        forces[node] = force
    cord = kind(np.arange(len(positions)), ea, length)
    fixed = np.isin(np.arange(len(positions)), held)
    state = relax(Structure(positions, [cord], fixed=fixed, forces=forces), tolerance=1e-8, start=start)
    return state, state[cord]


# --- rings ---------------------------------------------------------------------------------------------

RINGS = {
    "inextensible": (1.0, 5.0, np.inf, 2000 / 3, 8 / 3, 2.0, 10 / 3, 5e-6),
    "EA 20 kN": (1.0, 5.0, 20e3, 633.4895217, 2.6140401226, 2.1285580750, 3.2675501532, 1e-8),
    "shorter than the span": (0.5, 4.0, 20e3, 1204.1300193, 2.7098440364, 0.9543800812, 2.7098440364, 1e-8),
}


@pytest.mark.parametrize("row", RINGS.values(), ids=RINGS)
@pytest.mark.parametrize("x", [0.8, 2.0, 3.7], ids="start at {:g} m".format)
def test_ring_on_a_rope(row, x):
    """A ring of 800 N on a rope of span 4 m: equal angles at both legs, 2 T sin a = W (derived); 1e-8.

    EA = 1e9 N stands for the inextensible rope, strain 7e-7; 5e-6.

    Wherever the ring starts it rolls to the same place.
    """
    drop, length, ea, T, place, depth, first, accuracy = row
    exact = hang_ring(4.0, drop, length, 800.0, ea)
    np.testing.assert_allclose(exact, [T, place, depth, first], rtol=1e-9)
    ea = min(ea, 1e9)
    state, carried = arrange(
        SlidingCable, [[0, 0, 0], [x, 0.1, -1.5], [4, 0, -drop]], ea, length, held=(0, 2), loads={1: (0, 0, -800)}
    )
    assert state.converged, state.message
    assert carried.tension == pytest.approx(T, rel=accuracy)
    np.testing.assert_allclose(state.positions[1], [place, 0, -depth], atol=10 * accuracy)
    assert carried.pieces[0] / (1 + T / ea) == pytest.approx(first, rel=10 * accuracy)


@pytest.mark.parametrize(
    ("angle", "ratio"), [(20, 1.4619022), (25, 1.1831008), (30, 1.0), (35, 0.8717234), (45, 0.7071068)]
)
def test_hang_angle_sets_the_tension(angle, ratio):
    """T = W/(2 sin a) at the hang angle a above the level: common practice, textbook statics; 1e-6."""
    weight, ea = 800.0, 50e3
    slope = np.radians(angle)
    length = 4 / np.cos(slope) / (1 + ratio * weight / ea)
    state, carried = arrange(
        SlidingCable, [[0, 0, 0], [1.2, 0, -0.4], [4, 0, 0]], ea, length, held=(0, 2), loads={1: (0, 0, -weight)}
    )
    assert state.converged, state.message
    np.testing.assert_allclose(state.positions[1], [2, 0, -2 * np.tan(slope)], atol=1e-6)
    assert carried.tension / weight == pytest.approx(ratio, rel=1e-6)
    np.testing.assert_allclose(np.linalg.norm(state.reactions[[0, 2]], axis=1), ratio * weight, rtol=1e-6)


# --- two spans over a hanging pulley -------------------------------------------------------------------


CABLE_WEIGHT, CABLE_EA = 30.0, 5e7  # N/m, N


class TwoSpans(NamedTuple):
    """A cable over a hanging and a fixed pulley and on to its end, with what is asked of its state."""

    structure: Structure
    over: SlidingCable  # the piece over the hanging pulley
    beyond: SlidingCable  # the piece over the fixed one
    hanging: int


def build_two_spans(marks, positions):
    """Return the cable of 220 m with material nodes at ``marks``, m from its first end.

    ``marks`` are those of the first span and those of the second; ``positions`` lists the nodes of both,
    then hook, hanging pulley, fixed pulley, cable end.
    """
    count = sum(map(len, marks))
    hook, hanging, fixed_pulley, end = range(count, count + 4)
    near, far, last = len(marks[0]) - 1, len(marks[0]), count - 1
    nodes = np.arange(count - 1)
    steps = np.diff(np.concatenate(marks))
    mass = CABLE_WEIGHT / G
    cable = Cable(np.stack([nodes, nodes + 1], axis=1)[nodes != near], CABLE_EA, steps[nodes != near], mass=mass)
    over = SlidingCable([near, hanging, far], CABLE_EA, steps[near], mass=mass)
    beyond = SlidingCable([last, fixed_pulley, end], CABLE_EA, 220 - marks[1][-1], mass=mass)
    chain = Cable([[hook, hanging]], CABLE_EA, 10.0, mass=mass)
    fixed = np.isin(np.arange(count + 4), (0, hook, fixed_pulley, end))
    return TwoSpans(Structure(positions, [cable, over, beyond, chain], fixed=fixed), over, beyond, hanging)


def settle_two_spans(marks, parts):
    """Return model and state of the cable drawn along ``parts``, its end 10 m in.

    The weight of a sliding piece stays on its nodes as first shared out: it is shared out anew, and the
    cable solved again, until that moves nothing by more than 0.1 mm.
    """
    positions = np.concatenate([*parts, [[100, 0, 10], [100, 0, 0], [200, 0, 0], [210, 0, 0]]])
    for _ in range(12):
        model = build_two_spans(marks, positions)
        state = relax(model.structure)
        assert state.converged, state.message
        moved = np.abs(state.positions - positions).max()
        positions = state.positions
        if moved < 1e-4:
            return model, state
    raise AssertionError(f"the weight still moves the cable by {moved} m")


def measure_depth(state, middle):
    """Return the depth of the cable at x = ``middle``, m, by a parabola through the nodes within 3 m."""
    x, _, z = state.positions.T
    near = np.abs(x - middle) < 3
    return -np.polyval(np.polyfit(x[near] - middle, z[near], 2), 0.0)


@pytest.fixture(scope="module")
def exact_spans():
    """First of the two exact catenaries, and how far the hanging pulley sinks."""
    return hang_two_spans(100.0, 220.0, 10.0, 10.0, CABLE_WEIGHT, CABLE_EA)


def test_exact_spans_give_the_tabulated_figures(exact_spans):
    """Two catenaries of one tension at the pulley (derived): T 3175.1765 N, H 2757.0217 N, 105.000317 m."""
    exact, sink = exact_spans
    found = [exact.H, exact.tension(exact.length), exact.length]
    np.testing.assert_allclose(found, [2757.0217, 3175.1765, 105.000317], rtol=5e-8)
    assert sink == pytest.approx(0.00066, abs=5e-6)
    deepest = minimize_scalar(lambda s: -exact.place(s)[1], bounds=(40, 65), method="bounded").fun
    assert -deepest == pytest.approx(13.939980, abs=1e-6)


def test_cable_laid_level_over_a_hanging_pulley():
    """Published case SSNL100 of code_aster (V6.02.100): mid-span -13.93 m, tolerance 0.5 %.

    w = 30 N/m, EA = 50 MN; 220 m laid level and stress-free, then 10 m let in at the end and gravity put
    on, so that 5 m run over the hanging pulley and 10 m over the fixed one. A straight piece has the
    tension of its middle, so both pieces at the hanging pulley should end up equally long, here 6 m.
    """
    marks = np.arange(0, 100.0), np.arange(111, 200.0)
    model, state = settle_two_spans(marks, [np.stack([part, 0 * part, 0 * part], axis=1) for part in marks])
    for middle in (50.0, 150.0):
        assert measure_depth(state, middle) == pytest.approx(13.93, rel=5e-3)
    assert state[model.over].pieces[0] == pytest.approx(6.0, abs=0.1)
    assert state[model.beyond].pieces[0] == pytest.approx(11.0, abs=0.01)


def test_two_spans_share_their_cable_evenly(exact_spans):
    """The same case finely divided near its end state, against the exact catenaries (derived): 0.01 %.

    The published results, -13.962398 and -13.895279 m, hold to 0.3 %. A straight piece has the tension of
    its middle, so tensions are compared there. A quarter of a metre has to run over the hanging
    pulley and half a metre over the fixed one.
    """
    exact, sink = exact_spans
    marks = np.arange(0, 104.6, 0.5), np.arange(105.5, 209.1, 0.5)
    parts = []
    for part, shift, x0 in zip(marks, (0.0, 104.75), (0.0, 100.0), strict=True):
        t = (part - shift) / 104.75
        parts.append(np.stack([x0 + 100 * t, 0 * t, -56 * t * (1 - t)], axis=1))
    model, state = settle_two_spans(marks, parts)
    for cord in (model.over, model.beyond):
        middle = exact.tension(exact.length - state[cord].pieces[0] / 2)
        assert state[cord].tension == pytest.approx(middle, rel=1e-4)
    for middle in (50.0, 150.0):
        depth = measure_depth(state, middle)
        assert depth == pytest.approx(13.939980, rel=1e-4)
        assert depth == pytest.approx(13.962398, rel=3e-3)
        assert depth == pytest.approx(13.895279, rel=4e-3)
    np.testing.assert_allclose(state.positions[model.hanging], [100, 0, -sink], atol=3e-3)
    np.testing.assert_allclose(state.reactions[0], [-exact.H, 0, exact.V], rtol=1e-4, atol=1e-9)


# --- traps ---------------------------------------------------------------------------------------------


def test_solved_cable_started_anew_needs_few_steps():
    """A solve from its own solution: weight shared out anew moves little, and rounding must not stop the steps.

    Energies of 200 m of cable at 3 kN agree to 1e-9 J at best, far more than so small a step gains.
    """
    marks = np.arange(0, 104.25, 0.5), np.arange(105.5, 209.25, 0.5)
    parts = []
    for place, shift, start in zip(marks, (0.0, 104.75), (0.0, 100.0), strict=True):
        share = (place - shift) / 105
        parts.append(np.stack([start + 100 * share, 0 * share, -56 * share * (1 - share)], axis=1))
    positions = np.concatenate([*parts, [[100, 0, 10], [100, 0, 0], [200, 0, 0], [210, 0, 0]]])
    for _ in range(5):
        state = relax(build_two_spans(marks, positions).structure, gear="implicit")
        assert state.converged, (state.reason, state.residual)
        positions = state.positions
    assert state.iterations <= 15


@pytest.mark.parametrize("weights", [(100, 100), (100, 300), (300, 100)])
def test_two_weighted_rings_run_together(weights):
    """Two weighted rings on one frictionless rope have no equilibrium apart: they meet (derived).

    The solver has to say so by name and not call it equilibrium.
    """
    state, carried = arrange(
        SlidingCable, [[0, 0, 0], [1, 0, -1], [3, 0, -1.2], [4, 0, 0]], 20e3, 5.0, held=(0, 3),
        loads={1: (0, 0, -weights[0]), 2: (0, 0, -weights[1])},
    )  # fmt: skip
    assert not state.converged
    assert state.reason in FAILED
    assert state.message.endswith(".")
    assert carried.pieces[1] < 1e-3


@pytest.mark.parametrize(("light", "heavy"), [(100.0, 101.0), (10.0, 100.0)])
def test_rope_runs_off_to_the_heavier_side(light, heavy):
    """A free rope over a pulley with unequal weights has no equilibrium: all of it runs to the heavy side."""
    state, _ = arrange(
        SlidingCable, [[-0.1, 0, -1.5], [0, 0, 0], [0.1, 0, -1.5]], 20e3, 3.0, held=1,
        loads={0: (0, 0, -light), 2: (0, 0, -heavy)},
    )  # fmt: skip
    assert not state.converged
    assert state.reason in FAILED
    assert state.message.endswith(".")


def test_light_span_gives_all_its_cord_to_the_heavy_one():
    """A light span next to a heavy one over a fixed pulley (derived): no equilibrium with cord left in it.

    The heavy ring needs T = 1000/(2 sin a) >= 500 N; the slack light span can offer next to nothing
    until all cord that may slide has gone.
    """
    positions = [[0, 0, 0], [1, 0, -1], [2, 0, 0], [3, 0, -0.8], [4, 0, 0]]
    cord = SlidingCable([0, 1, 2, 3], 20e3, 4.2)
    tail = Cable([[3, 4]], 20e3, 2.5)
    forces = np.zeros((5, 3))
    forces[[1, 3], 2] = -1000.0, -1.0
    fixed = np.array([True, False, True, False, True])
    state = relax(Structure(positions, [cord, tail], fixed=fixed, forces=forces))
    assert not state.converged
    assert state.reason in FAILED
    assert state.message.endswith(".")
    assert state[cord].pieces[2] < 1e-3


# --- cord round a bend ---------------------------------------------------------------------------------


def test_belt_on_its_drum():
    """Belt of 400 N, 0.5 m wide, 120 degrees round R = 0.2 m (derived): 2000 N/m, 4000 Pa, 692.820323 N.

    The frictionless limit of the capstan: the hold at the far end is the pull, exp(0) = 1; 1e-6.
    """
    pull, R, width, turn, count, ea = 400.0, 0.2, 0.5, 2 * np.pi / 3, 24, 20e3
    angle = np.pi / 2 + turn / 2 - turn * np.arange(count + 1) / count
    drum = R * np.stack([np.cos(angle), 0 * angle, np.sin(angle)], axis=1)
    step = turn / count

    along = np.stack([np.sin(angle), 0 * angle, -np.cos(angle)], axis=1)  # bends by half a step at the end nodes
    first, last = drum[0] - 0.5 * along[0], drum[-1] + 0.5 * along[-1]
    length = 1.0 + count * 2 * R * np.sin(step / 2)
    positions = [first, *drum, last]
    state, carried = arrange(
        SlidingCable,
        positions,
        ea,
        length / (1 + pull / ea),
        held=np.arange(count + 2),
        loads={count + 2: pull * along[-1]},
    )
    assert state.converged, state.message
    assert carried.tension == pytest.approx(pull, rel=1e-6)
    assert np.linalg.norm(state.reactions[0]) == pytest.approx(pull, rel=1e-6)
    on_drum = -state.reactions[1 : count + 2]
    inner = np.linalg.norm(on_drum[1:-1], axis=1)
    per_length = inner / (2 * R * np.sin(step / 2))
    np.testing.assert_allclose(per_length, 2000.0, rtol=1e-6)
    np.testing.assert_allclose(per_length / width, 4000.0, rtol=1e-6)
    np.testing.assert_allclose(on_drum.sum(axis=0), [0, 0, -692.820323], atol=1e-3)


def test_cord_drawn_through_its_channel():
    """Cord of EA 30 kN under 500 N through a channel of R = 1.5 m, 2 m long (derived): longer by 33.3333 mm."""
    pull, R, S, ea, count = 500.0, 1.5, 2.0, 30e3, 200
    angle = S / R * np.arange(count + 1) / count
    arc = R * np.stack([np.sin(angle), 0 * angle, 1 - np.cos(angle)], axis=1)
    rest = float(np.linalg.norm(np.diff(arc, axis=0), axis=1).sum())
    out = np.array([np.cos(angle[-1]), 0, np.sin(angle[-1])])
    state, carried = arrange(
        SlidingCable,
        [*arc, arc[-1] + 0.2 * out],
        ea,
        rest + 0.2,
        held=np.arange(count + 1),
        loads={count + 1: pull * out},
    )
    assert state.converged, state.message
    assert rest == pytest.approx(S, rel=1e-5)
    assert carried.tension == pytest.approx(pull, rel=1e-7)
    elongation = carried.tension / ea * rest
    assert elongation == pytest.approx(0.0333333, rel=1e-5)
    drawn = np.linalg.norm(state.positions[-1] - arc[-1]) - 0.2
    assert drawn == pytest.approx(elongation * (1 + 0.2 / rest), rel=1e-6)


# --- scalloped edge ------------------------------------------------------------------------------------

EDGES = {"sag 150 mm": (2.0298662857, 3.40833333, 0.15), "arc 2.06 m": (2.06, 2.4530419639, 0.2130832865)}
CHORD, PULL = 2.0, 300.0  # m, N/m


@pytest.mark.parametrize(("length", "R", "sag"), EDGES.values(), ids=EDGES)
def test_edge_cord_under_even_pull_is_an_arc(length, R, sag):
    """Cord under an even pull N across it: an arc of R = T/N, chord 2 m, N = 300 N/m (derived).

    Sag 0.15 m: R 3.40833333 m, T 1022.5 N, end pulls 977.5 N along the chord and 300 N across. Arc 2.06 m:
    sag 0.2130832865 m, R 2.4530419639 m. The pull is a follower pressure on a strip between two such
    cords; 40 segments, 0.05 %.
    """
    count, ea, width, T = 40, 1e6, 0.5, PULL * R
    x = np.linspace(-CHORD / 2, CHORD / 2, count + 1)
    edge = np.stack([x, 0.5 * sag * np.cos(np.pi * x / CHORD), 0 * x], axis=1)
    low, high = np.arange(count + 1), np.arange(count + 1, 2 * count + 2)
    a, b, c, d = low[:-1], low[1:], high[1:], high[:-1]
    # both ways of halving the squares, with half the pressure each, load both cords evenly
    corners = [(c, b, a), (d, c, a), (d, b, a), (d, c, b)]
    push = Pressure(np.concatenate([np.stack(corner, axis=1) for corner in corners]), PULL / width)
    rest = length / count / (1 + T / ea)
    cords = [Cable(np.stack([nodes[:-1], nodes[1:]], axis=1), ea, rest) for nodes in (low, high)]
    fixed = np.zeros((2 * count + 2, 3), dtype=bool)
    fixed[[low[0], low[-1], high[0], high[-1]]] = True
    fixed[:, 2] = True
    positions = np.concatenate([edge, edge + [0, 0, width]])
    state = relax(Structure(positions, [*cords, push], fixed=fixed), tolerance=1e-8)
    assert state.converged, state.message
    for cord, nodes in zip(cords, (low, high), strict=True):
        np.testing.assert_allclose(state[cord].tension, T, rtol=5e-4)
        assert state.positions[nodes[count // 2], 1] == pytest.approx(sag, rel=5e-4)
        pull = state.reactions[nodes[-1]]  # with the end segment's half of the pull it is the cord's own pull
        np.testing.assert_allclose(pull[:2], [np.sqrt(T**2 - 300.0**2), -300.0], rtol=5e-4)
    if sag == 0.15:
        np.testing.assert_allclose([T, pull[0]], [1022.5, 977.5], rtol=5e-4)


def test_scalloped_cloth_holds_its_edge_cord():
    """Evenly stressed cloth with a concave edge of R = 3.40833 m: T = N R = 1022.5 N (derived); 0.1 %.

    Cloth of stress N = 300 N/m both ways is cut to the arc; pushed out of shape and let go, it comes back,
    and the cord has to have one tension although every segment could have its own.
    """
    R, sag, depth, count, rows, ea = 3.40833333, 0.15, 1.0, 24, 8, 2e5
    T = PULL * R
    half = np.arcsin(CHORD / 2 / R)
    angle = np.linspace(-half, half, count + 1)
    edge = R * np.stack([np.sin(angle), np.cos(half) - np.cos(angle)], axis=1)  # the middle is cut in by the sag
    share = np.linspace(0, 1, rows + 1)[:, None]
    flat = np.stack(
        [edge[:, 0] + 0 * share, edge[:, 1] * (1 - share) - depth * share], axis=2
    ).reshape(-1, 2)  # fmt: skip
    number = np.arange(len(flat)).reshape(rows + 1, count + 1)
    a, b, c, d = number[:-1, :-1], number[:-1, 1:], number[1:, 1:], number[1:, :-1]
    halves = [(a, d, b), (b, d, c)]
    triangles = np.concatenate([np.stack([k.ravel() for k in corner], axis=1) for corner in halves])
    cloth = Membrane(triangles, flat[triangles], FabricLaw(1e4, 1e4, 0.0, 5e3, prestress=(PULL, PULL, 0.0)))
    cord = Cable(
        np.stack([number[0, :-1], number[0, 1:]], axis=1), ea,
        np.linalg.norm(np.diff(edge, axis=0), axis=1) / (1 + T / ea),
    )  # fmt: skip
    fixed = np.zeros((len(flat), 3), dtype=bool)
    fixed[number[-1]] = True
    fixed[number[:, [0, -1]].ravel()] = True
    start = np.column_stack([flat, 0 * flat[:, 0]])
    bend = start.copy()
    bend[:, 1] += 0.03 * np.sin(2 * np.pi * flat[:, 0] / CHORD) * np.repeat(1 - share.ravel(), count + 1)
    bend[:, 2] += 0.02 * np.cos(np.pi * flat[:, 0] / CHORD)
    state = relax(Structure(start, [cloth, cord], fixed=fixed), start=bend, tolerance=1e-9)
    assert state.converged, state.message
    assert edge[count // 2, 1] == pytest.approx(-sag, rel=1e-6)
    np.testing.assert_allclose(state.positions, start, atol=1e-6)
    np.testing.assert_allclose(state[cord].tension, 1022.5, rtol=1e-3)
    np.testing.assert_allclose(state[cloth].tension, PULL, rtol=1e-3)
