"""The faults of a design given as text."""

import pytest

from tautlay.cases import DesignError, read_design


def list_faults(folder, text):
    (folder / "a.toml").write_text(text, encoding="utf-8")
    with pytest.raises(DesignError) as caught:
        read_design(folder / "a.toml")
    return caught.value.faults
