import json
from pathlib import Path

import pytest

from tautlay.cases.storage.result_json import encode_result
from tautlay.cases.storage.sentence_store import keep_sentences, restore_sentences
from tautlay.cases.storage.stored_result import ResultError, read_result
from tautlay.cases.unit_display import write_sentence
from tautlay.materials import Sentence, make_sentence

INNER = make_sentence("{far:length.2} {{inboard}}", far=0.0254)
SENTENCES = {
    "a": make_sentence("{low:length} above {what}", low=0.254, what="ground"),
    "deep": [{"b": make_sentence("{place}: {pull:line_load.4} of {share:.0%}", place=INNER, pull=1751.268, share=0.5)}],
    "plain": "25.4 cm",
    "number": 3.0,
}


@pytest.mark.parametrize("units", ["metric", "imperial", "both"])
def test_sentences_survive_a_file_in_all_units(units):
    read = restore_sentences(json.loads(json.dumps(SENTENCES)), json.loads(json.dumps(keep_sentences(SENTENCES))))
    assert read == SENTENCES
    for kept, made in ((read["a"], SENTENCES["a"]), (read["deep"][0]["b"], SENTENCES["deep"][0]["b"])):
        assert isinstance(kept, Sentence)
        assert write_sentence(kept, units) == write_sentence(made, units)


def test_quantities_of_a_nested_sentence_are_written_in_imperial_units():
    read = restore_sentences(json.loads(json.dumps(SENTENCES)), keep_sentences(SENTENCES))
    # 1751.268 N/m = 10.00 lbf/in, 25.4 mm = 1 in: NIST SP 811
    assert write_sentence(read["deep"][0]["b"], "imperial") == "1.0 in {inboard}: 10.00 lbf/in of 50%"


def test_a_sentence_that_says_something_else_is_refused():
    with pytest.raises(ValueError, match="is kept as"):
        restore_sentences(["1 m"], {"1 m": {"template": "{q0:length}", "values_SI": [2.0]}})


@pytest.fixture(scope="module")
def folder(solved_larch, tmp_path_factory):
    place = tmp_path_factory.mktemp("kept") / "larch"
    solved_larch.save(place)
    return place


def test_result_is_read_back_as_it_was(folder, solved_larch):
    kept = read_result(folder)
    assert kept.record == solved_larch.record
    assert json.dumps(encode_result(kept.record)) == json.dumps(solved_larch.summary)
    ours, theirs = (found.record.fabric.highest_line_stress_place for found in (kept, solved_larch))
    assert write_sentence(ours, "imperial") == write_sentence(theirs, "imperial")
    assert " in" in write_sentence(ours, "imperial")
    assert kept.design_text == solved_larch.design.text


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lambda text: "{", r"is damaged\. Solve the design again"),
        (lambda text: "[]", r"design is missing\. Solve the design again"),
        (lambda text: text.replace('"sentences"', '"sentence"'), r"sentences is missing\. Solve the design again"),
        (lambda text: text.replace("{q0:length.3}", "{q0:nothing}"), "is damaged"),
        (lambda text: text.replace('"values_SI": [', '"values_SI": [7.0, '), "is damaged"),
    ],
)
def test_a_result_that_cannot_be_read_ends_in_a_sentence(folder, tmp_path, change, words):
    for name in ("result.json", "design.toml", "shape.vtu"):
        (tmp_path / name).write_bytes((folder / name).read_bytes())
    file = tmp_path / "result.json"
    file.write_text(change(file.read_text(encoding="utf-8")), encoding="utf-8")
    with pytest.raises(ResultError, match=words):
        read_result(tmp_path)


def test_every_material_has_its_numbers_and_sources(solved_larch):
    materials = {material["name"]: material for material in solved_larch.summary["materials"]}
    assert {material.name for material in solved_larch.design.sources.values()} == set(materials)
    cord = solved_larch.design.hammock.channel.cord
    values = {value["quantity"]: value for value in materials[cord.name]["values"]}
    assert values["breaking load"]["value_SI"] == cord.breaking_load
    assert values["breaking load"]["source"] == cord.provenance["breaking_load"].source
    assert all(value["source"] for material in materials.values() for value in material["values"])


def test_unknown_folder_is_named():
    with pytest.raises(ResultError, match=r"nowhere has no result\.json"):
        read_result(Path("nowhere"))
