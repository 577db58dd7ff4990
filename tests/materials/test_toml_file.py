"""Files of users: one guarded reader, seen through both kinds of file that go through it."""

import os
from importlib.resources import files
from pathlib import Path

import pytest

from tautlay.cases import DesignError, read_design
from tautlay.materials import MaterialError, parse_toml, read_library, read_toml
from tautlay.materials.printable import join_sentences

GOOD = {
    read_design: (Path(str(files("tautlay.cases"))) / "larch_ridge.toml").read_bytes(),
    read_library: b'[cord."my string"]\nbase = "12-strand UHMWPE 2 mm"\n',
}
READERS = pytest.mark.parametrize("read", GOOD, ids=["design", "materials"])

BAD = {
    "long number": (b"a = " + b"9" * 5000, "the line is longer than 2000 characters"),
    "nested lists": (b"a = " + b"[" * 1900 + b"]" * 90, "nested too deeply"),
    "nested lists that TOML reads": (b"a = " + b"[" * 40 + b"]" * 40, "nested too deeply"),
    "nested tables": (b"[" + b".".join([b"a"] * 900) + b"]", "nested too deeply"),
    "lists over many lines": (b"a = " + b"[\n" * 3000, "nested too deeply"),
    "no text": (b"\xff\xfe", "this is not a text file"),
    "control character": (b"a = '\x1b[2J'", "this cannot be read"),
    "empty": (b" \n", "the file is empty"),
    "too large": (b"#\n" * 100_001, "200002 bytes are too many"),
    "bare quantity": (b"[body]\nlength = 2 m", 'Put a quantity in quotes: "2 m"'),
}


def refuse(read, path):
    with pytest.raises((DesignError, MaterialError)) as caught:
        read(path)
    (fault,) = caught.value.faults
    assert str(fault).startswith(str(path))
    return str(fault)


@READERS
@pytest.mark.parametrize("name", BAD)
def test_content_that_is_no_use_is_one_sentence(tmp_path, read, name):
    content, words = BAD[name]
    (tmp_path / "a.toml").write_bytes(content)
    assert words in refuse(read, tmp_path / "a.toml")


@READERS
def test_places_that_are_no_file_are_one_sentence(tmp_path, read):
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "loop").symlink_to("loop")
    (tmp_path / "file").touch()
    for path, words in {
        Path("/dev/zero"): "not an ordinary file",
        tmp_path / "pipe": "not an ordinary file",
        tmp_path: "this is a folder",
        tmp_path / "none.toml": "there is no such file",
        tmp_path / "file" / "a.toml": "there is no such file",
        tmp_path / "loop": "its symbolic links form a loop",
        tmp_path / ("x" * 300): "the file cannot be read: file name too long",
    }.items():
        assert words in refuse(read, path)


@READERS
def test_byte_order_mark_and_line_ends_of_other_systems_are_no_fault(tmp_path, read):
    (tmp_path / "a.toml").write_bytes(b"\xef\xbb\xbf" + GOOD[read].replace(b"\n", b"\r\n"))
    read(tmp_path / "a.toml")


def test_text_and_values_belong_together(tmp_path):
    (tmp_path / "a.toml").write_text('a = "ü"\n', encoding="utf-8")
    assert read_toml(tmp_path / "a.toml") == ('a = "ü"\n', {"a": "ü"})
    assert parse_toml("a = [[[[1]]]]") == {"a": [[[[1]]]]}


@READERS
def test_control_characters_in_keys_do_not_reach_the_terminal(tmp_path, read):
    (tmp_path / "a.toml").write_bytes(GOOD[read] + b'\n["\\u001b[2J"."x\\ny"]\nz = 1\n')
    assert "\x1b" not in refuse(read, tmp_path / "a.toml")


@pytest.mark.parametrize("field", ['kind = "a\\nb"', 'note = "\\u001b[2J"', 'source = "\\u0000"'])
def test_control_characters_in_materials_are_refused(tmp_path, field):
    (tmp_path / "a.toml").write_bytes(GOOD[read_library] + field.encode())
    words = ("must not have line breaks or control characters", "has the control character")
    assert any(word in refuse(read_library, tmp_path / "a.toml") for word in words)


def test_name_with_control_characters_is_refused(tmp_path):
    (tmp_path / "a.toml").write_bytes(GOOD[read_library].replace(b"string", b"str\\ning"))
    assert "a name must have a visible character" in refuse(read_library, tmp_path / "a.toml")


@READERS
def test_very_many_faults_are_counted_and_not_listed(tmp_path, read):
    many = "".join(f"k{number}=1\n" for number in range(20_000))
    (tmp_path / "a.toml").write_text(many + "[body]\n", encoding="utf-8")
    with pytest.raises((DesignError, MaterialError)) as caught:
        read(tmp_path / "a.toml")
    lines = str(caught.value).splitlines()
    assert len(lines) == 41
    assert lines[-1] == f"and {len(caught.value.faults) - 40:,} more."
    assert join_sentences("ab") == "a\nb"


def test_design_with_bad_materials_says_so_in_place(tmp_path):
    design = GOOD[read_design].decode()
    (tmp_path / "a.toml").write_text(
        design.replace("[body]", '[materials]\nfiles = ["/dev/zero"]\n[body]', 1), encoding="utf-8"
    )
    with pytest.raises(DesignError, match=r"a\.toml:\d+: materials\.files: /dev/zero: this is not an ordinary file"):
        read_design(tmp_path / "a.toml")
