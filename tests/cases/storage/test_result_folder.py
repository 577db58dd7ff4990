import os
import shutil
from errno import ENOSPC
from pathlib import Path
from types import SimpleNamespace

import pytest

from tautlay.cases.storage.atomic import write_beside
from tautlay.cases.storage.result_folder import check_folder, replace_folder

RESULT = '{"design": {}, "solution": {}, "forces": {}}'


def list_names(folder):
    return sorted(file.name for file in folder.iterdir())


def make_result(folder, *others):
    folder.mkdir()
    (folder / "result.json").write_text(RESULT, encoding="utf-8")
    for name in others:
        (folder / name).touch()
    return folder


def test_result_replaces_a_result_as_a_whole(tmp_path):
    home = make_result(tmp_path / "out", "shape.png", "shape.vtu", ".DS_Store")
    with replace_folder(home) as place:
        (place / "result.json").write_text(RESULT, encoding="utf-8")
    assert list_names(home) == ["result.json"]
    assert list_names(tmp_path) == ["out"]


def test_empty_folder_and_link_to_one_are_taken(tmp_path):
    (tmp_path / "real").mkdir()
    (tmp_path / "link").symlink_to("real")
    with replace_folder(tmp_path / "link") as place:
        (place / "result.json").touch()
    assert list_names(tmp_path / "real") == ["result.json"]
    assert (tmp_path / "link").is_symlink()


@pytest.mark.parametrize("names", [["design.toml"], ["result.json"], ["notes.txt"], ["shape.png", "design.toml"]])
def test_folder_of_the_user_is_left_alone(tmp_path, names):
    for name in names:
        (tmp_path / name).write_text("mine", encoding="utf-8")
    with pytest.raises(OSError, match=r"has .*, which is not part of a result; nothing was written"):
        check_folder(tmp_path)
    with pytest.raises(OSError, match="which is not part of a result"), replace_folder(tmp_path):
        raise AssertionError
    assert list_names(tmp_path) == sorted(names)


def test_result_beside_something_else_is_left_alone(tmp_path):
    make_result(tmp_path / "out", "my notes.txt")
    with pytest.raises(OSError, match=r"has my notes\.txt"):
        check_folder(tmp_path / "out")
    (make_result(tmp_path / "deep") / "design.toml").mkdir()
    with pytest.raises(OSError, match=r"has design\.toml"):
        check_folder(tmp_path / "deep")


@pytest.mark.parametrize("name", ["", ".", "../here", "/"])
def test_working_folder_and_root_are_no_place(tmp_path, monkeypatch, name):
    (tmp_path / "here").mkdir()
    monkeypatch.chdir(tmp_path / "here")
    with pytest.raises(OSError, match="cannot be replaced by a result, choose a new one"):
        check_folder(Path(name))


def test_file_link_in_a_circle_and_file_above_are_refused(tmp_path):
    (tmp_path / "file").touch()
    (tmp_path / "loop").symlink_to("loop")
    for name, words in {
        "file": "a file or a broken link",
        "loop": "broken link",
        "file/out": "is not a folder",
        "x" * 300: "file name too long",
    }.items():
        with pytest.raises(OSError, match=words):
            check_folder(tmp_path / name)


def test_longest_name_there_can_be_is_taken(tmp_path):
    home = tmp_path / ("x" * 255)
    for _ in range(2):
        with replace_folder(home) as place:
            (place / "result.json").write_text(RESULT, encoding="utf-8")
    assert list_names(tmp_path) == [home.name]


def test_no_right_and_no_room_are_told_before_anything_is_made(tmp_path, monkeypatch):
    monkeypatch.setattr(os, "access", lambda path, mode: False)
    with pytest.raises(PermissionError, match="you have no write permission in"):
        check_folder(tmp_path / "deep" / "out")
    monkeypatch.undo()
    monkeypatch.setattr(shutil, "disk_usage", lambda path: SimpleNamespace(free=1))
    with pytest.raises(OSError, match="less than 20 MB are free"):
        check_folder(tmp_path / "out")
    assert list_names(tmp_path) == []


@pytest.mark.parametrize("error", [KeyboardInterrupt, RuntimeError, SystemExit])
def test_interrupted_result_leaves_the_old_one(tmp_path, error):
    home = make_result(tmp_path / "out")
    with pytest.raises(error), replace_folder(home) as place:  # noqa: PT012
        (place / "result.json").write_text("half", encoding="utf-8")
        raise error
    assert (home / "result.json").read_text(encoding="utf-8") == RESULT
    assert list_names(tmp_path) == ["out"]


def test_interrupt_between_the_two_renames_brings_the_old_one_back(tmp_path, monkeypatch):
    home, rename = make_result(tmp_path / "out", "shape.png"), Path.rename

    def interrupt(self, target):
        if target == home and self.name.endswith(".new"):
            raise KeyboardInterrupt
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", interrupt)
    with pytest.raises(KeyboardInterrupt), replace_folder(home):
        pass
    assert list_names(tmp_path) == ["out"]
    assert list_names(home) == ["result.json", "shape.png"]


def test_interrupt_while_clearing_up_does_not_keep_it_from_being_done(tmp_path, monkeypatch):
    home, remove, calls = make_result(tmp_path / "out"), shutil.rmtree, []

    def interrupt(path, **options):
        calls.append(path)
        if len(calls) == 2:
            raise KeyboardInterrupt
        remove(path, **options)

    monkeypatch.setattr(shutil, "rmtree", interrupt)
    with pytest.raises(KeyboardInterrupt), replace_folder(home) as place:
        (place / "shape.png").touch()
    assert list_names(tmp_path) == ["out"]
    assert list_names(home) == ["shape.png"]


def test_full_disk_names_the_folder_and_no_hidden_file(tmp_path):
    with pytest.raises(OSError, match="no space left") as caught, replace_folder(tmp_path / "out") as place:
        raise OSError(ENOSPC, "No space left on device", str(place / ".shape.0123.vtu"))
    assert caught.value.filename == str(tmp_path / "out")
    assert caught.value.strerror == "the result cannot be written: no space left on device"
    assert list_names(tmp_path) == []


def test_error_of_a_file_inside_is_told_once_and_of_the_folder(tmp_path):
    home = tmp_path / "out"
    with (
        pytest.raises(OSError, match="no space left") as caught,
        replace_folder(home) as place,
        write_beside(place / "a"),
    ):
        raise OSError(ENOSPC, "No space left on device")
    assert caught.value.filename == str(home)
    assert caught.value.strerror == "the result cannot be written: no space left on device"
