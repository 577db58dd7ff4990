"""The scripts of the README are run and give what it says."""

import re
from pathlib import Path

import pytest

from tautlay.cases import read_design
from tautlay.cases.caution import list_cautions
from tautlay.materials import read_library

ROOT = Path(__file__).parents[2]


def run_scripts(tmp_path):
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    for script in re.findall(r"```python\n(.*?)```", text, re.DOTALL):
        yield script.replace("results/from_a_script", str(tmp_path)).replace("cases/larch", f"{ROOT}/cases/larch")


def test_readme_scripts_print_what_they_say(tmp_path, capsys):
    scripts = list(run_scripts(tmp_path))
    assert len(scripts) == 2
    for script in scripts:
        exec(compile(script, "README.md", "exec"), {})
    printed = capsys.readouterr().out.splitlines()
    assert printed == ["385", "converged [1184. 1184.]"]
    assert {path.name for path in tmp_path.iterdir()} == {"result.json", "shape.vtu", "design.toml"}


def test_readme_file_of_materials_can_be_read_and_used(tmp_path):
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    (block,) = re.findall(r"```toml\n(.*?)```", text, re.DOTALL)
    (tmp_path / "my_materials.toml").write_text(block, encoding="utf-8")
    design = (ROOT / "cases" / "larch_ridge.toml").read_text(encoding="utf-8")
    design = design.replace('cord = "12-strand UHMWPE 2 mm"', 'cord = "spool of 2 mm, white"')
    (tmp_path / "a.toml").write_text(design + '\n[materials]\nfiles = ["my_materials.toml"]\n', encoding="utf-8")
    hammock, library = read_design(tmp_path / "a.toml").hammock, read_library()
    plain = library.cord("12-strand UHMWPE 2 mm")
    assert hammock.channel.cord.breaking_load == pytest.approx(3600.0)
    assert (hammock.channel.cord.ea, hammock.channel.cord.diameter) == (plain.ea, plain.diameter)
    assert hammock.suspension.leg == plain
    fabric = hammock.body.fabric
    assert (fabric.warp, fabric.shear) == (pytest.approx(26e3), library.fabric("ripstop nylon 37 g/m2").shear)
    assert fabric.weft == pytest.approx(150 * 4.4482216152605 / 0.0254)  # lbf, in: NIST SP 811 B.8


def test_readme_quotes_every_caution_and_no_other():
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    section = text.split("\n## Cautions\n")[1].split("\n## ")[0]
    assert [" ".join(item.split()) for item in section.split("\n* ")[1:]] == list_cautions()
