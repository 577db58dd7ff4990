"""The scripts of the README are run and give what it says."""

import re
from pathlib import Path

from tautlay.cases.caution import list_cautions

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


def test_readme_quotes_every_caution_and_no_other():
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    section = text.split("\n## Cautions\n")[1].split("\n## ")[0]
    assert [" ".join(item.split()) for item in section.split("\n* ")[1:]] == list_cautions()
