"""The built-in library is complete, sourced and possible; the user's files add to it or are refused in full."""

import re
import subprocess
import sys
from math import isclose

import pytest

from tautlay.materials import (
    CATEGORIES,
    STATUSES,
    Cord,
    Fabric,
    MaterialError,
    QuantityError,
    RodSection,
    Tube,
    parse_quantity,
    read_library,
)
from tautlay.materials.material import list_quantities

LIBRARY = read_library()
ALL = [material for category in CATEGORIES for material in LIBRARY.select(category)]
TEX = 1e-6  # kg/m


@pytest.mark.parametrize(
    ("category", "least"),
    [("fabric", 12), ("cord", 8), ("webbing", 6), ("tube", 8), ("rod", 6), ("thread", 4), ("plate", 4)],
)
def test_there_is_a_choice(category, least):
    assert len(LIBRARY.names(category)) >= least


@pytest.mark.parametrize("material", ALL, ids=lambda m: m.label)
def test_every_number_says_where_it_comes_from(material):
    quantities = {item.name: item.metadata["dimension"] for item in list_quantities(material)}
    known = {name for name in quantities if getattr(material, name) is not None}
    assert set(material.provenance) == known
    for name, origin in material.provenance.items():
        assert origin.status in STATUSES
        assert len(origin.source) > 5
        assert not origin.source.startswith("@")
        assert isclose(parse_quantity(origin.text, quantities[name]), getattr(material, name), rel_tol=1e-12)
        if origin.range is not None:
            assert origin.range[0] <= getattr(material, name) <= origin.range[1]


@pytest.mark.parametrize("material", ALL, ids=lambda m: m.label)
def test_every_number_from_memory_says_where_it_was_looked_for(material):
    for name, origin in material.provenance.items():
        if origin.status == "memory":
            assert re.search(r"looked for(:| in)", origin.source), f"{material.label}, {name}: {origin.source}"


@pytest.mark.parametrize("material", ALL, ids=lambda m: m.label)
def test_kind_is_generic_and_name_is_its_own(material):
    assert material.kind
    assert LIBRARY.names(material.category).count(material.name) == 1


def test_fabrics_span_20_to_110_grams():
    masses = sorted(fabric.areal_mass for fabric in LIBRARY.select("fabric"))
    assert 0.020 <= masses[0] <= 0.025
    assert 0.100 <= masses[-1] <= 0.110


def tex_per_mm(fabric):
    """Yarn each way: half the areal mass, kg/m2 / 2 in tex per mm of width."""
    return fabric.areal_mass / 2 / TEX * 1e-3


# Modulus and strength of yarn, N/tex: Tension Technology International, Table 1 (seen); of nylon and polyester the
# stronger and stiffer of that and a producer's table of industrial yarns (seen); cotton from memory.
FIBRES = {
    "nylon": (8.2, 0.91),
    "polyester": (10.0, 0.84),
    "UHMWPE": (124.0, 2.65),
    "aramid": (50.0, 2.08),
    "cotton": (7.0, 0.5),
}


@pytest.mark.parametrize("fabric", LIBRARY.select("fabric"), ids=lambda m: m.name)
def test_cloth_is_no_stiffer_and_no_stronger_than_its_fibre(fabric):
    modulus, strength = next(value for fibre, value in FIBRES.items() if fibre in fabric.kind)
    ceiling = tex_per_mm(fabric) * 1e3  # tex per m of width
    assert max(fabric.warp, fabric.weft) <= modulus * ceiling
    assert max(fabric.strength_warp, fabric.strength_weft) <= strength * ceiling


# The heat-bondable cloth is measured, not derived.
RULED = [f for f in LIBRARY.select("fabric", text="nylon") if "heat-bondable" not in f.name]


@pytest.mark.parametrize("fabric", RULED, ids=lambda m: m.name)
def test_nylon_stays_below_its_crimp_free_ceiling(fabric):
    # fibre modulus 4 N/tex (Tension Technology International, Table 1)
    assert max(fabric.warp, fabric.weft) <= 4.0 * tex_per_mm(fabric) * 1e3


@pytest.mark.parametrize("fabric", RULED, ids=lambda m: m.name)
def test_nylon_stiffness_follows_the_stated_rule(fabric):
    base = fabric.areal_mass * (0.8 if fabric.kind == "coated nylon" else 1.0)
    assert isclose(fabric.warp, 30e3 * base / 37.3e-3, rel_tol=0.01)
    assert isclose(fabric.weft, 25e3 * base / 37.3e-3, rel_tol=0.01)
    low, high = fabric.provenance["warp"].range
    assert isclose(fabric.warp / low, 1.5, rel_tol=0.01)
    assert isclose(high / fabric.warp, 1.5, rel_tol=0.01)


@pytest.mark.parametrize("fabric", LIBRARY.select("fabric"), ids=lambda m: m.name)
def test_cloth_shears_more_easily_than_it_stretches(fabric):
    # Uncoated cloth: shear is some hundred times softer (KES-F band); a film or coating holds it to a tenth or so.
    assert fabric.shear <= (0.15 if "coated" in fabric.kind or "laminate" in fabric.kind else 0.01) * fabric.warp


@pytest.mark.parametrize("cord", LIBRARY.select("cord", kind="12-strand UHMWPE"), ids=lambda m: m.name)
def test_uhmwpe_braid_realises_1_4_to_1_8_newton_per_tex(cord):
    # generic published rope tables, from memory; yarn 2.65 to 3.1 N/tex x 0.55 to 0.6
    assert 1.4 <= cord.breaking_load / (cord.linear_mass / TEX) <= 1.8


@pytest.mark.parametrize("cord", LIBRARY.select("cord", kind="12-strand UHMWPE"), ids=lambda m: m.name)
def test_uhmwpe_braid_stretches_as_a_data_sheet_says(cord):
    # 0.51 % at 10 % and 0.89 % at 20 % of break (rope-maker's data sheet, quoted): EA 20 to 28 x break
    assert 20.0 <= cord.ea / cord.breaking_load <= 28.0


def test_parachute_cord_holds_what_its_specification_asks():
    # MIL-C-5040H, Table II, quoted by two sellers of cord: at least 95, 225 and 550 lb for types I, IIA and III
    for name, pounds in (("I", 95.0), ("IIA", 225.0), ("III", 550.0)):
        cord = LIBRARY.find(Cord, f"nylon parachute cord type {name}")
        assert isclose(cord.breaking_load, pounds * 4.4482216, rel_tol=1e-6)


def test_uhmwpe_2_mm_holds_a_thousand_pounds():
    # common practice, no source
    assert isclose(LIBRARY.find(Cord, "12-strand UHMWPE 2 mm").breaking_load, 4448.2, rel_tol=1e-4)


@pytest.mark.parametrize("cord", LIBRARY.select("cord"), ids=lambda m: m.name)
def test_cord_fits_its_diameter(cord):
    # A braid fills 0.4 to 0.8 of its round section with fibre (judgement).
    density = 970.0 if "UHMWPE" in cord.kind else 1140.0 if "nylon" in cord.kind else 1400.0
    filling = cord.linear_mass / density / (3.14159 * cord.diameter**2 / 4)
    assert 0.4 <= filling <= 1.0


def test_polyester_inch_webbing_spans_5_4_to_10_grams_per_foot():
    masses = [strap.linear_mass for strap in LIBRARY.select("webbing", kind="polyester")]
    assert isclose(min(masses), 5.4e-3 / 0.3048, rel_tol=1e-9)
    assert isclose(max(masses), 10e-3 / 0.3048, rel_tol=1e-9)


@pytest.mark.parametrize("strap", LIBRARY.select("webbing"), ids=lambda m: m.name)
def test_webbing_fits_its_section_and_its_fibre(strap):
    density = 910.0 if "poly" in strap.kind and "propylene" in strap.kind else 1380.0
    assert strap.linear_mass <= density * strap.width * strap.thickness
    limit = 2.65 if "UHMWPE" in strap.kind else 0.91  # N/tex, yarn
    assert strap.breaking_load <= limit * strap.linear_mass / TEX


@pytest.mark.parametrize("thread", LIBRARY.select("thread"), ids=lambda m: m.name)
def test_thread_is_no_stronger_than_its_fibre(thread):
    assert 0.25 <= thread.breaking_load / (thread.linear_mass / TEX) <= 0.91


def test_alloy_is_that_of_the_handbook():
    # MIL-HDBK-5J (2003), Table 3.6.2.0(c1): Ec 10.1 Msi = 69.6 GPa, Fcy 34 ksi = 234 MPa, 0.098 lb/in3 = 2713 kg/m3
    tube = LIBRARY.find(Tube, "6061-T6 3/4 in x 0.035 in")
    assert isclose(tube.modulus, 69.6e9, rel_tol=1e-3)
    assert isclose(tube.yield_strength, 234e6, rel_tol=2e-3)
    assert isclose(tube.density, 2713.0, rel_tol=1e-3)


def test_wood_is_that_of_the_handbook():
    # Wood Handbook FPL-GTR-282 (2021), Table 5-3b, yellow birch: MOE 13.86 GPa, compression 56.33 MPa, SG 0.62
    dowel = LIBRARY.find(RodSection, "yellow birch dowel 1/2 in")
    assert isclose(dowel.modulus, 13.86e9, rel_tol=1e-3)
    assert isclose(dowel.compression_strength, 0.70 * 56.33e6, rel_tol=1e-3)
    assert isclose(dowel.density, 1120 * 0.62, rel_tol=1e-3)


def test_unknown_name_gets_the_nearest():
    with pytest.raises(MaterialError, match="Did you mean 'ripstop nylon 37 g/m2'"):
        LIBRARY.find(Fabric, "ripstop nylon 38 g/m2")
    with pytest.raises(MaterialError, match=r"unknown cord 'xyzzyq'\. Choose one of '12-strand"):
        LIBRARY.find(Cord, "xyzzyq")
    with pytest.raises(MaterialError, match="unknown category 'rope'"):
        LIBRARY.names("rope")


def test_select_takes_every_condition():
    light = LIBRARY.select("fabric", text="NYLON", maximum={"areal_mass": "1.2 oz/yd2"}, minimum={"warp": 24e3})
    assert [m.name for m in light] == [
        "ripstop nylon 30 g/m2",
        "ripstop nylon 37 g/m2",
        "ripstop nylon 40 g/m2, low permeability",
        "coated nylon 40 g/m2, honeycomb weave",
    ]
    assert {m.kind for m in LIBRARY.select("cord", kind="aramid braid")} == {"aramid braid"}
    with pytest.raises(MaterialError, match="unknown quantity 'mass' of cord"):
        LIBRARY.select("cord", maximum={"mass": 1.0})
    with pytest.raises(QuantityError, match="needs a unit"):
        LIBRARY.select("cord", maximum={"diameter": "2"})


@pytest.mark.parametrize("category", CATEGORIES)
@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_table_lists_every_material_with_source_and_status(category, system):
    headers, rows = LIBRARY.table(category, system)
    assert len(rows) == len(LIBRARY.names(category))
    assert headers[-2:] == ("weakest status", "sources")
    for row in rows:
        assert len(row) == len(headers)
        assert row[-2] in STATUSES
        assert row[-1]
        details = LIBRARY.details(category, row[0], system)
        assert all(len(line) == len(details.headers) for line in details.rows)


def test_table_is_in_the_units_asked_for():
    chosen = LIBRARY.select("fabric", text="ripstop nylon 37")
    assert LIBRARY.table("fabric", "metric", chosen).rows[0][2] == "37.3 g/m2"
    assert LIBRARY.table("fabric", "imperial", chosen).rows[0][2] == "1.10 oz/yd2"


MINE = """
[sources]
test = "strip test of my own, 50 mm wide"

[fabric."my cloth"]
base = "ripstop nylon 37 g/m2"
warp = { value = "28 N/mm", source = "@test", status = "seen", range = ["26 N/mm", "30 N/mm"] }

[cord."12-strand UHMWPE 2 mm"]
kind = "12-strand UHMWPE"
source = "label on the spool"
status = "seen"
diameter = "2 mm"
linear_mass = "2.5 g/m"
breaking_load = { value = "900 lbf", note = "spliced" }
ea = { value = "90 kN", status = "memory" }
"""


def write(folder, text, name="mine.toml"):
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def test_file_of_the_user_adds_and_replaces(tmp_path):
    mine = read_library(write(tmp_path, MINE))
    cloth, base = mine.find(Fabric, "my cloth"), LIBRARY.find(Fabric, "ripstop nylon 37 g/m2")
    assert cloth.warp == pytest.approx(28e3)
    assert cloth.provenance["warp"].source == "strip test of my own, 50 mm wide"
    assert (cloth.weft, cloth.kind, cloth.provenance["weft"]) == (base.weft, base.kind, base.provenance["weft"])
    cord = mine.find(Cord, "12-strand UHMWPE 2 mm")
    assert cord.breaking_load == pytest.approx(900 * 4.4482216)
    assert (cord.provenance["ea"].status, cord.provenance["ea"].source) == ("memory", "label on the spool")
    assert len(mine.names("cord")) == len(LIBRARY.names("cord"))
    assert mine.find(Fabric, "ripstop nylon 54 g/m2") is LIBRARY.find(Fabric, "ripstop nylon 54 g/m2")
    assert LIBRARY.find(Cord, "12-strand UHMWPE 2 mm").breaking_load > cord.breaking_load  # built-in left alone


def test_later_file_may_build_on_an_earlier_one(tmp_path):
    second = write(tmp_path, '[fabric."lighter"]\nbase = "my cloth"\nkind = "mine"\n', "second.toml")
    cloth = read_library(write(tmp_path, MINE), second).find(Fabric, "lighter")
    assert (cloth.warp, cloth.kind) == (pytest.approx(28e3), "mine")


TEN_FAULTS = """[fabric.a]
kind = "ripstop nylon"
source = "label"
status = "seen"
areal_mass = "37 kg/m2"
warp = "30 N"
weft = 25
poison = "0.1"
shear = { value = "54 N/m", range = ["60 N/m", "70 N/m"] }
strength_warp = { value = "7 N/mm", status = "guessed" }
strength_weft = { value = "7 N/mm", source = "@nowhere" }
poisson = "0.1"

[cord.b]
base = "12-strand UHMWPE 2.1 mm"
source = "label"
status = "seen"
diameter = "2,5 mm"
linear_mass = "2.5 g/m"
breaking_load = "900 lb"
ea = "90 kN"
"""
EXPECTED = [
    (5, "areal_mass", "Did you mean 37 g/m2?"),
    (6, "warp", "a stiffness per width"),
    (7, "weft", "in quotes"),
    (8, "poison", "Did you mean 'poisson'"),
    (9, "shear.range", "must enclose"),
    (10, "strength_warp.status", "Choose one of seen, second hand, derived, memory"),
    (11, "strength_weft.source", "not in the table [sources]"),
    (15, "base", "or '12-strand UHMWPE 2 mm'?"),
    (18, "diameter", "comma"),
    (20, "breaking_load", "write lbf"),
]


def test_ten_faults_give_ten_sentences(tmp_path):
    path = write(tmp_path, TEN_FAULTS)
    with pytest.raises(MaterialError) as caught:
        read_library(path)
    # what is missing because the base is unknown is not told on top
    faults = sorted(caught.value.faults, key=lambda fault: int(fault.split("line ")[1].split(":")[0]))
    assert len(faults) == 10
    for fault, (line, key, reason) in zip(faults, EXPECTED, strict=True):
        assert fault.startswith(f"{path}, line {line}: ")
        assert f", {key}: " in fault
        assert reason in fault
    assert str(caught.value).count("\n") == 9


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("[rope.x]\n", "line 1: unknown category. Did you mean 'rod'?"),
        ('[sources]\na = "b"\n[rope.x]\n', "line 3: unknown category 'rope'"),
        ("fabric = 3\n", "must be tables such as [fabric"),
        ('[fabric]\nx = "37 g/m2"\n', "must be a table of quantities"),
        ('[sources]\na = ""\n', "must be the text of a source"),
        ("sources = 1\n", "must be a table of texts"),
        (
            '[thread.x]\nkind = "a"\nsource = "b"\nstatus = "seen"\nlinear_mass = "40 tex"\n',
            "'breaking_load' is missing",
        ),
        ('[thread.x]\nbase = "nylon size E"\nlinear_mass = "40 tex"\n', "source is missing"),
        ('[thread.x]\nbase = "nylon size E"\nlinear_mass = { source = "a", status = "seen" }\n', "'value' is missing"),
        ('[thread.x]\nbase = "nylon size E"\nnote = 3\n', "3 must be text in quotes"),
        (
            '[tube.x]\nbase = "carbon 12 x 1 mm"\nwall = { value = "6 mm", source = "a", status = "seen", range = 3 }',
            "3 must be two quantities",
        ),
        (
            '[tube.x]\nbase = "walking-pole section 7075-T6 14 x 0.8 mm"\nsource = "a"\nstatus = "seen"\n'
            'outer_diameter = "10 mm"\nwall = "5.5 mm"\n',
            'line 1: tube "x": wall = 0.0055 m must not exceed the radius',
        ),
        ("[fabric\n", "line 1: column 8: this cannot be read"),
    ],
)
def test_single_fault_is_one_sentence(tmp_path, text, sentence):
    with pytest.raises(MaterialError) as caught:
        read_library(write(tmp_path, text))
    assert sentence in str(caught.value)
    assert all("mine.toml" in fault for fault in caught.value.faults)


def test_material_without_a_kind_is_refused(tmp_path):
    text = '[thread.x]\nsource = "a"\nstatus = "seen"\nlinear_mass = "40 tex"\nbreaking_load = "20 N"\n'
    with pytest.raises(MaterialError, match="'kind' is missing"):
        read_library(write(tmp_path, text))


def test_faults_of_all_files_are_told_together(tmp_path):
    paths = [write(tmp_path, "[rope.x]\n", f"{name}.toml") for name in "ab"]
    with pytest.raises(MaterialError) as caught:
        read_library(*paths, tmp_path / "absent.toml")
    assert len(caught.value.faults) == 3
    assert caught.value.faults[2].endswith("absent.toml: there is no such file.")


def test_import_loads_nothing_heavy():
    heavy = "{'numpy', 'scipy', 'pint', 'pydantic', 'tomllib', 'difflib'}"
    code = f"import sys, tautlay.materials; print(sorted({heavy} & set(sys.modules)))"
    answer = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert answer.stdout.strip() == "[]"
