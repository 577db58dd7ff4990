"""Records to JSON and back: nothing is lost, and what does not fit ends in one sentence that names the key."""

import json
import math
from dataclasses import replace
from importlib.resources import files

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tautlay.cases import find_factor_ranges, read_design, solve_case, weigh_design
from tautlay.cases.judging.checks import CheckRecord
from tautlay.cases.judging.checks.check_record import FactorSource
from tautlay.cases.judging.cloth.channel_summary import CornerRecord
from tautlay.cases.judging.comfort.comfort import Comfort
from tautlay.cases.judging.comfort.measure_list import MEASURES
from tautlay.cases.judging.forces import Anchors, Forces
from tautlay.cases.judging.weighing import Scales, Weights
from tautlay.cases.record import UNITS, Record, SIValue, list_fields
from tautlay.cases.result_record import ResultRecord
from tautlay.cases.storage.codec import DecodeError, MissingKeyError, decode, encode
from tautlay.cases.storage.result_json import ResultError, encode_result, read_record
from tautlay.cases.studies.hang.hang_record import HangRecord
from tautlay.hammock import LoadCase
from tautlay.materials import Sentence
from tautlay.materials.short_repr import LONGEST

HOME = files("tautlay.cases")
NUMBERS = st.floats(allow_nan=False, allow_infinity=False)


def list_kinds(kind=Record):
    """Return every class of records there is."""
    return [each for below in kind.__subclasses__() for each in (below, *list_kinds(below))]


def list_records(found):
    """Return a record and all inside it."""
    if isinstance(found, Record):
        inside = [getattr(found, item.name) for item in list_fields(type(found))]
        return [found, *(each for value in inside for each in list_records(value))]
    if isinstance(found, dict):
        found = tuple(found.values())
    return [each for value in found for each in list_records(value)] if isinstance(found, tuple) else []


def pass_through_json(record):
    """Return a record written to JSON and read again."""
    return decode(type(record), json.loads(json.dumps(encode(record), allow_nan=False)))


@pytest.fixture(scope="module")
def solved():
    """A demonstration under every load, and once with how sure its checks are."""
    design = read_design(str(HOME / "larch_ridge.toml"))
    found = [solve_case(design, load=str(load), mesh_size=0.12, hot_spots=load == "sudden") for load in LoadCase]
    return [*found, found[0].add_factor_ranges(find_factor_ranges(found[0], most=1))]


@pytest.mark.slow
def test_results_of_every_load_come_back_as_they_were(solved):
    for result in solved:
        assert pass_through_json(result.record) == result.record
        assert decode(ResultRecord, encode(result.record)) == result.record
    assert any(result.record.how_sure for result in solved)
    assert any(result.comfort for result in solved)
    assert any(result.hot_spots for result in solved)


def test_a_result_is_written_and_read_with_its_sentences(solved, tmp_path):
    for result in solved:
        (tmp_path / "result.json").write_text(json.dumps(result.summary, allow_nan=False), encoding="utf-8")
        kept = read_record(tmp_path / "result.json")
        assert kept == result.record
        assert json.dumps(encode_result(kept)) == json.dumps(result.summary)
        assert isinstance(kept.bars.head_bar.path, Sentence)


@pytest.mark.parametrize("kind", sorted(set(list_kinds()) | {HangRecord}, key=lambda kind: kind.__name__))
@settings(max_examples=8, suppress_health_check=list(HealthCheck), deadline=None)
@given(data=st.data())
def test_any_record_comes_back_as_it_was(kind, data):
    st.register_type_strategy(float, NUMBERS)
    st.register_type_strategy(SIValue, st.builds(SIValue, NUMBERS, st.sampled_from(sorted(set(UNITS.values())))))
    if kind.__module__.startswith("tautlay"):
        record = data.draw(st.from_type(kind))
        assert pass_through_json(record) == record
        assert len(repr(record)) < 200


def test_records_of_a_result_show_short(solved):
    scales = weigh_design(solved[0].design)
    for result in solved:
        assert len(repr(result)) < 200
        for record in list_records(result.record):
            assert len(repr(record)) <= LONGEST, type(record)
        lists = (result.findings.checks, scales.weights, (result.case, result.findings, scales))
        assert all(len(repr(each)) < 200 for found in lists for each in found)
    bands = solved[-1].factor_ranges
    assert all(len(repr(each)) < 200 for each in (bands, *bands.ranges, *bands.unknown))
    assert "head_line=" in repr(solved[0].forces)
    assert "sag=0.6" in repr(solved[0].shape)


def test_keys_are_fields_with_their_units():
    keys = [item.key for item in list_fields(Comfort)]
    assert keys == [*(measure.key for measure in MEASURES), "slide", "high_pressure_part"]
    assert [item.key for item in list_fields(Weights)][3:] == [item.key for item in list_fields(Scales)]
    assert [item.key for item in list_fields(Forces)][:2] == ["side_cord_left_max_N", "side_cord_right_max_N"]
    assert list_fields(CornerRecord)[-1].unit == "m"


def test_every_measure_reads_its_own_field():
    lay = Comfort(*map(float, range(len(list_fields(Comfort)) - 1)), "hips")
    assert [measure.read(lay) for measure in MEASURES] == [float(place) for place in range(len(MEASURES))]


def test_a_unit_that_differs_stands_in_the_key():
    check = CheckRecord(
        "channel", "tears", "", *[SIValue(5.0, "N_per_m")] * 2, None, 5.0, True, "seen", (), FactorSource("a", "seen")
    )
    found = encode(check)
    assert (found["demand_N_per_m"], found["safety_factor_found"]) == (5.0, None)
    assert check.factor == check.margin == math.inf
    assert encode(replace(check, demand=SIValue(2.0, "")))["demand"] == 2.0


@pytest.mark.parametrize(
    ("path", "value", "words"),
    [
        (["forces", "head_line_N"], "747", "forces.head_line_N is '747', not a number"),
        (["forces", "head_line_N"], math.nan, "forces.head_line_N is nan, not a finite number"),
        (["forces", "head_line_N"], math.inf, "forces.head_line_N is inf, not a finite number"),
        (["forces", "head_line_N"], 10**400, "forces.head_line_N is 1000"),
        (["forces", "head_line_N"], True, "forces.head_line_N is True, not a number"),
        (["forces", "head_line_N"], None, "forces.head_line_N is empty, not a number"),
        (["forces"], [], "forces is a list, not a table"),
        (["checks", 0, "passed"], 1, "checks[0].passed is 1, not true or false"),
        (["checks", 0, "basis"], "guess", "checks[0].basis is 'guess', not one of seen, stated"),
        (["checks", 1, "demand_N"], {}, "checks[1].demand is a table, not a number"),
        (["checks"], {}, "checks is a table, not a list"),
        (["anchors", "head_tree_N"], [1.0, 2.0], "anchors.head_tree_N is a list, not a list of 3"),
        (["stretch", "head line", "elastic_m"], "long", "stretch.head line.elastic_m is 'long', not a number"),
        (["design", "load"], "jumping", "design.load is 'jumping', not one of distributed, lying, sitting, sudden"),
        (["solution", "triangles"], 1.5, "solution.triangles is 1.5, not a whole number"),
        (["weights", "groups_kg"], {"tarp": 1.0}, "weights.groups_kg is 'tarp', not one of hammock"),
        (["notes"], [3], "notes[0] is 3, not a text"),
        (["comfort"], {"roll_rad": 0.0}, "comfort.trunk_pitch_rad is missing"),
        (["sentences"], {"x": 3}, "result.json"),
    ],
)
def test_what_does_not_fit_is_one_sentence_with_file_and_key(solved, tmp_path, path, value, words):
    found = json.loads(json.dumps(solved[0].summary))
    place = found
    for key in path[:-1]:
        place = place[key]
    place[path[-1]] = value
    if path == ["sentences"]:
        found["notes"].append("x")
    file = tmp_path / "result.json"
    file.write_text(json.dumps(found), encoding="utf-8")
    with pytest.raises(ResultError) as caught:
        read_record(file)
    assert str(caught.value).startswith(f"{file} is ")
    assert words in str(caught.value)
    assert str(caught.value).endswith(". Solve the design again.")
    assert "\n" not in str(caught.value)


def test_each_key_that_an_older_version_lacks_is_named(solved, tmp_path):
    file = tmp_path / "result.json"
    for key in solved[0].summary.keys() - {"judged"}:  # which results of earlier versions may lack
        found = {name: value for name, value in solved[0].summary.items() if name != key}
        file.write_text(json.dumps(found), encoding="utf-8")
        with pytest.raises(ResultError, match=rf"is of another version: {key} is missing\. Solve the design again"):
            read_record(file)


def test_a_missing_key_deep_inside_is_named():
    with pytest.raises(MissingKeyError, match=r"^it\.head_tree_N$"):
        decode(Anchors, {"foot_tree_N": [0.0, 0.0, 0.0]}, "it")
    with pytest.raises(DecodeError, match="the whole is 3, not a table"):
        decode(Forces, 3)
