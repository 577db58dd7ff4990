import pytest

from tautlay.cases.storage.atomic import write_beside, write_text


def list_names(folder):
    return sorted(file.name for file in folder.iterdir())


def test_text_appears_whole(tmp_path):
    write_text(tmp_path / "deep" / "note.txt", "grüß\n")
    assert (tmp_path / "deep" / "note.txt").read_bytes() == "grüß\n".encode()
    assert list_names(tmp_path / "deep") == ["note.txt"]


@pytest.mark.parametrize("error", [KeyboardInterrupt, RuntimeError, SystemExit])
def test_interrupted_write_leaves_the_old_file_and_nothing_else(tmp_path, error):
    target = tmp_path / "result.json"
    target.write_text("old", encoding="utf-8")
    with pytest.raises(error), write_beside(target) as beside:  # noqa: PT012
        beside.write_text("half", encoding="utf-8")
        raise error
    assert target.read_text(encoding="utf-8") == "old"
    assert list_names(tmp_path) == ["result.json"]


def test_failed_rename_leaves_no_temporary_file(tmp_path):
    (tmp_path / "taken" / "inside").mkdir(parents=True)
    with pytest.raises(OSError, match="taken"):
        write_text(tmp_path / "taken", "text")
    assert list_names(tmp_path) == ["taken"]


def test_temporary_name_keeps_the_suffix_and_is_hidden(tmp_path):
    with write_beside(tmp_path / "shape.vtu") as beside:
        assert beside.suffix == ".vtu"
        assert beside.name.startswith(".")
        assert beside.parent == tmp_path
        beside.touch()


def test_error_names_the_file_and_not_the_temporary_one(tmp_path):
    with pytest.raises(OSError, match="no space left") as caught, write_beside(tmp_path / "a.txt") as beside:
        raise OSError(28, "No space left on device", str(beside))
    assert (caught.value.errno, caught.value.filename) == (28, str(tmp_path / "a.txt"))
    assert list_names(tmp_path) == []


@pytest.mark.parametrize(("name", "words"), [("x" * 300, "file name too long"), ("taken/a.txt", "file exists")])
def test_place_that_no_file_can_have_is_named_as_given(tmp_path, name, words):
    (tmp_path / "taken").touch()
    with pytest.raises(OSError, match=words) as caught:
        write_text(tmp_path / name, "text")
    assert caught.value.filename == str(tmp_path / name)
