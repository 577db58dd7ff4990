"""How one sits across: what the rim presses, what the near cord bears, and where all turns over."""

from dataclasses import replace
from importlib.resources import files
from math import degrees

import numpy as np
import pytest
from click.testing import CliRunner
from rich.console import Console

from tautlay.cases import read_design, sit_across
from tautlay.cases.command import cli as command
from tautlay.cases.command.printing.across_table import print_across
from tautlay.cases.judging.comfort.rim import RimPush
from tautlay.cases.judging.comfort.swing import measure_roll_axis
from tautlay.cases.judging.forces import find_cord_tension
from tautlay.cases.studies.lying.across_sentences import make_across_sentences
from tautlay.cases.studies.lying.seat_stage import SeatStage
from tautlay.cases.studies.lying.seated_equilibrium import balance_sitter, let_go
from tautlay.cases.studies.lying.sitting_across import SittingAcross
from tautlay.hammock import LoadCase, example_hammock, example_person
from tautlay.meshing import build_model
from tautlay.meshing.sitting_across import seat_person
from tautlay.solver import relax

LARCH = str(files("tautlay.cases") / "larch_ridge.toml")
REACH = 0.3  # m of cord to either side of the seat that is cut out


class Bench:
    """Somebody who sits on a coarse mesh of the invented example."""

    def __init__(self, person):
        self.weight = person.mass * 9.80665
        spread, self.hung = (
            build_model(example_hammock(), person, 0.1, load=load) for load in (LoadCase.DISTRIBUTED, LoadCase.SITTING)
        )
        first = relax(spread.structure, tolerance=1e-4).positions
        self.spread = relax(self.hung.structure, start=first, tolerance=1e-6)
        self.model, self.start, self.first = seat_person(self.hung, self.spread.positions)
        self.axis = measure_roll_axis(self.hung, self.spread)

    def sit(self, place, before=None):
        found, end = balance_sitter(self.model, self.start, place, self.axis, before)
        assert end is None
        return found


@pytest.fixture(scope="module")
def bench():
    return Bench(example_person())


@pytest.fixture(scope="module")
def seats(bench):
    """At three places, 5 cm apart."""
    found = []
    for place in (0.0, 0.05, 0.1):
        found.append(bench.sit(place, found[-1] if found else None))
    return found


def test_nothing_outside_keeps_all_from_turning_over(bench, seats):
    """Statics: what hangs on two points rests with its centre of mass below the line through them."""
    for seat in seats:
        load, places = -seat.model.structure.load[:, 2], seat.state.positions
        assert load @ places[:, 1] / load.sum() == pytest.approx(0.0, abs=1e-3)
        assert seat.state.reactions[:, 2].sum() == pytest.approx(load.sum(), rel=1e-4)
        assert abs(seat.state[seat.model.elements["trunk hold"]].force) < 0.5
        assert abs(degrees(seat.stage.lean)) < 15.0


def test_cords_tilt_as_by_hand(seats):
    """The axis about which the cords roll comes from the spread weight alone, with nobody in contact."""
    tilts = [degrees(seat.stage.tilt) for seat in seats]
    assert tilts == sorted(tilts)
    assert tilts[-1] > tilts[0] + 10.0
    for seat, tilt in zip(seats, tilts, strict=True):
        assert degrees(seat.stage.tilt_by_hand) == pytest.approx(tilt, abs=3.0)


def test_near_cord_bears_what_the_lever_gives_it(bench, seats):
    """Moments by hand about the far cord, between two cuts."""
    for seat in seats:
        centre = seat.model.frame.masses @ seat.state.positions[seat.model.body] / seat.model.frame.masses.sum()
        near, far = (cut_out(seat, side, centre[0]) for side in ("left", "right"))
        lifted = near.pull[2] + far.pull[2]
        assert 0.85 * bench.weight < lifted < 1.02 * bench.weight  # cloth carries the rest on to the bars
        away = near.place - far.place
        hips = seat.state.positions[seat.model.nodes["person left hip"][0]] - far.place
        cloth = [0.0, -near.pull[1] - far.pull[1], bench.weight - lifted]  # what the cords leave, taken at the hips
        weight = bench.weight * (centre[1] - far.place[1]) - cloth[2] * hips[1] + cloth[1] * hips[2]
        by_hand = (weight + away[2] * near.pull[1]) / away[1]
        assert near.pull[2] == pytest.approx(by_hand, rel=0.05)
        assert abs(near.pull[1] + far.pull[1]) < 0.03 * bench.weight  # level, they hold each other, but for the cloth


class Cut:
    """What a cord, cut on both sides of the seat, pulls on what is between (3,), N, and where it is lowest (3,)."""

    def __init__(self, pull, place):
        self.pull, self.place = pull, place


def cut_out(seat, side, along):
    edge = seat.state.positions[seat.model.nodes[f"{side} edge"]]
    steps = np.diff(edge, axis=0)
    tension = find_cord_tension(seat.model, seat.state, side)[:, None] * steps / np.linalg.norm(steps, axis=1)[:, None]
    middle = (edge[1:, 0] + edge[:-1, 0]) / 2
    ends = [[np.interp(x, middle, tension[:, axis]) for axis in range(3)] for x in (along - REACH, along + REACH)]
    place = [np.interp(along, edge[:, 0], edge[:, axis]) for axis in range(3)]
    return Cut(np.array(ends[1]) - ends[0], np.array(place))


def test_near_cord_agrees_with_the_spread_weight_and_grows_to_the_front(bench, seats):
    cord = find_cord_tension(bench.hung, bench.spread, "left").max()
    assert seats[0].stage.near_cord == pytest.approx(cord, rel=0.05)
    assert [seat.stage.near_cord for seat in seats] == sorted(seat.stage.near_cord for seat in seats)
    assert seats[0].stage.near_cord > seats[0].stage.far_cord
    assert seats[0].stage.rim_height > seats[-1].stage.rim_height


def test_held_seat_is_the_slope_of_the_energy(bench, seats):
    """Castigliano over 5 mm to either side; leaning costs nothing where the trunk balances."""
    low, high = (bench.sit(place, seats[1]) for place in (0.045, 0.055))
    slope = (high.state.energy - low.state.energy) / 0.01
    hold = -float(seats[1].state[seats[1].model.elements["side hold"]].force)
    assert slope == pytest.approx(-hold, rel=0.15, abs=2.0)


def test_heavier_person_pulls_harder(seats):
    """100 instead of 80 kg."""
    heavy = Bench(replace(example_person(), mass=100.0)).sit(0.05)
    assert 1.15 < heavy.stage.near_cord / seats[1].stage.near_cord < 1.3


def test_clothing_holds_the_seat_and_smooth_clothing_does_not_at_the_edge(bench, seats):
    assert let_go(seats[1], 0.35) < 0.02
    place, seat = 0.1, seats[-1]
    while seat.stage.friction < 0.2:
        place += 0.025
        seat = bench.sit(place, seat)
    assert let_go(seat, 0.05) is None


def make_stage(place, friction, *, lean=-0.05, tilt=0.4, pressure=64e3):
    rim = RimPush(252.0, 906.0)
    return SeatStage(place, lean, 404.0, 274.0, rim, pressure, 0.569, tilt, 0.42, 0.17, friction, 0.19)


def make_across(**changes):
    stages = tuple(make_stage(place, friction) for place, friction in ((-0.1, 0.4), (0.0, 0.2), (0.1, 0.1), (0.2, 0.3)))
    told = "turns over with the hammock, to the front"
    return replace(SittingAcross(stages, told, None, 0.35, 374.0, 0.473, 1.2, 0.003), **changes)


def test_range_is_where_friction_suffices_by_hand():
    across = make_across()
    assert across.steadiest.place == 0.1
    assert across.find_range(0.3) == pytest.approx((-0.05, 0.2))
    assert across.find_range(0.2) == pytest.approx((0.0, 0.15))
    assert across.find_range(0.05) is None
    assert across.seat.place == 0.1  # midmost between -7.5 and 20 cm
    smooth = make_across(friction=0.0)
    assert smooth.find_range(0.0) is None
    assert smooth.seat == smooth.steadiest


def test_words():
    told = [str(sentence) for sentence in make_across_sentences(make_across())]
    assert told[1] == "The rim presses each thigh with 906 N/m, at most with about 60 kPa on squares of 5 cm."
    assert told[3].endswith("Let go where you sit, the seat slips 3 mm.")
    assert "person turns over with the hammock, to the front" in told[4]
    assert len(told) == 5
    smooth = [str(sentence) for sentence in make_across_sentences(make_across(friction=0.05, moved=None))]
    assert smooth[3].startswith("Clothing with a friction of 0.05 holds the seat nowhere: it takes 0.10.")
    free = [
        str(sentence) for sentence in make_across_sentences(make_across(front=None, back="lies across", moved=None))
    ]
    assert "slides off all the same" in free[3]
    assert free[4] == "Nothing turns over up to 20.0 cm left of the middle."
    assert free[5] == "With the hips 10.0 cm right of the middle the person lies across."


@pytest.mark.parametrize("units", ["metric", "imperial", "both"])
def test_table_is_no_wider_than_a_terminal(units):
    console = Console(record=True, width=200, file=None, force_terminal=False)
    with console.capture() as caught:
        print_across("A design", make_across(), units, console)
    lines = caught.get().splitlines()
    assert max(map(len, lines)) <= 80
    assert "…" not in caught.get()
    assert lines[0].split()[:2] == ["hips", "left"]


def test_command_tells_of_sitting_across_alone(monkeypatch):
    monkeypatch.setattr("tautlay.cases.studies.lying.sitting_across.sit_across", lambda *_, **__: make_across())
    outcome = CliRunner().invoke(command.main, ["sit", LARCH, "--quiet", "--way", "across"])
    assert outcome.exit_code == 0
    assert "sitting across to get in, facing left" in outcome.output
    assert "head bar" not in outcome.output


@pytest.mark.slow
def test_demonstration_turns_over_before_the_rim_is_below_the_centre_of_mass():
    """By hand the cords tilt by 69 degrees then; where all turned over the legs still took the rim along."""
    across = sit_across(read_design(LARCH), mesh_size=0.08)
    last = across.stages[-1]
    assert across.front == "turns over with the hammock, to the front"
    assert 0.75 * across.last_tilt < last.tilt < across.last_tilt
    assert 0.0 < last.centre_behind < 0.1
    for stage in across.stages:
        assert degrees(stage.tilt_by_hand) == pytest.approx(degrees(stage.tilt), abs=3.0)
    back, front = across.find_range(0.35)
    assert back < across.seat.place < front
    assert across.moved is not None
    assert across.moved < 0.01
    assert across.shape.occupant is not None
