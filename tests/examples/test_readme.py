"""The scripts of the README and the guides are run and give what they say."""

import re
from io import StringIO
from pathlib import Path

import pytest
from click.testing import CliRunner
from rich.console import Console

from tautlay.cases import read_design, solve_case
from tautlay.cases.command.cli import main
from tautlay.cases.command.printing.overview import print_overview
from tautlay.cases.display.reading import show_reading
from tautlay.cases.display.result_rows import list_comfort
from tautlay.cases.display.safety_cautions import list_cautions
from tautlay.hammock.body_size import find_percentile
from tautlay.hammock.person import Arms, LyingSide, Sex
from tautlay.materials import Cord, Fabric, read_library

from .._pages import read_pages

ROOT = Path(__file__).parents[2]


def run_scripts(tmp_path):
    text = read_pages()
    for script in re.findall(r"```python\n(.*?)```", text, re.DOTALL):
        yield (
            script.replace("patterns/from_a_script", str(tmp_path / "pattern")).replace(
                "cases/larch", f"{ROOT}/cases/larch"
            )
        )


def find_block(text, start):
    """Return the block of TOML that begins with a table."""
    (block,) = (block for block in re.findall(r"```toml\n(.*?)```", text, re.DOTALL) if block.startswith(start))
    return block


def test_readme_scripts_print_what_they_say(tmp_path, capsys):
    scripts = list(run_scripts(tmp_path))
    assert len(scripts) == 3
    for script in scripts:
        exec(compile(script, "README.md", "exec"), {})
    printed = capsys.readouterr().out.splitlines()
    assert printed == ["2.07 0", "converged [1184. 1184.]", "True ['side cord ends']"]
    assert (tmp_path / "pattern" / "sheets.pdf").is_file()


@pytest.mark.slow
def test_the_script_of_the_guide_runs(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    script = (ROOT / "docs" / "guides" / "from_a_script.py").read_text(encoding="utf-8")
    exec(compile(script, "from_a_script.py", "exec"), {})
    printed = capsys.readouterr().out
    assert "head bar thrust 385 N" in printed
    assert "tightest: left head leg, splice breaks, factor of safety 6.37 of 5.00" in printed
    saved = {path.name for path in (tmp_path / "results" / "from_a_script").iterdir()}
    assert saved == {"result.json", "shape.vtu", "design.toml"}


def test_readme_file_of_materials_can_be_read_and_used(tmp_path):
    text = read_pages()
    block = find_block(text, '[cord."')
    (tmp_path / "my_materials.toml").write_text(block, encoding="utf-8")
    design = (ROOT / "cases" / "larch_ridge.toml").read_text(encoding="utf-8")
    design = design.replace('cord = "12-strand UHMWPE 2 mm"', 'cord = "spool of 2 mm, white"')
    (tmp_path / "a.toml").write_text(design + '\n[materials]\nfiles = ["my_materials.toml"]\n', encoding="utf-8")
    hammock, library = read_design(tmp_path / "a.toml").hammock, read_library()
    plain = library.find(Cord, "12-strand UHMWPE 2 mm")
    assert hammock.channel.cord.breaking_load == pytest.approx(3600.0)
    assert (hammock.channel.cord.ea, hammock.channel.cord.diameter) == (plain.ea, plain.diameter)
    assert hammock.suspension.head.leg == plain
    fabric = hammock.body.fabric
    assert (fabric.warp, fabric.shear) == (pytest.approx(26e3), library.find(Fabric, "ripstop nylon 37 g/m2").shear)
    assert fabric.weft == pytest.approx(150 * 4.4482216152605 / 0.0254)  # lbf, in: NIST SP 811 B.8


def test_readme_channel_can_be_sewn(tmp_path):
    """A channel 11/16 in wide, the cord pulling on three layers, six sewn through."""
    text = read_pages()
    design = (ROOT / "cases" / "larch_ridge.toml").read_text(encoding="utf-8")
    start, end = design.index("[channel.fold]"), design.index("[head_bar]")
    changed = design[:start] + find_block(text, "[channel.fold]") + "\n" + design[end:]
    (tmp_path / "a.toml").write_text(changed, encoding="utf-8")
    fold = solve_case(read_design(tmp_path / "a.toml"), mesh_size=0.15).summary["channel"]["fold"]
    assert fold["finished_width_m"] == pytest.approx(11 / 16 * 0.0254)  # in: NIST SP 811 B.8
    assert (fold["layers_pulled"], fold["layers_sewn"]) == (3, 6)


def solve_lying(folder, tables):
    """Solve larch_ridge coarsely with other tables of person and load."""
    design = (ROOT / "cases" / "larch_ridge.toml").read_text(encoding="utf-8")
    start, end = design.index("[person]"), design.index("[mesh]")
    (folder / "a.toml").write_text(design[:start] + tables + "\n" + design[end:], encoding="utf-8")
    return solve_case(read_design(folder / "a.toml"), mesh_size=0.1)


@pytest.mark.slow
def test_readme_person_can_be_laid_into_a_hammock(tmp_path):
    text = read_pages()
    block = find_block(text, "[person]")
    lain = solve_lying(tmp_path, block)
    person, summary = lain.design.person, lain.summary
    assert (person.stature, person.mass) == find_percentile(Sex.FEMALE, 5.0)
    assert (person.posture.arms, person.posture.knee_pad) == (Arms.SIDES, pytest.approx(0.05))
    assert summary["design"]["load"] == "lying"
    assert not any("NOT LYING" in note for note in summary["notes"])
    flat = solve_lying(tmp_path, block.replace('knee_pad = "5 cm"', 'knee_pad = "0 cm"')).summary
    assert summary["comfort"]["knee_flexion_rad"] > flat["comfort"]["knee_flexion_rad"]


def test_readme_quotes_the_first_screen_and_the_lay():
    """What the report says of the demonstration, on its own mesh."""
    text = read_pages()
    result = solve_case(read_design(ROOT / "cases" / "larch_ridge.toml"), load="lying")
    quoted = text.split("    Lay and comfort, as near as can be computed\n")[1].split("    ...")[0].splitlines()[1:]
    found = []
    for line in list_comfort(result.comfort):
        shown = show_reading(line, "metric")
        rows = [row for row in quoted if row.strip().startswith(f"{line.title}  ")]
        assert all(f"  {shown}  " in row and row.endswith(line.remark) for row in rows), rows
        found += rows
    assert sorted(found) == sorted(quoted)
    console = Console(width=80, record=True, force_terminal=False, file=StringIO())
    print_overview(result.record, result.findings, "both", console)
    printed = [line.rstrip() for line in console.export_text().splitlines()]
    screen = text.split("one screen, here shortened:\n\n")[1].split("\n\nA part")[0].splitlines()
    assert len(screen) > 20
    for row in screen:
        assert row.strip() in ("", "...") or row.removeprefix("    ") in printed, row


def test_readme_quotes_what_the_light_build_weighs():
    text = read_pages()
    printed = CliRunner().invoke(main, ["weigh", str(ROOT / "cases" / "heron_ford.toml")]).stdout
    rows = [" ".join(line.split()) for line in printed.splitlines()]
    quoted = text.split("it says, shortened:\n\n")[1].split("\n\n")[0].splitlines()
    assert len(quoted) == 12
    for line in quoted:
        assert line.strip() == "..." or " ".join(line.split()) in rows, line


def test_readme_keys_for_the_scales_can_be_used(tmp_path):
    """Each stands so in the demonstration they are quoted from, which is read without a fault."""
    text = read_pages()
    design = (ROOT / "cases" / "heron_ford.toml").read_text(encoding="utf-8")
    for line in find_block(text, "[body.hem]").splitlines():
        key = line.split("#")[0].strip()
        assert f"\n{key}\n" in design or not key, key


@pytest.mark.parametrize("name", ["starter", "larch_ridge", "otter_creek", "heron_ford"])
def test_commented_keys_of_person_and_load_can_be_used(tmp_path, name):
    text = (ROOT / "cases" / f"{name}.toml").read_text(encoding="utf-8")
    keys = ("lie", "arms", "knee_pad", "pillow", "offset", "sudden_factor")
    for key in keys:
        assert text.count(f"\n# {key} = ") == 1, key
        text = text.replace(f"\n# {key} = ", f"\n{key} = ")
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    design = read_design(tmp_path / "a.toml")
    assert (design.person.posture.lie, design.person.posture.arms) == (LyingSide.BACK, Arms.SIDES)
    assert design.sudden_factor == 2.0
    before, person = text.split("\n[person]\n")
    lines = [line for line in person.splitlines() if not line.startswith(("stature", "mass", "sex"))]
    changed = "\n".join([before, "[person]", *lines]).replace("# who = ", "who = ")
    (tmp_path / "b.toml").write_text(changed, encoding="utf-8")
    assert read_design(tmp_path / "b.toml").person.stature != design.person.stature


def test_picture_of_the_readme_is_small():
    assert 100_000 < (ROOT / "cases" / "larch_ridge.png").stat().st_size < 250_000


def test_readme_quotes_every_caution_and_no_other():
    text = read_pages()
    section = text.split("\n## Cautions\n")[1].split("\n## ")[0]
    assert [" ".join(item.split()) for item in section.split("\n* ")[1:]] == list_cautions()


def test_readme_verdict_can_be_asked_for(tmp_path):
    block = find_block(read_pages(), "[judge]")
    design = (ROOT / "cases" / "larch_ridge.toml").read_text(encoding="utf-8")
    design = design[: design.index("[person]")] + design[design.index("[load]") :]
    (tmp_path / "a.toml").write_text(f"{design}\n{block}", encoding="utf-8")
    terms = read_design(tmp_path / "a.toml").terms
    assert [str(load) for load in terms.loads] == ["lying", "sitting", "sudden"]
    assert [who.name for who in terms.people] == ["guest", "woman, 50 %"]
    assert {limit.key for limit in terms.limits} >= {"back_sag_m", "packed_kg", "side_push_N", "foot_room_m"}
