"""Lines of keys, checked against tomllib: every key it reads is found, on a line that holds it."""

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tautlay.materials import CATEGORIES, find_line, nearest_line
from tautlay.materials.library import FOLDER
from tautlay.materials.toml_lines import key_lines

TEXT = '''# comment with [brackets] and a = 1
title = "a # no comment"

[body]
length = "2 m"   # key = "no"
"head width" = '1 in'
note = """
[not.a.table]
length = "no" \\"""
"""
raw = \'\'\'
[neither]
\'\'\'
arc.depth = "20 cm"
list = [
  1, # one
  [2, 3],
  { name = "x", deep = { er = 1 } },
]
empty = []
none = {}

[fabric."ripstop nylon 37 g/m2"]
warp = { value = "30 N/mm", range = ["20 N/mm",
  "45 N/mm"] }

[[bar]]
length = 1
[bar.section]
wall = 2
[[bar]]
length = 3
date = 1979-05-27 07:32:00
[ spaced . "out" ]
a."b.c" = true
"\\u00e9" = 1
'''
LINES = {
    ("title",): 2,
    ("body",): 4,
    ("body", "length"): 5,
    ("body", "head width"): 6,
    ("body", "note"): 7,
    ("body", "raw"): 11,
    ("body", "arc"): 14,
    ("body", "arc", "depth"): 14,
    ("body", "list"): 15,
    ("body", "list", 0): 16,
    ("body", "list", 1, 1): 17,
    ("body", "list", 2, "name"): 18,
    ("body", "list", 2, "deep", "er"): 18,
    ("body", "none"): 21,
    ("fabric", "ripstop nylon 37 g/m2"): 23,
    ("fabric", "ripstop nylon 37 g/m2", "warp", "range"): 24,
    ("fabric", "ripstop nylon 37 g/m2", "warp", "range", 1): 25,
    ("bar", 0, "length"): 28,
    ("bar", 0, "section", "wall"): 30,
    ("bar", 1, "length"): 32,
    ("bar", 1, "date"): 33,
    ("spaced", "out"): 34,
    ("spaced", "out", "a", "b.c"): 35,
    ("spaced", "out", "é"): 36,
}


def paths_of(data, above=()):
    items = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, value in items:
        yield (*above, key)
        yield from paths_of(value, (*above, key))


@pytest.mark.parametrize(("path", "line"), LINES.items(), ids=str)
def test_line_of_a_key(path, line):
    assert find_line(TEXT, path) == line


def test_keys_are_exactly_those_tomllib_reads():
    assert set(key_lines(TEXT)) == set(paths_of(tomllib.loads(TEXT)))


def test_windows_line_ends_count_once():
    assert find_line(TEXT.replace("\n", "\r\n"), ["bar", 1, "length"]) == 32


@pytest.mark.parametrize("category", CATEGORIES)
def test_keys_of_the_library_are_those_tomllib_reads(category):
    text = Path(FOLDER / f"{category}.toml").read_text(encoding="utf-8")
    assert set(key_lines(text)) == set(paths_of(tomllib.loads(text)))


def test_absent_key_has_no_line_but_its_table_has():
    assert find_line(TEXT, ["body", "fabric"]) is None
    assert nearest_line(TEXT, ["body", "fabric", "warp"]) == 4
    assert nearest_line(TEXT, ["nothing"]) is None


def test_text_that_is_no_toml_is_refused():
    with pytest.raises(ValueError, match="line 2 is not valid TOML"):
        find_line('a = 1\n= "2"', ["a"])


def write_value(value):
    if isinstance(value, list):
        return "[" + ",\n ".join(map(write_value, value)) + "]"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{write_value(k)} = {write_value(v)}" for k, v in value.items()) + "}"
    escaped = "".join(f"\\u{ord(c):04x}" if c in '"\\' or ord(c) < 32 or ord(c) == 127 else c for c in value)
    return f'"{escaped}"'


LEAF = st.text(st.characters(codec="utf-8", max_codepoint=0xFFFF), max_size=6)
TREE = st.recursive(LEAF, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(LEAF, inner, max_size=3))


@given(st.dictionaries(LEAF, TREE, max_size=4))
def test_any_document_has_the_keys_tomllib_reads(data):
    text = "\n".join(f"{write_value(key)} = {write_value(value)}" for key, value in data.items())
    assert tomllib.loads(text) == data
    assert set(key_lines(text)) == set(paths_of(data))
