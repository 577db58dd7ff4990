"""DXF as text: blocks, signs beyond Windows 1252, and words that would be codes."""

import io
import os
import re
import subprocess
import sys
from dataclasses import replace

import ezdxf
import ezdxf.recover
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tautlay.cutting.drawing.drawing import Lettering, LineDrawing, LineKind, PointKind, PointMark, Stroke
from tautlay.cutting.drawing.dxf import write_dxf

RING = np.array([[0.0, 0.0], [0.3, 0.0], [0.2, 0.15]])


def draw(text="words"):
    """Return a piece with a closed cut, a line, a point and words."""
    strokes = (Stroke(LineKind.CUT, RING, closed=True), Stroke(LineKind.GRAIN, RING[:2]))
    captions = (Lettering(text, np.array([0.1, 0.05]), 0.004, 0.5),)
    return LineDrawing("a piece", strokes, (PointMark(PointKind.NOTCH, RING[1]),), captions)


def read(content):
    return ezdxf.read(io.StringIO(content.decode("cp1252"), newline=None))


def test_no_entity_has_a_handle_and_the_file_says_so():
    content = write_dxf([draw(), replace(draw(), name="another")], ["title"]).decode("cp1252")
    groups = content.split("\n")
    pairs = list(zip(groups[:-1:2], groups[1::2], strict=True))
    assert pairs[pairs.index(("  9", "$HANDLING")) + 1] == (" 70", "0")
    sections = [number for number, pair in enumerate(pairs) if pair == ("  0", "SECTION")]
    entities = pairs[next(number for number in sections if pairs[number + 1][1] == "BLOCKS") :]
    assert not [pair for pair in entities if pair[0].strip() == "5"]


def test_every_block_has_what_was_drawn_in_it():
    other = replace(draw("other"), name="another", strokes=(Stroke(LineKind.SEW, 2 * RING),), points=())
    document = read(write_dxf([draw(), other], ["title"]))
    found = {
        block.name: [(entity.dxftype(), entity.dxf.layer) for entity in block]
        for block in document.blocks
        if not block.name.startswith("*")
    }
    assert found == {
        "a_piece": [("TEXT", "15"), ("POLYLINE", "1"), ("LINE", "7"), ("POINT", "4")],
        "another": [("TEXT", "15"), ("POLYLINE", "14")],
    }
    assert sorted(entity.dxftype() for entity in document.modelspace()) == ["INSERT", "INSERT", "TEXT"]


def test_groups_of_a_code_and_a_value_take_turns():
    lines = write_dxf([draw()], ["title"]).decode("cp1252").split("\n")
    assert lines[-1] == ""
    assert all(re.fullmatch(r" *\d{1,4}", code) for code in lines[:-1:2])
    assert lines[-3:-1] == ["  0", "EOF"]


@given(st.floats(-5.0, 5.0), st.floats(-5.0, 5.0), st.floats(-3.0, 3.0))
def test_points_and_words_come_back_where_they_were(x, y, angle):
    ring = RING + [x, y]
    caption = Lettering("words", ring[2], 0.004, angle)
    drawing = LineDrawing("piece", (Stroke(LineKind.CUT, ring, closed=True),), (), (caption,))
    document = read(write_dxf([drawing], []))
    text, line = document.blocks.get("piece")
    assert np.array([tuple(v.dxf.location)[:2] for v in line.vertices]) == pytest.approx(1000 * ring, abs=1e-6)
    assert line.is_closed
    assert tuple(text.dxf.align_point)[:2] == pytest.approx(1000 * ring[2], abs=1e-6)
    assert np.radians(text.dxf.rotation) == pytest.approx(angle, abs=1e-6)
    assert text.dxf.height == pytest.approx(4.0)


@pytest.mark.parametrize(
    ("name", "found"),
    [
        ("Zürich", "Zürich"),
        ("Łódź", "Łódź"),
        ("50%%d", "50% %d"),
        ("two\nlines", "twolines"),
        ("end^", "end"),
        ("\N{BLACK SCISSORS}", "\N{BLACK SCISSORS}"),
        ("\N{SPOOL OF THREAD}", "\N{REPLACEMENT CHARACTER}"),  # no code of four digits names it
    ],
)
def test_words_are_read_back(tmp_path, name, found):
    (tmp_path / "a.dxf").write_bytes(write_dxf([draw(name)], [name]))
    document, auditor = ezdxf.recover.readfile(tmp_path / "a.dxf")  # it decodes signs of other pages
    assert auditor.errors == []
    assert [each.dxf.text for each in document.blocks.get("a_piece").query("TEXT")] == [found]
    assert [each.dxf.text for each in document.modelspace().query("TEXT")] == [found]


WRITE = """
import sys
from tautlay.cutting.drawing.dxf import write_dxf
sys.stdout.buffer.write(write_dxf([], ["title"]))
"""


@pytest.mark.parametrize("content", [b"\xff\xfe", b"[]", b"[core\n"])
def test_what_other_programs_keep_in_a_home_is_not_read(tmp_path, content):
    """Their lists of fonts and settings may be damaged; without a home there are none, and nothing is said of it."""
    kept = tmp_path / "ezdxf"
    kept.mkdir()
    for name in ("font_manager_cache.json", "ezdxf.ini"):
        (kept / name).write_bytes(content)
    there = {**os.environ, "XDG_CACHE_HOME": str(tmp_path), "XDG_CONFIG_HOME": str(tmp_path)}
    done = subprocess.run([sys.executable, "-c", WRITE], capture_output=True, check=False, env=there)
    assert (done.returncode, done.stderr) == (0, b"")
    assert done.stdout == write_dxf([], ["title"])
    assert {path.read_bytes() for path in kept.iterdir()} == {content}
