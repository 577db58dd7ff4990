"""Bars of several parts: read from a design file, solved, and held against their thrust."""

from importlib.resources import files
from pathlib import Path

import numpy as np
import pytest

from tautlay.cases import DesignError, read_design, solve_case
from tautlay.making import ThrustPath
from tautlay.materials import RodSection, read_library

HOME = Path(str(files("tautlay.cases")))
GOOD = (HOME / "larch_ridge.toml").read_text(encoding="utf-8")
INCH = 0.0254
HEAD = 'section = "7075-T6 16 x 1 mm"\n'
PARTS = """
[[head_bar.part]]
name = "pole"
section = "walking-pole section 7075-T6 18 x 1 mm"
length = "84 cm"
carried = true
weighed = "210 g"

[[head_bar.part]]
like = "yellow birch dowel 5/8 in"
diameter = "15.5 mm"
length = "12 cm"
overlap = "6 cm"
rests_on = "lock"
holding_force = "900 N"
joint_stiffness = "10 N m/deg"

"""


def write_design(folder, parts=PARTS, text=GOOD):
    assert HEAD in text
    start, end = text.index("[head_bar]"), text.index("[foot_bar]")
    bar = text[start:end].replace(HEAD, "") + parts
    path = folder / "pole.toml"
    path.write_text(text[:start] + bar + text[end:], encoding="utf-8")
    return path


def list_faults(path):
    with pytest.raises(DesignError) as caught:
        read_design(path)
    return caught.value.faults


def test_parts_are_read_in_si(tmp_path):
    design = read_design(write_design(tmp_path))
    pole, rod = design.hammock.head_bar.section
    assert (pole.noun, pole.carried, pole.mass) == ("pole", True, pytest.approx(0.21))
    assert (rod.section.diameter, rod.overlap, rod.play) == (pytest.approx(0.0155), pytest.approx(0.06), None)
    assert (rod.rests_on, rod.holding_force) == (ThrustPath.LOCK, 900.0)
    assert rod.joint_stiffness == pytest.approx(10 * 180 / np.pi)
    birch = read_library().find(RodSection, "yellow birch dowel 5/8 in")
    assert (rod.section.modulus, rod.section.provenance["modulus"]) == (birch.modulus, birch.provenance["modulus"])
    assert "diameter" not in rod.section.provenance  # the design's own
    assert design.sources["head_bar.part.1"] == pole.section
    assert design.hammock.foot_bar.section == design.sources["foot_bar.section"]


def test_one_section_and_one_part_are_the_same_bar(tmp_path):
    one = read_design(HOME / "larch_ridge.toml").hammock.head_bar
    part = '\n[[head_bar.part]]\nsection = "7075-T6 16 x 1 mm"\nlength = "90 cm"\n\n'
    other = read_design(write_design(tmp_path, part)).hammock.head_bar
    assert (other.build, other.build.mass) == (one.build, one.build.mass)
    assert other.ea == pytest.approx(one.ea, rel=1e-12)


@pytest.mark.parametrize(
    ("old", "new", "key", "words"),
    [
        ('length = "84 cm"', 'length = "80 cm"', "head_bar.length", "together are 86.00 cm (33.86 in) long, but the bar is"),
        ('length = "84 cm"\n', "", "head_bar.part.1.length", "is missing: length of the part"),
        ('length = "84 cm"', 'lenght = "84 cm"', "head_bar.part.1.lenght", "Did you mean length?"),
        ('length = "84 cm"', "length = 84", "head_bar.part.1.length", "in quotes"),
        ('"walking-pole section 7075-T6 18 x 1 mm"', '"walking-pole"', "head_bar.part.1.section", "not a tube or rod"),
        ('diameter = "15.5 mm"\n', "", "head_bar.part.2.like", "outer_diameter, wall or diameter is missing"),
        ('diameter = "15.5 mm"', 'diameter = "16.5 mm"', "head_bar.part.2.overlap", "0.500 mm (0.0197 in) thicker than the bore"),
        ('diameter = "15.5 mm"', 'wall = "1 mm"', "head_bar.part.2.wall", "does not belong to a rod. Its size is diameter"),
        ('like = "yellow', 'section = "yellow', "head_bar.part.2.diameter", "Write like instead of section"),
        ('like = "yellow', 'section = "yellow birch dowel 5/8 in"\nlike = "yellow', "head_bar.part.2.like", "conflicts"),
        ('like = "yellow birch dowel 5/8 in"\ndiameter = "15.5 mm"\n', "", "head_bar.part.2", "section or like is missing"),
        ('overlap = "6 cm"\n', "", "head_bar.part.2.rests_on", "has no overlap, so rests_on has no meaning"),
        ('overlap = "6 cm"', 'overlap = "6 cm"\nplay = "2 mm"', "head_bar.part.2.play", "the diameters give 0.500 mm"),
        ('section = "walking-pole', 'outer_diameter = "8 mm"\nwall = "5 mm"\nlike = "walking-pole', "head_bar.part.1.wall", "half of outer_diameter"),
        ('rests_on = "lock"\n', "", "head_bar.part.2.holding_force", "needs rests_on"),
        ('rests_on = "lock"', 'rests_on = "locks"', "head_bar.part.2.rests_on", "Choose plug, rim or lock"),
        ("carried = true", 'carried = "yes"', "head_bar.part.1.carried", "must be true or false"),
        ("carried = true", 'carried = true\noverlap = "1 cm"', "head_bar.part.1.overlap", "has no effect on the first part"),
        ("carried = true", 'carried = true\ntaper_to = "90 mm"', "head_bar.part.1.taper_to", "must be between"),
        ('joint_stiffness = "10 N m/deg"', 'joint_stiffness = "10 N m"', "head_bar.part.2.joint_stiffness", "400 N m/rad"),
    ],
)  # fmt: skip
def test_fault_of_a_part_has_its_line(tmp_path, old, new, key, words):
    assert old in PARTS
    path = write_design(tmp_path, PARTS.replace(old, new, 1))
    faults = [fault for fault in list_faults(path) if fault.key == key and words in fault.message]
    assert len(faults) == 1, list_faults(path)
    line = path.read_text(encoding="utf-8").split("\n")[faults[0].line - 1]
    last = key.rpartition(".")[2]
    assert line.startswith(last) or line == "[[head_bar.part]]"


def test_section_and_parts_exclude_each_other_and_one_is_needed(tmp_path):
    both = tmp_path / "both.toml"
    both.write_text(GOOD.replace("[foot_bar]", PARTS + "[foot_bar]"), encoding="utf-8")
    (fault,) = list_faults(both)
    assert (fault.key, "conflicts with" in fault.message) == ("head_bar.part", True)
    (fault,) = list_faults(write_design(tmp_path, "\n"))
    assert (fault.key, fault.message.startswith("section or part is missing")) == ("head_bar", True)


def test_a_single_table_where_a_list_is_needed(tmp_path):
    faults = list_faults(
        write_design(tmp_path, PARTS.split("\n\n")[0].replace("[[head_bar.part]]", "[head_bar.part]") + "\n\n")
    )
    assert any("Begin each with a line [[head_bar.part]]" in fault.message for fault in faults), faults


@pytest.fixture(scope="module")
def solved(tmp_path_factory):
    return solve_case(read_design(write_design(tmp_path_factory.mktemp("pole"))), mesh_size=0.1, hot_spots=False)


def test_demand_is_the_thrust_that_statics_asks_for(solved):
    """Free body of each corner: side cord, cloth and leg pull it inward as hard as the bar pushes, to 0.5 %."""
    model, x = solved.model, solved.state.positions
    cloth = np.zeros_like(x)
    model.elements["body"].add_force(x, cloth)
    for end in ("head", "foot"):
        across = []
        for side in ("left", "right"):
            corner, edge = model.nodes[f"{end} {side} corner"][0], model.nodes[f"{side} edge"]
            neighbour = edge[1] if end == "head" else edge[-2]
            cord = solved.state[model.elements[f"{side} side cord"]].tension[0 if end == "head" else -1]
            leg = solved.state[model.elements[f"{end} {side} leg"]].tension[0]
            pull = np.zeros(3)
            for tension, node in ((cord, neighbour), (leg, model.nodes[f"{end} apex"][0])):
                pull += tension * (x[node] - x[corner]) / np.linalg.norm(x[node] - x[corner])
            across.append(pull[1] + cloth[corner, 1])
        demand = {check.demand for check in solved.findings.checks if check.part == f"{end} bar"}
        assert len(demand) == 1
        assert -across[0] == pytest.approx(demand.pop(), rel=5e-3)
        assert across[1] == pytest.approx(-across[0], rel=5e-3)


def test_each_mechanism_is_a_check_with_its_factor(solved):
    head = {check.mechanism: check for check in solved.findings.checks if check.part == "head bar"}
    assert {"buckles", "pole lock slips", "breaks at tube mouth", "crushes at end"} <= set(head)
    assert head["buckles"].asked.kind == "wood"  # metal and wood buckle together: the larger factor
    assert head["pole lock slips"].asked.kind == "hold"
    assert head["pole lock slips"].capacity.basis == "stated"
    assert all(check.asked.kind == "metal" for check in solved.findings.checks if check.part == "foot bar")
    assert not any(each.part.endswith("bar") for each in solved.findings.unchecked)


def test_summary_tells_the_way_of_the_thrust_and_what_is_carried(solved):
    bar, weights = solved.summary["bars"]["head_bar"], solved.summary["weights"]
    assert bar["path"].startswith(
        "cord - pole (walking-pole section 7075-T6 18 x 1 mm, 84.0 cm) - 6.00 cm inside, through"
    )
    assert bar["path"].endswith("The thrust goes through the pole lock of part 2.")
    assert (bar["carried_anyway_kg"], weights["carried_anyway_kg"]) == (pytest.approx(0.21), pytest.approx(0.21))
    assert weights["parts_kg"]["head bar, part 1"] == pytest.approx(0.21)
    assert solved.model.mass == pytest.approx(sum(weights["parts_kg"].values()))


def test_forces_hardly_depend_on_how_the_bar_is_made(solved):
    plain = solve_case(read_design(HOME / "larch_ridge.toml"), mesh_size=0.1, hot_spots=False).summary["forces"]
    for key, force in solved.summary["forces"].items():
        assert force == pytest.approx(plain[key], rel=5e-3), key


def test_joint_that_is_not_told_is_not_checked(tmp_path):
    silent = PARTS.replace('rests_on = "lock"\nholding_force = "900 N"\n', "")
    result = solve_case(read_design(write_design(tmp_path, silent)), mesh_size=0.15, hot_spots=False)
    (reason,) = [each.reason for each in result.findings.unchecked if each.part == "head bar"]
    assert 'Add rests_on = "plug", "rim" or "lock"' in reason


def test_pole_of_36_inches_holds(tmp_path):
    """A walking pole with a rod of 5 in. Common practice, no source: 4 1/2 to 5 in of rod for a bar of 36 in."""
    text = (HOME / "otter_creek.toml").read_text(encoding="utf-8")
    for old, new in (
        ('head_width = "49 in"', 'head_width = "50 in"'),
        ('length = "35 in"', 'length = "36 in"'),
        ('length = "32 1/4 in"', 'length = "33 1/2 in"'),
        ('length = "5 3/4 in"', 'length = "5 in"'),
        ('overlap = "3 in"', 'overlap = "2 1/2 in"'),
        ('head_leg_length = "28 in"', 'head_leg_length = "29 in"'),
    ):
        assert old in text
        text = text.replace(old, new, 1)
    (tmp_path / "otter.toml").write_text(text, encoding="utf-8")
    design = read_design(tmp_path / "otter.toml")
    assert design.hammock.head_bar.build.length == pytest.approx(36 * INCH, rel=1e-9)
    result = solve_case(design, mesh_size=0.08, hot_spots=False)
    checks = [check for check in result.findings.checks if check.part == "head bar"]
    assert all(check.passed for check in checks)
    assert 2.8 < min(check.found for check in checks) < 6.0
    assert result.summary["weights"]["carried_anyway_kg"] == pytest.approx(0.127, rel=0.01)


def test_commented_parts_of_the_starter_can_be_used(tmp_path):
    text = (HOME / "starter.toml").read_text(encoding="utf-8")
    start, end = text.index("# [[head_bar.part]]"), text.index("[foot_bar]")
    parts = text[start:end].replace("# [[", "[[").replace("\n# ", "\n")
    section = next(line for line in text.split("\n") if line.startswith("section = "))
    path = tmp_path / "mine.toml"
    path.write_text(text[:start].replace(section + "\n", "", 1) + parts + text[end:], encoding="utf-8")
    pole, rod = read_design(path).hammock.head_bar.section
    assert (pole.taper_to, pole.weighed, rod.holding_force) == (pytest.approx(0.016), pytest.approx(0.25), 900.0)
