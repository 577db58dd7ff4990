"""Sweep files: what they describe, and what is wrong with them, told before anything is solved."""

import subprocess
import sys
from importlib.resources import files

import pytest

from tautlay.cases import DesignError, read_sweep
from tautlay.cases.studies.sweep.sweep_variable import _find_span
from tautlay.materials import Fabric, parse_quantity

from ._quick import COUNT, DEMO, HEAD, VARY, write_sweep

ONE = '\n[[vary]]\nkey = "{}"\n{}\n'
WRONG = {
    "an unknown key": (ONE.format("body.fabrc", 'values = ["a"]'), "Did you mean fabric?"),
    "an unknown material": (ONE.format("body.fabric", 'values = ["unobtainium"]'), "not a fabric in the library"),
    "a range of two kinds": (ONE.format("body.arc.depth", 'from = "2 cm"\nto = "5 N"\ncount = 3'), "quantities of one kind"),
    "an impossible range": (ONE.format("body.arc.depth", 'from = "2 m"\nto = "3 m"\ncount = 2'), "largest plausible"),
    "a range without a count": (ONE.format("body.arc.depth", 'from = "2 cm"\nto = "9 cm"'), "count is missing"),
    "a range of nothing": (ONE.format("body.arc.depth", 'from = "9 cm"\nto = "9 cm"\ncount = 2'), "two different ends"),
    "half of a range": (ONE.format("body.arc.depth", 'from = "9 cm"\ncount = 2'), "from and to belong together"),
    "parts of whole numbers": (ONE.format("body.layers", "from = 1\nto = 2\ncount = 4"), "not whole numbers"),
    "nothing found": (ONE.format("body.fabric", 'find = { text = "steel" }'), "no fabric of the library meets find"),
    "a limit of nothing": (ONE.format("body.fabric", 'find = { maximum = { mass = "3 g" } }'), "Did you mean 'areal_mass'?"),
    "a limit of another kind": (ONE.format("body.fabric", 'find = { maximum = { areal_mass = "3 g" } }'), "'3 g'"),
    "a find where nothing is named": (ONE.format("body.length", 'find = { text = "a" }'), "find needs keys that name materials"),
    "too few values": ('\n[[vary]]\nkeys = ["channel.cord", "suspension.leg"]\nvalues = [["a"]]\n', "one for each key"),
    "no way to vary": (ONE.format("body.fabric", ""), "write one of values"),
    "two ways to vary": (ONE.format("body.fabric", 'values = ["a"]\nfind = { text = "a" }'), "write one of values"),
    "no key": ('\n[[vary]]\nvalues = ["a"]\n', "write either key"),
    "labels that do not fit": (ONE.format("body.layers", 'values = [1, 2]\nlabels = ["one"]'), "1 labels for 2 values"),
    "a value twice": (ONE.format("body.layers", "values = [1, 1]"), "appears twice"),
    "a key twice": (ONE.format("body.layers", "values = [1, 2]") * 2, "Let it vary once"),
    "the mesh": (ONE.format("mesh.size", 'values = ["1 cm"]'), "write mesh_size in [sweep]"),
    "a name": (ONE.format("design.name", 'values = ["a"]'), "it only names the design"),
    "a table that is none": (ONE.format("person", "values = [3]"), "must be a table"),
    "a part that is not there": (ONE.format("head_bar.part.7.length", 'values = ["1 cm"]'), "no entry 7"),
    "an unknown key set": ('\n[[set]]\nkey = "bdy.length"\nvalue = "2 m"\n' + VARY, "Did you mean body?"),
    "an unknown word": (ONE.format("load.case", 'values = ["dancing"]'), "'dancing'"),
    "a number of 400 digits": (ONE.format("load.sudden_factor", f"from = 1.5\nto = 1{'0' * 400}\ncount = 2"), "not two ordinary numbers"),
    "no number": (ONE.format("load.sudden_factor", "from = nan\nto = 2.0\ncount = 2"), "not two ordinary numbers"),
    "a label that means something else": (ONE.format("body.layers", 'values = [1, 2]\nlabels = ["as designed", "two"]'), "Choose another label"),
    "a label that is a formula": (ONE.format("body.layers", 'values = [1, 2]\nlabels = ["=1+1", "two"]'), "would read '=1+1' as a formula"),
    "a name that is a formula": (ONE.format("body.layers", 'values = [1, 2]\nname = "-2+3+cmd|x"'), "Choose another name"),
    "a key set twice": ('\n[[set]]\nkey = "load.case"\nvalue = "lying"\n' * 2 + VARY, "load.case has no effect: another"),
    "a key set and varied": ('\n[[set]]\nkey = "body.fabric"\nvalue = "ripstop nylon 37 g/m2"\n' + VARY, "body.fabric has no effect: another"),
    "keys that exclude each other": (ONE.format("person.mass", 'values = ["60 kg"]') + ONE.format("person.who", 'values = ["man, 5th percentile"]'), "person.mass has no effect: another"),
    "nothing that varies": ("", "is missing: first thing that varies. Example: [[vary]]"),
}  # fmt: skip
HEADS = {
    "an unknown way to combine": ('combine = "gird"\n', "Did you mean grid?"),
    "samples of a grid": ("samples = 8\n", "has no effect without sampling"),
    "no samples": ('combine = "sobol"\n', "is missing"),
    "a Sobol sequence out of balance": ('combine = "sobol"\nsamples = 48\n', "power of 2"),
    "pairs that do not fit": ('combine = "paired"\n', "equally many values"),
    "an unknown entry": ("colour = 3\n", "unknown setting"),
}


def list_faults(path):
    with pytest.raises(DesignError) as caught:
        read_sweep(path)
    return [str(fault) for fault in caught.value.faults]


@pytest.mark.parametrize(("text", "words"), WRONG.values(), ids=WRONG)
def test_what_is_wrong_is_told_with_file_and_key(tmp_path, text, words):
    faults = list_faults(write_sweep(tmp_path, text))
    assert any(words in fault for fault in faults), faults
    assert all("quick.toml" in fault for fault in faults)


@pytest.mark.parametrize(("line", "words"), HEADS.values(), ids=HEADS)
def test_what_is_wrong_with_the_sweep_itself(tmp_path, line, words):
    assert any(words in fault for fault in list_faults(write_sweep(tmp_path, head=HEAD + line)))


def test_all_faults_come_at_once(tmp_path):
    text = ONE.format("body.fabrc", 'values = ["a"]') + ONE.format("body.fabric", 'values = ["b", "c"]')
    faults = list_faults(write_sweep(tmp_path, text + ONE.format("body.length", "values = [2.0]")))
    assert len(faults) == 4


def test_a_design_given_as_a_sweep_is_said_to_be_one():
    with pytest.raises(DesignError, match="this is a design, not a sweep") as caught:
        read_sweep(str(DEMO))
    assert len(caught.value.faults) == 1


def test_a_mesh_that_does_not_fit_is_a_fault_of_the_sweep(tmp_path):
    head = HEAD.replace('"20 cm"', '"50 cm"')
    assert any("sweep.mesh_size" in fault for fault in list_faults(write_sweep(tmp_path, head=head)))


def test_too_many_designs_are_refused(tmp_path):
    many = "".join(
        ONE.format(key, f'from = "{low}"\nto = "{high}"\ncount = 30')
        for key, low, high in (
            ("body.arc.depth", "12 cm", "20 cm"),
            ("suspension.line_length", "60 cm", "90 cm"),
            ("suspension.leg_length", "60 cm", "80 cm"),
        )
    )
    assert any("27,000 designs, at most 10,000" in fault for fault in list_faults(write_sweep(tmp_path, many)))


def test_a_find_takes_everything_that_meets_it(tmp_path):
    text = ONE.format("body.fabric", 'find = { text = "coated", maximum = { areal_mass = "60 g/m2" } }')
    sweep = read_sweep(write_sweep(tmp_path, text))
    library = sweep.base.library
    coated = {name for name in library.names("fabric") if "coated" in f"{name} {library.find(Fabric, name).kind}"}
    wanted = {name for name in coated if library.find(Fabric, name).areal_mass <= 0.060}
    assert {option.label for option in sweep.choices[0].options} == wanted != set()


def test_a_range_runs_from_end_to_end_in_the_unit_it_is_written_in(tmp_path):
    sweep = read_sweep(write_sweep(tmp_path, ONE.format("body.arc.depth", 'from = "6 in"\nto = "8 in"\ncount = 5')))
    assert [option.label for option in sweep.choices[0].options] == ["6 in", "6.5 in", "7 in", "7.5 in", "8 in"]
    depths = [sweep.make_design(variant).hammock.body.left_arc.depth for variant in sweep.variants]
    assert depths == pytest.approx([0.0254 * depth for depth in (6, 6.5, 7, 7.5, 8)])


@pytest.mark.parametrize(
    ("low", "high", "dimension"),
    [("12 ft/lb", "20 ft/lb", "linear_mass"), ("1.1 oz/yd²", "37 g/m²", "areal_mass"), ("5′", "2 m", "length"),
     ("10 %", "0.2", "ratio"), ("0.1", "20 %", "ratio"), ("6 ft 2 in", "7 ft", "length")],
)  # fmt: skip
def test_the_ends_of_a_range_are_those_that_are_written(low, high, dimension):
    span, _ = _find_span(low, high)
    for share, text in ((0.0, low), (1.0, high)):
        assert parse_quantity(span.write(share), dimension) == pytest.approx(parse_quantity(text, dimension), rel=1e-8)


def test_a_key_below_a_table_that_is_set_stays_with_its_own_design(tmp_path):
    text = (
        '\n[[set]]\nkey = "load"\nvalue = { case = "sudden", sudden_factor = 2.5 }\n'
        + ONE.format("load.sudden_factor", "values = [1.5, 3.0]")
        + ONE.format("body.layers", "values = [1, 2]")
    )
    sweep = read_sweep(write_sweep(tmp_path, text, HEAD + 'combine = "one at a time"\n'))
    for _ in range(2):
        factors = [sweep.make_design(variant).sudden_factor for variant in sweep.variants]
        assert factors == [2.5, 1.5, 3.0, 2.5, 2.5]


@pytest.mark.parametrize("name", ["nowhere.toml", "", "/", "x" * 250])
def test_a_design_that_is_not_there_is_a_fault_of_the_sweep(tmp_path, name):
    (fault,) = list_faults(write_sweep(tmp_path, design=name))
    assert "quick.toml:3: sweep.design" in fault


def test_keys_that_vary_together_are_set_together(tmp_path):
    text = """
[[vary]]
keys = ["head_bar.set_in", "foot_bar.set_in"]
values = [["18 cm", "14 cm"], "16 cm"]
"""
    sweep = read_sweep(write_sweep(tmp_path, text))
    bars = [sweep.make_design(variant).hammock for variant in sweep.variants]
    assert [h.head_bar.set_in for h in bars] == pytest.approx([0.18, 0.16])
    assert [h.foot_bar.set_in for h in bars] == pytest.approx([0.14, 0.16])


def test_what_a_key_excludes_is_taken_out(tmp_path):
    text = '\n[[vary]]\nkey = "person.who"\nvalues = ["woman, 5th percentile", "man, 95th percentile"]\n'
    sweep = read_sweep(write_sweep(tmp_path, text))
    people = [sweep.make_design(variant).person for variant in sweep.variants]
    assert people[0].mass < 60.0 < 100.0 < people[1].mass


def test_a_grid_varies_the_last_choice_fastest(tmp_path):
    sweep = read_sweep(write_sweep(tmp_path))
    assert [variant.picks for variant in sweep.variants] == [(0, 0), (0, 1), (1, 0), (1, 1), (2, 0), (2, 1)]


def test_one_at_a_time_begins_with_the_design_as_it_is(tmp_path):
    sweep = read_sweep(write_sweep(tmp_path, head=HEAD + 'combine = "one at a time"\n'))
    assert len(sweep.variants) == 1 + 3 + 2
    assert sweep.make_design(sweep.variants[0]).hammock == sweep.base.hammock


@pytest.mark.parametrize("combine", ["latin hypercube", "sobol"])
def test_samples_fill_the_space_and_come_out_alike_again(tmp_path, combine):
    text = ONE.format("body.arc.depth", 'from = "12 cm"\nto = "20 cm"') + ONE.format(
        "suspension.line_length", 'from = "60 cm"\nto = "90 cm"'
    )
    head = HEAD + f'combine = "{combine}"\nsamples = 16\nseed = 3\n'
    sweeps = [read_sweep(write_sweep(tmp_path, text, head)) for _ in range(2)]
    assert sweeps[0].variants == sweeps[1].variants
    depths = [float(variant.options[0].label.removesuffix(" cm")) for variant in sweeps[0].variants]
    strata = {int((depth - 12.0) / 8.0 * 16) for depth in depths}
    assert strata == set(range(16))  # one in each: both ways are stratified in every choice


def test_lists_are_sampled_evenly(tmp_path):
    head = HEAD + 'combine = "latin hypercube"\nsamples = 12\n'
    sweep = read_sweep(write_sweep(tmp_path, head=head))
    labels = [variant.options[0].label for variant in sweep.variants]
    assert sorted(labels.count(label) for label in set(labels)) == [4, 4, 4]


def test_the_demonstration_is_read_and_told_without_solving(tmp_path):
    demo = files("tautlay.cases") / "heron_ford_cloths.toml"
    script = f"import sys; sys.argv = ['tautlay', 'sweep', {str(demo)!r}, '--dry-run']; from tautlay.cases.command.main import main; main()"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, cwd=tmp_path, check=False)
    assert done.returncode == 0, done.stderr
    assert "triangles each" in done.stdout
    assert "To solve: 36 of 36, about" in done.stdout
    assert not list(tmp_path.iterdir())


def test_the_quick_sweep_has_its_designs(tmp_path):
    assert len(read_sweep(write_sweep(tmp_path)).variants) == COUNT
    assert read_sweep(write_sweep(tmp_path)).base.path.name == DEMO.name
