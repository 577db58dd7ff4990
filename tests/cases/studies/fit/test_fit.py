"""Stiffnesses from strips, cords and a loaded hammock; files and their faults."""

import json
from importlib.resources import files

import numpy as np
import pytest
from click.testing import CliRunner

from tautlay.cases import read_design
from tautlay.cases.command.cli import main
from tautlay.cases.design_issue import DesignError
from tautlay.cases.studies.fit.fitted_materials import write_materials
from tautlay.cases.studies.fit.measured_file import read_measured
from tautlay.cases.studies.fit.observation import list_observations, stretch_strip
from tautlay.cases.studies.fit.stiffness_fit import fit_stiffness
from tautlay.cases.studies.trial.reading import READINGS, read_all
from tautlay.cases.studies.trial.trial_solver import TrialSolver
from tautlay.materials import Fabric, read_library
from tautlay.solver import FabricLaw

from ...._strips import STRIPS

LARCH = files("tautlay.cases") / "larch_ridge.toml"


@pytest.fixture
def design():
    return read_design(LARCH)


def write(folder, text):
    """Return a file of measurements."""
    file = folder / "measured.toml"
    file.write_text(text, encoding="utf-8")
    return file


def find(found, words):
    """Return what was found of one stiffness."""
    return next(each for each in found.stiffnesses if str(each.source.title).startswith(words))


@pytest.mark.parametrize("angle", [0, 45, 90])
def test_strip_is_that_of_the_law(angle):
    """Compliance turned by the angle, of the stiffness that the solver's law states."""
    warp, weft, poisson, shear = 30e3, 25e3, 0.15, 54.0
    cloth = Fabric("demo", "ripstop nylon", 0.037, warp, weft, poisson, shear, 7.4e3, 7.4e3)
    law = FabricLaw(warp, weft, poisson, shear)
    compliance = law.compliance()
    turn = np.radians(angle)
    pull = np.array([np.cos(turn) ** 2, np.sin(turn) ** 2, np.sin(turn) * np.cos(turn)])
    strain = pull @ compliance @ pull
    thread = {0: "warp", 45: "bias", 90: "weft"}[angle]
    assert stretch_strip(cloth, thread, 1.0) == pytest.approx(strain, rel=1e-12)


def test_strips_and_cords_alone_tell_their_stiffness(tmp_path, design):
    found = fit_stiffness(design, read_measured(write(tmp_path, STRIPS), design))
    warp, shear, strap = (find(found, words) for words in ("warp", "shear", "stiffness, polyester"))
    assert warp.value == pytest.approx(1200.0 / 0.04, rel=0.01)  # force per width over strain
    assert strap.value == pytest.approx(400.0 / 0.01, rel=0.01)
    assert shear.value == pytest.approx(8.0 / 4 / 0.05, rel=0.02)
    assert {each.told for each in (warp, shear, strap)} == {"well"}
    weft = find(found, "weft")
    assert weft.told == "not"
    assert str(weft.helps.title).startswith("strip along the weft")
    assert weft.helped < 0.35 < weft.narrowed
    assert found.others == ()


def test_one_reading_has_the_posterior_of_the_textbook(tmp_path, design):
    """Of one normal reading of a logarithm: precisions add."""
    text = STRIPS[: STRIPS.index('[[strip]]\nthread = "bias"')]
    warp = find(fit_stiffness(design, read_measured(write(tmp_path, text), design)), "warp")
    prior = np.log(warp.law.high / warp.law.low) / 3.2897
    noise = 0.001 / 0.020
    assert warp.narrowed == pytest.approx(noise / np.hypot(noise, prior), rel=0.02)
    assert np.log(warp.high / warp.low) / 3.2897 == pytest.approx(prior * warp.narrowed, rel=0.02)


def test_file_of_materials_is_read_back(tmp_path, design):
    found = fit_stiffness(design, read_measured(write(tmp_path, STRIPS), design))
    file = tmp_path / "fitted.toml"
    file.write_text(write_materials(found, "measured.toml"), encoding="utf-8")
    old = design.hammock.body.fabric
    new = read_library(file).find(Fabric, old.name)
    warp = find(found, "warp")
    assert new.warp == pytest.approx(warp.value, rel=1e-3)
    assert new.weft == old.weft
    assert new.provenance["warp"].status == "seen"
    assert new.provenance["warp"].range == pytest.approx((warp.low, warp.high), rel=1e-3)
    assert "Not told, left as they were: weft stiffness" in file.read_text(encoding="utf-8")


def test_tension_is_read_from_how_far_a_line_moves_aside(tmp_path, design):
    text = """
[hung]
tree_distance = "4.27 m"
[[load]]
water = "60 kg"
head_line_aside = "16.8 mm"
"""
    (only,) = list_observations(read_measured(write(tmp_path, text), design), design.hammock)
    length = 0.8 * (1 + only.value / 41e3)
    assert only.value == pytest.approx(50.0 * length / (4 * 0.0168), rel=1e-3)
    assert only.spread == pytest.approx(only.value * 0.5 / 16.8, rel=1e-6)


@pytest.mark.slow
def test_loaded_hammock_tells_shear_and_not_warp(tmp_path, design):
    """Readings without noise, of the library's own values: nothing moves, and shear alone is told well."""
    solver = TrialSolver(design, 0.15)
    lines = [f'[hung]\ntree_distance = "{solver.tree_distance:.6f} m"']
    lines += ['head_strap_height = "1.8 m"', 'foot_strap_height = "1.8 m"']
    for water in (60.0, 20.0):
        readings = read_all(*solver.solve_base(water))
        lines.append(f'[[load]]\nwater = "{water:g} kg"')
        lines += [
            f'{key} = "{value:.6f} {"m" if each.dimension == "length" else "N"}"'
            for (key, each), value in zip(READINGS.items(), readings, strict=True)
        ]
    form = read_measured(write(tmp_path, "\n".join(lines)), design)
    found = fit_stiffness(design, form, mesh_size=0.15, fine=0.15)
    shear, warp = find(found, "shear"), find(found, "warp")
    assert shear.value == pytest.approx(np.sqrt(shear.law.low * shear.law.high), rel=0.1)
    assert (shear.told, warp.told) == ("well", "not")
    assert str(warp.helps.title).startswith("strip along the warp")
    assert found.chance > 0.9


FAULTS = {
    "": "measured.toml: the file is empty",
    "[hung]\ntree_distance = \"4 m\"": "nothing is measured here",
    "[[load]]\nwater = \"20 kg\"\nmiddle = \"40 cm\"": "is missing its trees",
    "[hung]\ntree_distance = \"4 m\"\n[[load]]\nwater = \"20 kg\"": "holds no reading",
    "[hung]\ntree_distance = \"4 m\"\n[[load]]\nwater = \"1 kg\"\nmiddle = \"40 cm\"": "must be between",
    "[hung]\ntree_distance = \"4 m\"\n[[load]]\nwater = \"20 kg\"\nmidle = \"40 cm\"": "Did you mean middle?",
    STRIPS.replace('"polyester 1 in', '"nylon 1 in'): "no cord or strap of this design",
    STRIPS.replace('"bias"', '"weave"'): "unknown value",
    "[body]\nlength = \"2 m\"": "this is a design, not a file of measurements",
}  # fmt: skip


@pytest.mark.parametrize("text", FAULTS)
def test_fault_is_one_clear_sentence(tmp_path, design, text):
    with pytest.raises(DesignError, match=r"measured\.toml") as raised:
        read_measured(write(tmp_path, text), design)
    assert FAULTS[text].removeprefix("measured.toml: ") in str(raised.value)
    assert len(str(raised.value).splitlines()) == 1


def test_command_prints_what_is_told_and_writes_materials(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    words = ["fit", str(LARCH), str(write(tmp_path, STRIPS)), "--json", "own.json"]
    outcome = CliRunner().invoke(main, words, catch_exceptions=False)
    assert outcome.exit_code == 0
    assert max(map(len, outcome.stdout.splitlines())) <= 80
    flat = " ".join(outcome.stdout.split())
    assert "weft stiffness, ripstop nylon 37 g/m2 cannot be told from these measurements" in flat
    assert "All fits within its accuracy" in flat
    written = json.loads((tmp_path / "own.json").read_text(encoding="utf-8"))
    assert {each["told"] for each in written["stiffnesses"]} == {"well", "not"}
    assert (tmp_path / "larch_ridge_fitted.toml").read_text(encoding="utf-8").startswith("# Written by tautlay fit.")
    assert CliRunner().invoke(main, words, catch_exceptions=False).exit_code == 0  # its own files are replaced


def test_strips_that_contradict_each_other_are_called_out(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    text = STRIPS + STRIPS.replace('"20 mm"', '"40 mm"')
    outcome = CliRunner().invoke(main, ["fit", str(LARCH), str(write(tmp_path, text))], catch_exceptions=False)
    assert "The measurements do not fit together" in " ".join(outcome.stdout.split())
