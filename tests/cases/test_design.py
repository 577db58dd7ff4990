"""Good designs are read into SI; factors are those of NIST SP 811 (2008), Appendix B.8."""

from importlib.resources import files
from math import radians
from pathlib import Path

import pytest

from tautlay.cases import DesignError, read_design
from tautlay.hammock import ArcShape, Attachment, Sex

INCH, FOOT, POUND = 0.0254, 0.3048, 0.45359237  # exact, NIST SP 811 B.8
HOME = Path(str(files("tautlay.cases")))


@pytest.mark.parametrize("name", ["larch_ridge", "otter_creek", "heron_ford", "starter"])
def test_designs_that_come_along_have_no_fault(name):
    design = read_design(HOME / f"{name}.toml")
    assert design.text == (HOME / f"{name}.toml").read_text(encoding="utf-8")
    assert design.load == "distributed"


@pytest.mark.parametrize("name", ["larch_ridge", "otter_creek", "heron_ford"])
def test_demonstrations_say_that_they_are_invented(name):
    design = read_design(HOME / f"{name}.toml")
    assert "INVENTED" in design.text.splitlines()[0]
    assert "Invented" in design.note


def test_metric_design_in_si():
    design = read_design(HOME / "larch_ridge.toml")
    hammock, person = design.hammock, design.person
    assert hammock.body.length == pytest.approx(2.02, rel=1e-15)
    assert hammock.body.left_arc == hammock.body.right_arc
    assert hammock.body.left_arc.depth == pytest.approx(0.17, rel=1e-15)
    assert hammock.body.left_arc.shape is ArcShape.PARABOLA
    assert hammock.channel.attachment is Attachment.SEWN
    assert hammock.channel.cord_length is None
    assert hammock.suspension.hang_angle == pytest.approx(radians(30), rel=1e-15)
    assert hammock.suspension.tree_distance is None
    assert hammock.suspension.head.leg_length == hammock.suspension.foot.leg_length == pytest.approx(0.7)
    assert (person.stature, person.mass, person.sex) == (pytest.approx(1.66), 64.0, Sex.FEMALE)
    assert design.mesh_size == pytest.approx(0.04)
    assert design.sources["body.fabric"] is hammock.body.fabric


def test_imperial_design_in_si():
    design = read_design(HOME / "otter_creek.toml")
    hammock, person = design.hammock, design.person
    assert hammock.body.length == pytest.approx(6 * FOOT + 10 * INCH, rel=1e-14)
    assert hammock.body.left_arc.depth == pytest.approx(7.5 * INCH, rel=1e-14)
    assert hammock.channel.attachment is Attachment.SEWN
    assert hammock.body.foot_width == pytest.approx(45 * INCH, rel=1e-14)
    assert hammock.head_bar.set_in == pytest.approx(5 * INCH, rel=1e-14)
    assert hammock.suspension.head.leg_length == pytest.approx(28 * INCH, rel=1e-14)
    assert hammock.suspension.foot.strap_height == pytest.approx(5 * FOOT + 10 * INCH, rel=1e-14)
    assert hammock.suspension.tree_distance == pytest.approx(13 * FOOT, rel=1e-14)
    assert person.mass == pytest.approx(195 * POUND, rel=1e-14)
    assert person.stature == pytest.approx(73 * INCH, rel=1e-14)


def test_arcs_may_differ(tmp_path):
    text = (HOME / "larch_ridge.toml").read_text(encoding="utf-8")
    both = '[body.left_arc]\ndepth = "15 cm"\nshape = "circle"\n[body.right_arc]\ndepth = "18 cm"\n[channel]'
    start, end = text.index("[body.arc]"), text.index("[channel]")
    (tmp_path / "a.toml").write_text(text[:start] + both + text[end + len("[channel]") :], encoding="utf-8")
    body = read_design(tmp_path / "a.toml").hammock.body
    assert (body.left_arc.depth, body.left_arc.shape) == (pytest.approx(0.15), ArcShape.CIRCLE)
    assert (body.right_arc.depth, body.right_arc.shape) == (pytest.approx(0.18), ArcShape.PARABOLA)


def add_materials(folder, cloth):
    text = (HOME / "larch_ridge.toml").read_text(encoding="utf-8").replace("ripstop nylon 37 g/m2", "my cloth")
    text = text.replace("[body]", '[materials]\nfiles = ["my.toml"]\n\n[body]', 1)
    (folder / "a.toml").write_text(text, encoding="utf-8")
    (folder / "my.toml").write_text(cloth, encoding="utf-8")
    return folder / "a.toml"


def test_own_materials_are_found_beside_the_design(tmp_path):
    cloth = (
        '[fabric."my cloth"]\nbase = "ripstop nylon 37 g/m2"\n'
        'areal_mass = { value = "50 g/m2", source = "weighed", status = "seen" }\n'
    )
    design = read_design(add_materials(tmp_path, cloth))
    assert design.hammock.body.fabric.areal_mass == pytest.approx(0.05)
    assert design.sources["body.fabric"].provenance["areal_mass"].source == "weighed"


def test_faults_of_own_materials_are_told_with_those_of_the_design(tmp_path):
    with pytest.raises(DesignError) as caught:
        read_design(add_materials(tmp_path, '[fabric."my cloth"]\nareal_mass = "50 kg/m2"\n'))
    lines = str(caught.value).splitlines()
    assert any("my.toml, line 2" in line and "materials.files" in line for line in lines)
    assert any("body.fabric" in line and "'my cloth'" in line for line in lines)


def test_byte_order_mark_and_windows_line_ends_are_read(tmp_path):
    text = (HOME / "larch_ridge.toml").read_text(encoding="utf-8")
    (tmp_path / "a.toml").write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    assert read_design(tmp_path / "a.toml").text == text
