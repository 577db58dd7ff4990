"""The report page as text: whole, harmless, and with the numbers of the files."""

import base64
import dataclasses
import json
import re
from collections.abc import Mapping
from enum import Enum
from html.parser import HTMLParser

import numpy as np
import pytest
from click.testing import CliRunner

from tautlay.cases.command.cli import main
from tautlay.cases.judging.weighing import Unweighed, Weights
from tautlay.cases.judging.weighing.weight_record import AmountStep, WeightRecord
from tautlay.cases.record import Record, SIValue
from tautlay.cases.storage.codec import encode
from tautlay.cases.storage.shape import BARS, CellTag
from tautlay.cases.storage.stored_result import StoredLoadStep, read_result
from tautlay.cases.unit_display import show_quantity
from tautlay.making import WeightGroup
from tautlay.viewer.field import list_fields
from tautlay.viewer.field_list import NAMES
from tautlay.viewer.look import make_look
from tautlay.viewer.report import compose_comparison, compose_report
from tautlay.viewer.report.compare import list_changes, list_differences
from tautlay.viewer.report.plots import trace_cord
from tautlay.viewer.report.weights import list_masses, list_weight_tables, list_weights
from tautlay.viewer.spots import SPOT_COLOUR

from .._records import make_record

EVIL = "</script><script>window.hacked = 1</script><img src=x onerror=alert(1)>&\"'"
VOID = {"meta", "link", "img", "br", "input"}


class Reader(HTMLParser):
    """Collects elements, and what is open at the end or closed in the wrong order."""

    def __init__(self, text):
        super().__init__()
        self.elements, self.open, self.wrong, self.words = [], [], [], []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.elements.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.elements.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.wrong.append((tag, self.getpos()))

    def handle_data(self, data):
        if "script" not in self.open and "style" not in self.open:
            self.words.append(data)


@pytest.fixture(scope="module")
def folder(solved_larch, tmp_path_factory):
    place = tmp_path_factory.mktemp("page") / "larch"
    solved_larch.save(place)
    return place


@pytest.fixture(scope="module")
def kept(folder):
    return read_result(folder)


@pytest.fixture(scope="module")
def page(kept):
    return compose_report(kept)


def find_scene(text):
    return json.loads(re.search(r'<script type="application/json" id="scene-data">(.*?)</script>', text).group(1))


def decode(text, kind):
    return np.frombuffer(base64.b64decode(text), dtype=kind)


def test_page_is_whole_and_asks_for_nothing(page):
    reader = Reader(page)
    assert (reader.open, reader.wrong) == ([], [])
    for tag, attributes in reader.elements:
        for name in ("src", "href", "srcset", "action", "data"):
            assert attributes.get(name, "#").startswith(("#", "data:image/png;base64,")), (tag, attributes)
        assert not any(name.startswith("on") for name in attributes)
    assert "url(" not in page.split("<body>")[0]
    assert [tag for tag, _ in reader.elements].count("script") == 2
    (policy,) = [a["content"] for _, a in reader.elements if a.get("http-equiv") == "Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert len(page.encode("utf-8")) < 3_000_000
    ids = [a["id"] for _, a in reader.elements if "id" in a]
    assert len(ids) == len(set(ids))


def test_scene_holds_the_numbers_of_the_files(page, kept):
    (shape,) = find_scene(page)["shapes"]
    assert np.array_equal(decode(shape["fields"]["larger-stress"], "<f4"), kept.shape.larger_stress.astype("f4"))
    assert np.array_equal(decode(shape["fields"]["smaller-stress"], "<f4"), kept.shape.smaller_stress.astype("f4"))
    assert np.array_equal(decode(shape["fields"]["warp"], "<f4"), kept.shape.warp_share.astype("f4"))
    assert np.array_equal(decode(shape["fields"]["weft"], "<f4"), kept.shape.weft_share.astype("f4"))
    assert np.array_equal(decode(shape["triangles"], "<u4").reshape(-1, 3), kept.shape.triangles)
    assert np.array_equal(decode(shape["state"], "<u1"), kept.shape.state)
    assert np.allclose(decode(shape["points"], "<f4").reshape(-1, 3), kept.shape.points, atol=1e-6)
    assert [(spot["at"], spot["triangle"]) for spot in shape["spots"]] == [
        (list(spot.loaded), spot.triangle) for spot in kept.record.hot_spots
    ]


def test_scene_with_a_person_holds_pressure_and_flesh(kept, lain):
    text = compose_report(dataclasses.replace(kept, stages=(StoredLoadStep(1.0, lain),)))
    (shape,) = find_scene(text)["shapes"]
    assert np.array_equal(decode(shape["fields"]["pressure"], "<f4"), lain.occupant.pressure.astype("f4"))
    rods = decode(shape["rods"], "<f4").reshape(-1, 8)
    assert len(rods) > len(lain.occupant.part)
    assert np.allclose(rods[: len(lain.occupant.part), 6:], lain.occupant.radii)
    assert "At the shoulders" in text
    assert "Contact pressure, from above" in text
    assert Reader(text).wrong == []


def test_scales_are_those_of_window_and_pictures(page, kept):
    scene = find_scene(page)
    assert [each["key"] for each in scene["fields"]] == [field.key for field in list_fields(kept.shape)]
    for each in scene["fields"]:
        field = NAMES[each["key"]]
        for units in ("metric", "imperial"):
            look = make_look(kept.shape, field, kept.bar_shares, units)
            assert each["ticks"][units][-1:] == ([] if field.key == "state" else [pytest.approx(look.end)])
            assert scene["cords"]["ticks"][units] == [0.0, look.cord_end]
    assert f"--mark: {SPOT_COLOUR};" in page
    (shape,) = scene["shapes"]
    shares = decode(shape["bar_share"], "<f4")
    assert [pytest.approx(shares[kept.shape.part == bar]) for bar in BARS] == [[kept.bar_shares[bar]] for bar in BARS]


def test_every_check_is_on_the_page_with_its_sources(page, kept):
    words = " ".join(" ".join(Reader(page).words).split())
    assert kept.record.verdict in words
    for check in kept.record.checks:
        assert check.mechanism in words
        for step in check.capacity_from:
            assert str(step.source) in words
    assert page.count('class="ok"') + page.count('class="not"') == len(kept.record.checks)
    assert {"apex rings", "bar tips"} <= {each.part for each in kept.record.unchecked}
    for each in kept.record.unchecked:
        assert each.part in words
    assert "was checked." not in words
    for caution in ("Computed, not proven", "Keep children away"):
        assert caution in words


def test_numbers_stand_in_both_units(page, kept):
    thrust = kept.record.forces.head_bar_thrust
    for kind, units in (("q-m", "metric"), ("q-i", "imperial")):
        assert f'<span class="{kind}">{show_quantity(thrust, "force", units)}</span>' in page
    assert f'<html lang="en" data-units="{kept.units}">' in page
    assert 'data-units="imperial"' in compose_report(kept, units="imperial")


def test_design_file_is_on_the_page_to_the_letter(page, kept):
    reader, inside = Reader(page), []

    class Pre(HTMLParser):
        def handle_starttag(self, tag, attrs):
            if tag == "pre":
                inside.append("")

        def handle_data(self, data):
            if inside and self.lasttag == "pre":
                inside[0] += data

    Pre().feed(page)
    assert inside[0].removesuffix("\n").startswith(kept.design_text.rstrip("\n"))
    assert reader.wrong == []


def poison(found):
    """Put markup into every text of a result that is free."""
    if isinstance(found, Record):
        told = {item.name: getattr(found, item.name) for item in dataclasses.fields(found)}
        free = {name: poison(value) for name, value in told.items() if name not in ("dimension", "units")}
        return dataclasses.replace(found, **free)
    if isinstance(found, Mapping):
        return {poison(key): poison(value) for key, value in found.items()}
    if isinstance(found, tuple) and not isinstance(found, SIValue):
        return tuple(poison(value) for value in found)
    return f"{found}{EVIL}" if isinstance(found, str) and not isinstance(found, Enum) else found


def test_markup_in_names_comes_out_as_text(kept):
    design_text = kept.design_text.replace('"Larch Ridge"', json.dumps(f"Larch {EVIL}"), 1) + f"\n# {EVIL}"
    evil = dataclasses.replace(kept, record=poison(kept.record), design_text=design_text)
    other = dataclasses.replace(evil, design_text=kept.design_text)
    for text, scripts in ((compose_report(evil), 2), (compose_comparison(evil, other), 2)):
        reader = Reader(text)
        assert [tag for tag, _ in reader.elements].count("script") == scripts
        assert "img" not in [tag for tag, _ in reader.elements]
        assert "window.hacked" in "".join(reader.words)
        assert find_scene(text)["shapes"][0]["name"].endswith(EVIL)


def test_all_weights_are_shown(kept):
    step = AmountStep("cut", "the design", "stated")
    bar = make_record(
        WeightRecord, part="bar", mass=0.17, amount=SIValue(2.0, "m"), basis="memory", amount_from=(step,)
    )
    weights = make_record(
        Weights,
        hammock=0.3,
        parts={"body": 0.2, "left side cord": 0.1},
        groups={WeightGroup.BARS: 0.17},
        weighed=(bar,),
        not_weighed=(Unweighed("hems", "<b>none</b>"),),
    )
    lines = {line.title: line for line in list_weights(weights)}
    assert "300 g" in lines["all parts as computed"].value
    assert "10.6 oz" in lines["all parts as computed"].value
    assert "200 g" in lines["body"].value
    assert [lines[title].depth for title in ("all parts as computed", "parts", "body", "total", "groups", "bars")] == [
        0,
        0,
        1,
        0,
        0,
        1,
    ]
    weighed, rest = list_weight_tables(weights)
    cells = dict(zip(weighed.headings, map(str, weighed.rows[0].cells), strict=True))
    assert "170 g" in cells["mass"]
    assert "2.00 m" in cells["amount"] or "200 cm" in cells["amount"]
    assert (cells["dual-use"], cells["basis"]) == ("no", "unverified")
    assert weighed.rows[0].steps == [("cut", "the design", "stated in the design")]
    assert [str(cell) for cell in rest.rows[0].cells] == ["hems", "&lt;b&gt;none&lt;/b&gt;"]


def test_every_mass_of_a_result_is_on_the_page(kept):
    """Whatever of the weights is a mass stands in one of the tables."""
    plain = encode(kept.record.weights)
    masses = [value for key, value in plain.items() if key.endswith("_kg") and not isinstance(value, dict)]
    masses += [*plain["parts_kg"].values(), *plain["groups_kg"].values()]
    assert sorted(mass.mass for mass in list_masses(kept.record.weights)) == sorted(masses)
    assert {table.title: len(table.rows) for table in list_weight_tables(kept.record.weights)} == {
        title: len(plain[key]) for title, key in (("weighed", "weighed"), ("not weighed", "not_weighed")) if plain[key]
    }


def test_tension_runs_along_the_whole_cord(kept):
    for side in ("left", "right"):
        run, force = trace_cord(kept.shape, CellTag[f"{side.upper()}_SIDE_CORD"])
        cord = kept.record.stretch[f"{side} side cord"]
        assert run[-1] == pytest.approx(cord.length + cord.elastic, rel=1e-6)
        assert force.max() == pytest.approx(getattr(kept.record.forces, f"side_cord_{side}_max"), rel=1e-9)


def test_a_result_does_not_differ_from_itself(kept):
    for table in list_differences(kept.record, kept.record):
        assert table.pairs
        assert {str(pair.change) for pair in table.pairs} == {"the same"}


def test_differences_are_told_with_sign_unit_and_share(kept):
    forces, weights = kept.record.forces, kept.record.weights
    other = dataclasses.replace(
        kept.record,
        forces=dataclasses.replace(forces, head_line=1.5 * forces.head_line),
        weights=dataclasses.replace(weights, hammock=weights.hammock - 0.05),
    )
    tables = list_differences(kept.record, other)
    pairs = {f"{table.title}: {pair.title}": pair for table in tables for pair in table.pairs}
    more = forces.head_line / 2
    assert f"+{show_quantity(more, 'force', 'metric', 2)}" in str(pairs["Forces: head line"].change)
    assert pairs["Forces: head line"].share == "+50%"
    assert "\N{MINUS SIGN}50 g" in str(pairs["Weights: all parts as computed"].change)
    changed = {title for title, pair in pairs.items() if str(pair.change) != "the same"}
    assert changed == {"Forces: head line", "Weights: all parts as computed", "Shape: all parts as computed"}


def test_a_comparison_tells_what_differs_in_the_designs(kept):
    text = kept.design_text.replace('name = "Larch Ridge"', 'name = "Larch Rim"', 1)
    assert list_changes(kept.design_text, kept.design_text) == []
    assert [tuple(change) for change in list_changes(kept.design_text, text)] == [
        ("design.name", "Larch Ridge", "Larch Rim")
    ]


def test_small_differences_are_not_told_as_none(kept):
    found = kept.record
    stronger = dataclasses.replace(found.forces, head_line=1.003 * found.forces.head_line)
    low, high = (tuple(dataclasses.replace(check, found=factor) for check in found.checks) for factor in (5.49, 5.51))
    first = dataclasses.replace(found, checks=low)
    forces, factors, *_ = list_differences(first, dataclasses.replace(found, checks=high, forces=stronger))
    assert {pair.title: pair.share for pair in forces.pairs}["head line"] == "+0.3%"
    assert {str(pair.change) for pair in factors.pairs} == {"+0.1 or less"}  # 5.4 and 5.5


def test_what_fails_at_the_load_itself_says_so_and_stands_first_in_a_comparison(kept):
    worst, near, *rest = kept.record.checks
    broken = dataclasses.replace(near, found=0.9, asked=1.0, passed=False)  # reserve factor 0.9
    missed = dataclasses.replace(worst, found=2.0, asked=5.0, passed=False)  # 0.4, but it stands the load
    record = dataclasses.replace(kept.record, checks=(broken, missed, *rest))
    words = " ".join(" ".join(Reader(compose_report(dataclasses.replace(kept, record=record))).words).split())
    assert "\N{BALLOT X} Fails at this load" in words
    assert words.count("\N{BALLOT X} FAIL at this load") == 1
    assert words.count("\N{BALLOT X} FAIL") == 2
    assert "112 %" in words  # 1 / 0.9, rounded up
    (factors,) = (table for table in list_differences(kept.record, record) if table.title == "Factors of safety")
    assert [pair.title for pair in factors.pairs[:2]] == [f"{each.part}: {each.mechanism}" for each in (near, worst)]
    assert "0.90, required 1 \N{BALLOT X} FAIL at this load" in factors.pairs[0].second


def test_report_command_writes_a_page(folder, tmp_path):
    out = tmp_path / "out.html"
    outcome = CliRunner().invoke(main, ["report", str(folder), "-o", str(out), "--units", "metric"])
    assert (outcome.exit_code, outcome.output) == (0, f"Written to {out}\n")
    assert 'data-units="metric"' in out.read_text(encoding="utf-8")
    outcome = CliRunner().invoke(main, ["report", str(folder), str(folder), "-o", str(out)])
    assert outcome.exit_code == 0
    assert "Two results side by side" in out.read_text(encoding="utf-8")
    outcome = CliRunner().invoke(main, ["report", str(tmp_path)])
    assert outcome.exit_code == 2
    assert "has no result.json. Choose a folder" in outcome.stderr
    assert "Traceback" not in outcome.stderr
