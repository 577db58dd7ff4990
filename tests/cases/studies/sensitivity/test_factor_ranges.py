"""Between what the factors of the checks lie, and which input is most worth measuring."""

import json
from dataclasses import replace
from importlib.resources import files
from math import exp, hypot, log, pi

import pytest
from click.testing import CliRunner

from tautlay.cases import NoEquilibriumError, find_factor_ranges, read_design, solve_case
from tautlay.cases.command import cli as command
from tautlay.cases.judging.checks import Check
from tautlay.cases.judging.checks.check import name_part
from tautlay.cases.judging.sensitivity.factor_range import FactorRange, InputEffect
from tautlay.cases.judging.sensitivity.home_tests import TESTS
from tautlay.cases.judging.sensitivity.material_replacement import swap_material
from tautlay.cases.judging.sensitivity.range_input import Input, list_mechanical
from tautlay.cases.studies.scatter import how_sure
from tautlay.cases.studies.sensitivity import variation
from tautlay.cases.studies.sensitivity.tracked_checks import choose_checks, run_checks
from tautlay.hammock import Attachment
from tautlay.making import FACTORS, Capacity
from tautlay.materials import CATEGORIES, Fabric, read_library
from tautlay.materials.material import list_quantities

HOME = files("tautlay.cases")
LARCH = str(HOME / "larch_ridge.toml")
MESH = 0.15


def give_range(material, **ranges):
    """Return a material with other ranges, None for not known."""
    origins = {key: replace(material.provenance[key], range=spread) for key, spread in ranges.items()}
    return replace(material, provenance={**material.provenance, **origins})


def put_material(design, old, new):
    hammock, work = swap_material(design.hammock, old, new), swap_material(design.workmanship, old, new)
    return replace(design, hammock=hammock, workmanship=work)


def forget_stiffness(design):
    """Return a design in which no stiffness has a range, so that nothing has to be solved."""
    for place in range(len(list_mechanical(design.hammock))):
        source = list_mechanical(design.hammock)[place]
        design = put_material(design, source.material, give_range(source.material, **{source.field: None}))
    return design


@pytest.fixture(scope="module")
def design():
    return read_design(LARCH)


@pytest.fixture(scope="module")
def result(design):
    return solve_case(design, mesh_size=MESH, hot_spots=False)


@pytest.fixture(scope="module")
def lines():
    return []


@pytest.fixture(scope="module")
def ranges(result, lines):
    return find_factor_ranges(result, progress=lines.append)


def find_band(ranges, part):
    (band,) = (band for band in ranges.ranges if band.check.part == part)
    return band


def find_ends(band, title):
    (effect,) = (effect for effect in band.effects if effect.source.title == title)
    return dict(effect.factors)


# A prototype of this program, with cords that slide: 306 N at 1000 N/m (coated cloth), 388 N at 30 N/m (uncoated).
PROTOTYPE = 388 / 306


@pytest.mark.parametrize(("attachment", "low", "high"), [("free", 1.2, 1.35), ("sewn", 1.05, 1.2)])
def test_soft_shear_pulls_the_side_cord_harder(design, attachment, low, high):
    """Between the same trees; cloth sewn to its cord along the whole edge shares the pull and gives less."""
    channel = replace(design.hammock.channel, attachment=Attachment(attachment))
    free = replace(design, hammock=replace(design.hammock, channel=channel))
    fabric = design.hammock.body.fabric
    stiff = solve_case(put_material(free, fabric, replace(fabric, shear=1000.0)), mesh_size=MESH, hot_spots=False)
    soft_design = put_material(free, fabric, replace(fabric, shear=30.0)).hang_between(stiff.model.tree_distance)
    soft = solve_case(soft_design, mesh_size=MESH, hot_spots=False, start=stiff)
    ratio = soft.summary["forces"]["side_cord_left_max_N"] / stiff.summary["forces"]["side_cord_left_max_N"]
    assert low < ratio < high
    assert attachment != "free" or ratio == pytest.approx(PROTOTYPE, rel=0.06)


def test_warm_solve_finds_what_a_cold_one_finds(design, result):
    fabric = design.hammock.body.fabric
    varied = put_material(design.hang_between(result.model.tree_distance), fabric, replace(fabric, shear=17.0))
    warm = solve_case(varied, mesh_size=MESH, hot_spots=False, start=result)
    cold = solve_case(varied, mesh_size=MESH, hot_spots=False)
    for name, force in cold.summary["forces"].items():
        assert warm.summary["forces"][name] == pytest.approx(force, rel=1e-4), name
    assert warm.iterations < cold.iterations


def test_solved_ends_are_those_of_a_solve_of_their_own(design, result, ranges):
    fabric, band = design.hammock.body.fabric, find_band(ranges, "head line")
    ends = find_ends(band, "shear stiffness, ripstop nylon 37 g/m2")
    assert set(ends) == {17.0, 169.0}
    for shear, factor in ends.items():
        varied = put_material(design.hang_between(result.model.tree_distance), fabric, replace(fabric, shear=shear))
        force = solve_case(varied, mesh_size=MESH, hot_spots=False).summary["forces"]["head_line_N"]
        assert factor == pytest.approx(band.check.capacity.value / force, rel=1e-4)
    assert ends[17.0] < band.check.found < ends[169.0]


def test_ends_of_strengths_and_shares_are_those_of_a_hand_computation(ranges):
    """Strap of 5.9 kN, 5.3 to 6.7; a hitch keeps 66 to 80 %, 70 % taken: the library and the table of ends."""
    band = find_band(ranges, "head line")
    carries = band.check.demand
    assert band.check.found == pytest.approx(0.7 * 5900 / carries)
    strength = find_ends(band, "breaking load, polyester 1 in, 25 g/m")
    assert strength == pytest.approx({5300.0: 0.7 * 5300 / carries, 6700.0: 0.7 * 6700 / carries})
    assert find_ends(band, "girth hitch, share kept") == pytest.approx(
        {end: end * 5900 / carries for end in (0.66, 0.8)}
    )
    leg = next(band for band in ranges.ranges if "leg" in band.check.part)
    assert find_ends(leg, "adjustable splice, share kept") == pytest.approx({0.8: leg.check.found * 0.8 / 0.6})
    cord = find_ends(leg, "breaking load, 12-strand UHMWPE 2 mm")
    assert cord == pytest.approx({3800.0: leg.check.found * 3800 / 4448.22, 4700.0: leg.check.found * 4700 / 4448.22})


def test_a_band_is_put_together_from_all_shifts(ranges):
    band = find_band(ranges, "head line")
    down = [max(0, *(-log(f / band.check.found) for _, f in effect.factors)) for effect in band.effects]
    up = [max(0, *(log(f / band.check.found) for _, f in effect.factors)) for effect in band.effects]
    assert band.least == pytest.approx(band.check.found * exp(-(sum(each**2 for each in down) ** 0.5)))
    assert band.most == pytest.approx(band.check.found * exp(sum(each**2 for each in up) ** 0.5))
    assert band.worst == pytest.approx(band.check.found * exp(-sum(down)))
    assert band.worst < band.least < band.check.found < band.most


def make_band(*effects):
    """Return a band of a factor of 4 with inputs that change it by the ratios given."""
    sources = [Input(f"input {n}", 1.0, (0.5, 2.0), "ratio", "end") for n in range(len(effects))]
    check = Check("line", "breaks", 1.0, Capacity(4.0, "force", ()), FACTORS["cord"])
    pairs = zip(sources, effects, strict=True)
    return FactorRange(check, tuple(InputEffect(s, ((0.5, 4 * low), (2.0, 4 * high))) for s, (low, high) in pairs))


def test_combined_band_of_a_hand_example():
    """Shifts of 0.3 and 0.4 downward make 0.5; upward 0.05 and 0.12 make 0.13; at once they make 0.7."""
    band = make_band((exp(-0.3), exp(0.05)), (exp(0.12), exp(-0.4)))
    assert band.least == pytest.approx(4 * exp(-0.5))
    assert band.most == pytest.approx(4 * exp(0.13))
    assert band.worst == pytest.approx(4 * exp(-0.7))
    # without the second 0.3 + 0.05 of 0.63 are left, without the first 0.4 + 0.12
    first, second = band.effects
    assert band.find_share(first) == pytest.approx(1 - 0.52 / 0.63)
    assert band.find_share(second) == pytest.approx(1 - 0.35 / 0.63)
    assert band.worth_measuring == second.source
    assert band.ranked == (second, first)


def test_an_input_that_lowers_at_both_ends_counts_with_the_worse():
    band = make_band((0.9, 0.8))
    assert (band.least, band.most) == pytest.approx((3.2, 4.0))


def test_the_input_named_narrows_the_band_most(ranges):
    for band in ranges.ranges:
        widths = {}
        for out in band.effects:
            shifts = [effect.find_shift(band.check.found) for effect in band.effects if effect is not out]
            widths[out.source] = hypot(*(a for a, _ in shifts)) + hypot(*(b for _, b in shifts))
        assert band.worth_measuring == min(widths, key=widths.get)
    assert ranges.ranges[0].worth_measuring.title == "adjustable splice, share kept"


def test_least_margins_one_of_a_part_are_looked_at(result, ranges):
    margins = [band.check.margin for band in ranges.ranges]
    assert len(margins) == 5
    assert margins == sorted(margins)
    assert margins[0] == result.findings.checks[0].margin
    names = [band.check.part for band in ranges.ranges]
    assert len([name for name in names if "head leg" in name]) == 1


def test_only_what_depends_on_the_rim_is_solved_with_a_fine_one(design):
    """Cloth, seams and side cords do; legs, lines and bars do not, and are five here."""
    found = run_checks(solve_case(design, mesh_size=0.15).case)
    rim = {name_part(key.part).split(",")[0] for key in found if key.needs_rim}
    assert rim == {"cloth", "channel", "side cord", "head corner", "foot corner"}
    assert not any(key.needs_rim for key in choose_checks(found, 5))


def test_progress_counts_the_solves(ranges, lines):
    assert ranges.solves == 13  # as it is, and both ends of four stiffnesses of the cloth, of cord and strap
    assert lines[0].startswith("uncertainty, 1 of 13: unchanged")
    assert lines[-1].startswith("uncertainty, 13 of 13: ")


@pytest.mark.slow
def test_inputs_without_a_range_are_told(design, ranges):
    """Aluminium tubes of the library have no range, so that the bars' ranges are not all there is."""
    unknown = {str(source.title) for source in find_band(ranges, "foot bar").unknown}
    assert {"modulus, 7075-T6 12 x 0.8 mm", "wall, 7075-T6 12 x 0.8 mm"} <= unknown
    assert not find_band(ranges, "head line").unknown
    bare = solve_case(forget_stiffness(design), mesh_size=MESH, hot_spots=False)
    found = find_factor_ranges(bare)
    assert (found.solves, found.triangles) == (0, 0)
    titles = {str(source.title) for source in found.unknown}
    assert {"shear stiffness, ripstop nylon 37 g/m2", "stiffness, polyester 1 in, 25 g/m"} <= titles
    tested = replace(bare.design.workmanship.head_rigging.line_at_tree, keeps=0.74)
    rigging = replace(bare.design.workmanship.head_rigging, line_at_tree=tested)
    work = replace(bare.design.workmanship, head_rigging=rigging, foot_rigging=rigging)
    own = find_factor_ranges(replace(bare, design=replace(bare.design, workmanship=work)))
    assert "girth hitch, share kept" in {source.title for source in own.unknown}


def test_bar_of_another_modulus_is_still_the_same_check(design, result):
    """Euler's load goes with the modulus and bounds what the bar bears, whatever its failure is then called."""
    bare = forget_stiffness(design)
    old = bare.hammock.foot_bar.section
    ranged = give_range(old, modulus=(0.5 * old.modulus, 2 * old.modulus))
    hammock = replace(bare.hammock, foot_bar=replace(bare.hammock.foot_bar, section=ranged))
    changed = replace(result, design=replace(bare, hammock=hammock), model=replace(result.model, hammock=hammock))
    band = find_band(find_factor_ranges(changed), "foot bar")
    ends = find_ends(band, "modulus, 7075-T6 12 x 0.8 mm")
    euler = pi**2 * old.ei / bare.hammock.foot_bar.length**2 / band.check.demand
    assert band.complete
    assert ends[0.5 * old.modulus] < min(band.check.found, 0.5 * euler)
    assert band.check.found < ends[2 * old.modulus] < 2 * euler


@pytest.mark.slow
def test_an_end_that_finds_no_rest_is_a_row_with_its_reason(result, ranges, monkeypatch):
    solve = variation.solve_equilibrium

    def fail(design, **options):
        if design.hammock.body.fabric.shear == 17.0:
            raise NoEquilibriumError("No equilibrium found on 100 triangles.")
        return solve(design, **options)

    monkeypatch.setattr(variation, "solve_equilibrium", fail)
    found = find_factor_ranges(result, most=3)
    (failure,) = found.failures
    assert (failure.end, failure.reason) == (17.0, "No equilibrium found on 100 triangles.")
    band = find_band(found, "head line")
    assert not band.complete
    assert find_ends(band, failure.source.title)[17.0] is None
    whole = find_band(ranges, "head line")
    assert band.most == pytest.approx(whole.most)
    assert band.least > whole.least


def test_an_end_that_contradicts_the_material_is_a_row_with_its_reason(result):
    body = result.design.hammock.body
    wild = replace(body, fabric=give_range(body.fabric, poisson=(0.0, 1.5)))
    hammock = replace(result.design.hammock, body=wild)
    found = find_factor_ranges(replace(result, design=replace(result.design, hammock=hammock)), most=1)
    (failure,) = found.failures
    assert failure.end == 1.5
    assert "poisson = 1.5 must stay below" in failure.reason


def test_a_coarse_mesh_that_finds_no_rest_leaves_every_stiffness_unknown(result, monkeypatch):
    def fail(design, **options):
        raise NoEquilibriumError("No equilibrium found.")

    monkeypatch.setattr(variation, "solve_equilibrium", fail)
    found = find_factor_ranges(result, most=1)
    assert len(found.failures) == 12
    assert not found.ranges[0].complete


def test_every_input_says_how_it_could_be_measured():
    for category, record in CATEGORIES.items():
        for item in list_quantities(record):
            if "mass" not in item.metadata["dimension"] and item.name not in ("density", "elongation"):
                assert f"{category}.{item.name}" in TESTS


@pytest.mark.parametrize("name", ["ripstop nylon 37 g/m2", "cotton lawn 80 g/m2", "coated ripstop nylon 45 g/m2"])
def test_a_bias_strip_gives_the_shear_stiffness(name):
    """Pull F over width w stretches a strip at 45 degrees by e; F / (4 w e) is the shear stiffness.

    Stiffness of orthotropic sheet off its axes, R. M. Jones, Mechanics of Composite Materials (1975), ch. 2, from memory.
    """
    cloth = read_library().find(Fabric, name)
    gives = (1 / cloth.warp + 1 / cloth.weft - 2 * cloth.poisson / cloth.warp + 1 / cloth.shear) / 4
    pull = 0.04 * 9.80665 / 0.05
    assert pull / (4 * pull * gives) == pytest.approx(cloth.shear, rel=0.05)


def run(*arguments):
    return CliRunner().invoke(command.main, [str(each) for each in arguments])


@pytest.mark.slow
def test_command_tells_how_sure_it_is_and_strict_looks_at_the_factor_found_alone(tmp_path, result):
    """A cord whose least factor falls below the 6 that are asked, while the one found does not."""
    text = (HOME / "larch_ridge.toml").read_text(encoding="utf-8")
    design = tmp_path / "design.toml"
    design.write_text(text + "\n[factors]\ncord = 6.0\n", encoding="utf-8")
    options = ("--mesh-size", "15 cm", "--no-picture", "--strict", "--how-sure")
    outcome = run("solve", design, "-o", tmp_path / "out", *options)
    assert outcome.exit_code == 0, outcome.output
    assert "UNCERTAIN" in outcome.stdout
    assert result.summary["how_sure"] is None  # not asked
    assert all(len(line) <= 80 for line in outcome.stdout.splitlines() if str(tmp_path) not in line)
    text = " ".join(outcome.stdout.split())
    assert "Measure this first: adjustable splice, share kept. If it had exactly its nominal value" in text
    assert "No range known, assumed exact: " in text
    kept = json.loads((tmp_path / "out" / "result.json").read_text(encoding="utf-8"))
    sure = kept["how_sure"]
    assert sure["measure_first"]["input"] == "adjustable splice, share kept"
    assert sure["measure_first"]["how_source"] == "common practice, no source"
    for told in sure["checks"]:
        assert told["safety_factor_worst"] <= told["safety_factor_least"] <= told["safety_factor_found"]
        assert told["safety_factor_found"] <= told["safety_factor_most"]
        shares = [each["share_of_band"] for each in told["inputs"]]
        assert shares == sorted(shares, reverse=True)


def test_stopping_it_leaves_nothing_behind(tmp_path, monkeypatch):
    def stop(*arguments, **options):
        raise KeyboardInterrupt

    monkeypatch.setattr(how_sure, "find_factor_ranges", stop)
    outcome = run("solve", LARCH, "-o", tmp_path / "out", "--mesh-size", "15 cm", "--no-picture", "--how-sure")
    assert outcome.exit_code == 130
    assert list(tmp_path.iterdir()) == []
