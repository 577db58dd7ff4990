"""Every required key of the schema that is missing is named, described by a noun phrase and shown in an example."""

import re
from typing import get_origin

import pytest
from pydantic import ValidationError

from tautlay.cases.form.error_messages import translate_errors
from tautlay.cases.form.schema import DesignForm, find_table
from tautlay.cases.form.toml_table import TomlTable
from tautlay.cases.studies.sweep.sweep_form import SweepForm
from tautlay.materials import read_library

NOUN = re.compile(
    r"(?:[a-z-]+ ){0,3}?(?:length|width|depth|cloth|name|way|number|distance|table|mass|group|design|sweep|key|value|thing)\b"
)


def list_required(form, above=()):
    """Yield the schema and the path of every required key, and what stands above it."""
    for key, field in form.model_fields.items():
        if field.is_required():
            yield (*above, key)
        inner = find_table(field.annotation)
        if inner is not None:
            listed = get_origin(field.annotation) is list
            yield from list_required(inner, (*above, key, 0) if listed else (*above, key))


CASES = [(form, path) for form in (DesignForm, SweepForm) for path in dict.fromkeys(list_required(form))]


def build_tables(path):
    """Return tables in which everything above the last key of a path is there, and empty."""
    whole = place = {}
    for key, following in zip(path[:-1], path[1:], strict=True):
        if isinstance(key, int):
            continue
        inner = {}
        place[key] = [inner] if isinstance(following, int) else inner
        place = inner
    return whole


@pytest.mark.parametrize(("form", "path"), CASES, ids=[".".join(map(str, path)) for _, path in CASES])
def test_missing_key_is_named_described_and_shown(form, path):
    with pytest.raises(ValidationError) as caught:
        form.model_validate(build_tables(path), context={"library": read_library()})
    dotted = ".".join(str(key + 1) if isinstance(key, int) else key for key in path)
    (found,) = (str(issue) for issue in translate_errors(caught.value, "", "a.toml", form) if issue.key == dotted)
    words = re.fullmatch(rf"a\.toml: {re.escape(dotted)} is missing: (?P<noun>.+?)\. Example: (?P<example>.+)", found)
    assert words, found
    assert NOUN.match(words["noun"]), found
    assert words["example"].startswith((f"{path[-1]} = ", f"[{'.'.join(map(str, path))}]", f"[[{path[-1]}]]")), found
    assert not re.search(r"\bwrite the (from|how)\b", found)


def test_there_are_many_required_keys():
    assert len(CASES) > 30
    assert issubclass(DesignForm, TomlTable)
