"""The page of a sweep as text: whole, harmless, with the figures of the rows; all designs are invented."""

import json
import random
import re
from dataclasses import replace

import pytest
from click.testing import CliRunner

from tautlay.cases.command.cli import main
from tautlay.cases.studies.compare.ranking import rank_rows
from tautlay.cases.studies.sweep.result_value import RESULT_VALUES
from tautlay.cases.studies.sweep.store import SweepRecord, open_store
from tautlay.cases.studies.sweep.sweep_row import RowStatus, SweepRow
from tautlay.viewer.sweep_page import compose_sweep_page

from .._rows import make_grid, make_row
from ..cases.command.test_rank_command import SWEEP, keep_rows
from .test_report_page import EVIL, Reader

DESIGN = '[design]\nname = "Larch Ridge"\n'


def make_heading(name="Cloth for Larch Ridge", combine="grid"):
    text = SWEEP.format(design="larch_ridge.toml").replace("[[vary]]", f'combine = "{combine}"\n[[vary]]', 1)
    return SweepRecord(name, "sweep.toml", text, DESIGN, (), "", "both", "lying")


def find_data(text):
    return json.loads(re.search(r'<script type="application/json" id="scene-data">(.*?)</script>', text).group(1))


@pytest.fixture(scope="module")
def ranking():
    return rank_rows(make_grid())


@pytest.fixture(scope="module")
def page(ranking):
    return compose_sweep_page(make_heading(), ranking, units="metric")


def test_page_is_whole_and_asks_for_nothing(page):
    reader = Reader(page)
    assert (reader.open, reader.wrong) == ([], [])
    for tag, attributes in reader.elements:
        for name in ("src", "href", "srcset", "action", "data"):
            assert attributes.get(name, "#").startswith("#"), (tag, attributes)
        assert not any(name.startswith("on") for name in attributes)
    assert "url(" not in page
    assert [tag for tag, _ in reader.elements].count("script") == 2
    ids = [a["id"] for _, a in reader.elements if "id" in a]
    assert len(ids) == len(set(ids))


def test_every_design_is_in_the_table_with_its_verdict_and_reason(page, ranking):
    words = " ".join(" ".join(Reader(page).words).split())
    assert "12 designs of Larch Ridge, every combination, judged under lying, on a mesh of 3.00 cm" in words
    assert "10 of 12 pass" in words
    assert "The lightest that passes is design 2, ripstop nylon 22 g/m2, thin, 16 cm: 74.0 g" in words
    lines = re.findall(r'<tr class="(\w+)"><th scope="row">(\d+)</th>(.*?)</tr>', page)
    assert [int(number) for _, number, _ in lines] == [row.number for row in ranking.rows]
    assert [kind for kind, _, _ in lines] == ["passes"] * 10 + ["fails", "open"]
    assert "\N{BALLOT X} FAIL" in lines[10][2]
    assert "? refused" in lines[11][2]
    assert "the arcs meet." in lines[11][2]


def test_data_are_the_figures_of_the_rows(page, ranking):
    data = find_data(page)
    assert data["numbers"] == [row.number for row in ranking.rows]
    for figure in data["figures"]:
        asked = [row.figures.get(figure["key"]) for row in ranking.rows]
        assert figure["values"] == [None if value is None else pytest.approx(value, rel=1e-8) for value in asked]
    for choice in data["choices"]:
        labels = [choice["labels"][pick] for pick in choice["picks"]]
        assert labels == [row.choices[choice["name"]] for row in ranking.rows]
    (cloth,) = (each for each in data["effects"]["packed_kg"]["influences"] if each["choice"] == "cloth")
    assert cloth["effects"][0][:2] == ["taffeta, 60 g/m2", pytest.approx(0.09)]


def test_choices_that_all_have_alike_are_said_once(ranking):
    some = rank_rows(make_grid(), where=["cord = thin"])
    page = compose_sweep_page(make_heading(), some, units="both")
    words = " ".join(" ".join(Reader(page).words).split())
    assert "Shown: 6 that meet cord = thin. All have cord thin." in words
    assert [choice["name"] for choice in find_data(page)["choices"]] == ["cloth", "body.arc.depth"]


def test_pareto_front_that_is_asked_for_is_in_words():
    rows = [make_row(n, packed_kg=0.2 + n / 100, least_margin=1.5 - n / 10, back_sag_m=0.1) for n in (1, 2, 3)]
    against = ("packed_kg", "least_margin", "back_sag_m")
    page = compose_sweep_page(make_heading(), rank_rows(rows), against=against, units="metric")
    words = " ".join(" ".join(Reader(page).words).split())
    assert (
        "Pareto-optimal in pack weight, reserve factor and back sag, 1 of 3: no other design is at least as good"
        in words
    )
    assert find_data(page)["measure"] == "back_sag_m"


@pytest.mark.parametrize("combine", ["grid", "one at a time", "paired"])
def test_pages_of_nothing_and_of_little_are_whole(combine):
    for rows in ([], [SweepRow(1, {}, RowStatus.OPEN, "not solved yet")], [make_row(1, packed_kg=0.2)]):
        page = compose_sweep_page(make_heading(combine=combine), rank_rows(rows), units="imperial")
        reader = Reader(page)
        assert (reader.open, reader.wrong) == ([], [])


def test_markup_in_names_comes_out_as_text():
    rows = [
        replace(row, choices={f"{k}{EVIL}": f"{v}{EVIL}" for k, v in row.choices.items()}, reason=EVIL, governs=EVIL)
        for row in make_grid()
    ]
    rows[2] = replace(rows[2], failed=(EVIL,), unchecked=(EVIL,))
    heading = make_heading(EVIL)._replace(design=f"[design]\nname = '''{EVIL[-70:]}'''\n", load=EVIL)
    page = compose_sweep_page(heading, rank_rows(rows, where=["status ~ s"]), units="both")
    reader = Reader(page)
    assert [tag for tag, _ in reader.elements].count("script") == 2
    assert "img" not in [tag for tag, _ in reader.elements]
    assert "window.hacked" in "".join(reader.words)
    assert find_data(page)["choices"][0]["name"].endswith(EVIL)


def make_thousand():
    """Return a thousand invented designs with every figure there is."""
    chance, rows = random.Random(1), []
    for number in range(1, 1001):
        picks = (number // 100, number // 10 % 10, number % 10)
        figures = {figure.key: chance.random() for figure in RESULT_VALUES}
        figures |= {"packed_kg": 0.2 + 0.01 * picks[0] + 0.002 * picks[1], "least_margin": 0.8 + 0.04 * picks[1]}
        choices = dict(
            zip(
                ("cloth", "cord", "arc"),
                (
                    f"ripstop nylon {20 + picks[0]} g/m2",
                    f"12-strand UHMWPE {1 + picks[1] / 10} mm",
                    f"{12 + picks[2]} cm",
                ),
                strict=True,
            )
        )
        failed = ("left head leg, splice breaks",) if figures["least_margin"] < 1 else ()
        rows.append(SweepRow(number, choices, RowStatus.SOLVED, "", figures, "left head leg, splice breaks", failed))
    return rows


def test_a_thousand_designs_are_less_than_a_megabyte():
    page = compose_sweep_page(make_heading(), rank_rows(make_thousand()), units="metric")
    assert len(page.encode("utf-8")) < 1_000_000


def test_rank_command_writes_the_page(tmp_path):
    file, out = tmp_path / "cloths.sqlite", tmp_path / "out.html"
    keep_rows(file, make_grid())
    outcome = CliRunner().invoke(main, ["rank", str(file), "--page", str(out), "--units", "imperial", "--most", "1"])
    assert outcome.exit_code == 0
    assert outcome.output.endswith(f"Written to {out}\n")
    assert '<html lang="en" data-units="imperial">' in out.read_text(encoding="utf-8")
    with open_store(file) as store:
        assert store.list_sweeps()[0].name in out.read_text(encoding="utf-8")
