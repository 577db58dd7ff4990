"""The notebooks run from top to bottom without a warning and give what is stored in them."""

import re
from pathlib import Path

import nbformat
import pytest
from nbclient import NotebookClient

FOLDER = Path(__file__).parents[2] / "examples"
NOTEBOOKS = sorted(FOLDER.glob("*.ipynb"))
STRICT = 'import warnings\n\nwarnings.simplefilter("error")'
LENIENT = 'warnings.simplefilter("default")'  # what the kernel does at its own end is not ours
NUMBER = re.compile(r"-?\d+(?:\.\d+)?(?:e[-+]\d+)?")
RELATIVE = 2e-3


def read_words(cell):
    """Return what a cell printed and showed, as words; of pictures only that they are there."""
    found = []
    for output in cell.outputs:
        assert output.output_type != "error"
        if output.output_type == "stream":
            assert output.name == "stdout", output.text
            found.append(output.text)
            continue
        found.extend(kind for kind in output.data if kind.startswith("image/"))
        shown = output.data.get("text/html", output.data["text/plain"])
        found.append(re.sub(r"<[^>]*>", " ", re.sub(r'src="[^"]*"', "", shown)) if "<div>" in shown else shown)
    return " ".join(" ".join(found).split())


def match_numbers(found, stored):
    """Tell whether texts say the same, numbers to a part in 500 or one of their last digit."""
    if NUMBER.sub("#", found) != NUMBER.sub("#", stored):
        return False
    pairs = zip(NUMBER.findall(found), NUMBER.findall(stored), strict=True)
    return all(abs(float(a) - float(b)) <= max(RELATIVE * abs(float(b)), 1.001 * _last_digit(b)) for a, b in pairs)


def _last_digit(text):
    """Return what one more in the last digit of a number is worth."""
    digits, _, power = text.partition("e")
    return 10.0 ** (int(power or 0) - len(digits.partition(".")[2]))


def list_code(notebook):
    return [cell for cell in notebook.cells if cell.cell_type == "code"]


def test_there_are_three_and_all_are_kept_with_what_they_show():
    assert [path.stem for path in NOTEBOOKS] == ["first_design", "solver_alone", "what_if_sweep"]
    for path in NOTEBOOKS:
        assert path.stat().st_size < 1_000_000
        notebook = nbformat.read(path, as_version=4)
        assert "invented" in notebook.cells[0].source
        assert all(cell.execution_count == place for place, cell in enumerate(list_code(notebook), 1)), path
        assert "image/png" in "".join(map(read_words, list_code(notebook))) or "base64" in path.read_text("utf-8")


@pytest.mark.slow
@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_a_notebook_gives_what_is_stored(path, tmp_path, monkeypatch):
    monkeypatch.delenv("MPLBACKEND", raising=False)  # the kernel chooses the one that draws into the notebook
    stored = list_code(nbformat.read(path, as_version=4))
    notebook = nbformat.read(path, as_version=4)
    first, last = map(nbformat.v4.new_code_cell, (STRICT, LENIENT))
    notebook.cells = [first, *notebook.cells, last]
    client = NotebookClient(
        notebook, timeout=600, kernel_name="python3", coalesce_streams=True, resources={"metadata": {"path": tmp_path}}
    )
    client.execute()
    for cell, before in zip(list_code(notebook)[1:-1], stored, strict=True):
        assert match_numbers(read_words(cell), read_words(before)), (
            f"{read_words(cell)}\n--- stored:\n{read_words(before)}"
        )
    assert list(tmp_path.iterdir()) == []  # nothing is left behind


def test_numbers_are_compared_to_a_tolerance():
    assert match_numbers("sag 0.8067 m", "sag 0.8066 m")
    assert match_numbers("off by 3.2e-02", "off by 3.3e-02")
    assert not match_numbers("sag 0.81 m", "sag 0.90 m")
    assert not match_numbers("sag 0.81 m", "sag 0.81 cm")
