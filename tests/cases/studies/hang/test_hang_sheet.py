"""Between which trees a hammock fits, and how to hang it between others."""

import json
from dataclasses import replace
from importlib.resources import files
from math import degrees, radians, sin

import pytest
from click.testing import CliRunner

from tautlay.cases import make_hang_sheet, read_design, solve_case
from tautlay.cases.command import cli as command
from tautlay.cases.judging.clearance import MARGIN
from tautlay.cases.studies.hang.hang_option import FLATTEST_FIT, STEEPEST_FIT, ImpossibleHang, find_spot
from tautlay.cases.studies.hang.other_trees import set_girth
from tautlay.making import Hitch, Tree, TreeStrap
from tautlay.materials import Cord, Webbing, read_library

LARCH, OTTER = (str(files("tautlay.cases") / f"{name}.toml") for name in ("larch_ridge", "otter_creek"))
MESH = 0.15


def change(design, **changes):
    """Return the design with other trees, or with both ends changed alike."""
    whole = {key: changes.pop(key) for key in ("hang_angle", "tree_distance") if key in changes}
    return design.hang(replace(design.hammock.suspension.change(changes), **whole))


@pytest.fixture(scope="module")
def design():
    return read_design(LARCH)


@pytest.fixture(scope="module")
def sheet(design):
    return make_hang_sheet(design, mesh_size=MESH)


# T / W = 1 / (2 sin a): statics of a weight between two lines; rows of 20, 25, 30, 35 and 45 degrees.
@pytest.mark.parametrize(
    ("angle", "share"), [(20, 1.4619022), (25, 1.1831008), (30, 1.0), (35, 0.8717234), (45, 0.7071068)]
)
def test_lines_pull_as_the_angle_says(design, angle, share):
    kept = solve_case(change(design, hang_angle=radians(angle)), mesh_size=MESH, hot_spots=False)
    spot = find_spot(kept)
    weight = 9.80665 * (64.0 + kept.model.mass)
    assert degrees(spot.angle) == pytest.approx(angle, abs=0.06)
    exact = 1 / (2 * sin(spot.angle))
    assert exact == pytest.approx(share, rel=5e-3)
    assert (spot.head_pull + spot.foot_pull) / 2 / weight == pytest.approx(exact, rel=1e-2)


@pytest.mark.slow
def test_farther_trees_hang_it_flatter_higher_and_harder(sheet):
    spots = sheet.spots
    assert len(spots) == 7
    for key, sign in (("angle", -1), ("head_pull", 1), ("clearance", 1), ("sag", -1), ("seat", 1)):
        values = [sign * getattr(spot, key) for spot in spots]
        assert values == sorted(values), key


@pytest.mark.slow
def test_it_fits_over_the_whole_range_and_not_beyond(design, sheet):
    assert all(spot.fits for spot in sheet.spots)
    near, far = sheet.reach
    outside = make_hang_sheet(design, [near - 0.03, far + 0.03], mesh_size=MESH)
    assert [spot.verdict for spot in outside.spots] == ["TOO LOW", "TOO WEAK"]
    assert outside.reach == pytest.approx(sheet.reach, abs=0.011)
    assert sheet.spots[0].clearance == pytest.approx(MARGIN, abs=0.02)
    last, beyond = sheet.spots[-1], outside.spots[-1]
    assert last.tightest.found == pytest.approx(5.0, rel=0.01)  # of cords and splices, the factor required
    assert 1.0 < beyond.utilisation < 1.05
    assert beyond.tightest.demand > last.tightest.demand


@pytest.mark.slow
def test_strong_parts_leave_only_the_angle_to_limit_it(design):
    light = replace(design, person=replace(design.person, mass=45.0))
    sheet = make_hang_sheet(light, mesh_size=MESH)
    assert FLATTEST_FIT < sheet.spots[-1].angle < FLATTEST_FIT + radians(1)


@pytest.mark.slow
def test_high_straps_leave_only_the_angles_to_limit_it(design):
    high = make_hang_sheet(change(design, strap_height=2.6), mesh_size=MESH)
    assert high.spots[0].angle == pytest.approx(STEEPEST_FIT, abs=radians(1))
    assert high.reach[0] < 4.0


@pytest.mark.slow
def test_straps_on_the_ground_fit_nowhere(design):
    low = make_hang_sheet(change(design, strap_height=0.5), [4.2], mesh_size=MESH)
    assert low.reach is None
    assert low.spots[0].verdict == "BELOW GROUND"


@pytest.mark.slow
@pytest.mark.parametrize("distance", [3.9, pytest.param(4.9, marks=pytest.mark.slow)])
def test_rehung_between_other_trees_it_hangs_the_same(design, distance):
    """Straight lines: angle, clearance and pulls stay; solved anew."""
    sheet = make_hang_sheet(design, [distance], angle=radians(28), clearance=0.5, mesh_size=MESH)
    (way,) = sheet.rehangs
    assert way.possible
    again = design.hang(
        design.hammock.suspension.between(distance).change(
            {"line_length": way.line, "strap_height": way.head_strap},
            {"line_length": way.foot_line, "strap_height": way.foot_strap},
        )
    )
    spot = find_spot(solve_case(again, mesh_size=MESH, hot_spots=False))
    assert degrees(spot.angle) == pytest.approx(28, abs=0.15)
    assert spot.clearance == pytest.approx(0.5, abs=0.005)
    assert spot.head_pull == pytest.approx(sheet.kept.head_pull, rel=5e-3)
    assert spot.sag == pytest.approx(sheet.kept.sag, abs=0.005)


@pytest.mark.slow
def test_trees_carry_all_the_weight_at_every_distance(design, sheet):
    """Pull of both lines, upward parts together: overall statics."""
    spot = sheet.spots[3]
    result = solve_case(change(design, hang_angle=None, tree_distance=spot.distance), mesh_size=MESH, hot_spots=False)
    down = -result.anchors.head_tree[2] - result.anchors.foot_tree[2]
    assert down == pytest.approx(9.80665 * (64.0 + result.model.mass), rel=1e-3)
    assert spot.head_pull == pytest.approx(find_spot(result).head_pull, rel=2e-3)


@pytest.mark.slow
def test_trees_out_of_reach_are_told_apart(design):
    sheet = make_hang_sheet(design, [1.9, 6.0], mesh_size=MESH)
    assert all(isinstance(spot, ImpossibleHang) for spot in sheet.spots)
    assert "reach only" in sheet.spots[1].reason
    assert not sheet.rehangs[0].possible


def test_thicker_trunk_takes_from_the_strap(design):
    cord, webbing = (
        read_library().find(Cord, "12-strand UHMWPE 2.5 mm"),
        read_library().find(Webbing, "polyester 1 in, 25 g/m"),
    )
    strapped = change(design, line=cord, tree=Tree(1.1, TreeStrap(webbing, 1.6, Hitch.GIRTH)))
    thick, thin = set_girth(strapped, 1.3), set_girth(strapped, 0.9)
    lines = [each.hammock.suspension.head.line_length for each in (thick, strapped, thin)]
    assert lines == pytest.approx([0.6, 0.8, 1.0])
    with pytest.raises(ValueError, match="does not reach round"):
        set_girth(strapped, 1.7)
    with pytest.raises(ValueError, match="has no separate strap"):
        set_girth(design, 1.0)


SOME = ("--distance", "10.5 ft", "--distance", "11.6 ft to 15 ft")  # from below ground to out of reach


def run(*arguments):
    return CliRunner().invoke(command.main, ["hang", *arguments])


@pytest.mark.slow
@pytest.mark.parametrize(("units", "wanted", "foreign"), [("metric", " cm", " lbf"), ("imperial", " lbf", " cm")])
def test_command_prints_a_sheet_of_80_columns(tmp_path, units, wanted, foreign):
    file = tmp_path / "sheet.json"
    outcome = run(OTTER, *SOME, "--units", units, "--json", str(file), "--strict")
    assert outcome.exit_code == 1, outcome.output  # not everywhere it fits
    lines = [line for line in outcome.stdout.splitlines() if not line.startswith("Written to")]
    assert max(map(len, lines)) <= 80
    assert "…" not in outcome.stdout
    assert wanted in outcome.stdout
    assert foreign not in outcome.stdout
    assert outcome.stderr == ""
    for words in ("BELOW GROUND", "TOO LOW", "yes", "TOO WEAK", "TOO FLAT", "CANNOT HANG"):
        assert words in outcome.stdout
    (found,) = json.loads(file.read_text(encoding="utf-8"))["sheets"]
    assert [spot["fits"] for spot in found["as_it_is"]] == [False, False, False, True, False, False, False]
    assert found["as_it_is"][0]["tree_distance_m"] == pytest.approx(10.5 * 0.3048)
    assert found["fits_from_m"] < found["fits_to_m"]


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["--distance", "4"], "unit"),
        (["--distance", "4 km"], "largest plausible tree distance"),
        (["--distance", "4 m to far"], "far"),
        (["--girth", "1 m"], "no separate strap"),
        (["--angle", "85 deg"], "between 0 and 80"),
        (["--clearance", "high"], "high"),
        (["--units", "ells"], "ells"),
        (
            ["--distance", "3 m to 4 m"] * 1 + [x for n in range(35) for x in ("--distance", f"{300 + n} cm")],
            "too many",
        ),
    ],
)
def test_wrong_options_are_refused_in_a_sentence(arguments, words):
    outcome = run(LARCH, *arguments)
    assert outcome.exit_code == 2
    assert words in outcome.output
    assert "Traceback" not in outcome.output


def test_angle_out_of_reach_ends_without_an_equilibrium():
    outcome = run(LARCH, "--angle", "5 deg")
    assert outcome.exit_code == 3, outcome.output
    assert "Traceback" not in outcome.output
