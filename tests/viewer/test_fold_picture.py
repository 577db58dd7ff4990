"""The small picture of a channel: what it says, and that it is drawn to scale."""

from pathlib import Path

import pytest
from matplotlib.image import imread

from tautlay.cases import read_design
from tautlay.cases.judging.cloth.channel_summary import ChannelRecord
from tautlay.cases.judging.cloth.fold_record import measure_fold
from tautlay.cases.result_record import ResultRecord
from tautlay.cases.storage.atomic import write_json
from tautlay.cases.storage.result_json import encode_result
from tautlay.viewer import draw_fold
from tautlay.viewer.fold import compose_fold

from .._records import make_record

CASES = Path(__file__).parents[2] / "cases"


@pytest.fixture(scope="module")
def folds():
    designs = [read_design(CASES / f"{name}.toml") for name in ("larch_ridge", "otter_creek")]
    return [measure_fold(design.hammock, design.workmanship) for design in designs]


def list_words(figure):
    return [text.get_text() for text in [*figure.texts, *figure.axes[0].texts]]


@pytest.mark.parametrize("units", ["metric", "imperial", "both"])
def test_picture_tells_layers_widths_and_stitches(folds, units):
    words = " ".join(list_words(compose_fold(folds[1], units)))
    assert "bears on 3 layers; the stitches go through 6, in 2 rows" in words
    assert "8.0 stitches per inch, 3.1 per cm" in words
    # 11/16 in and 3/8 in: NIST SP 811 B.8
    assert ("17.5 mm" in words) == ("9.52 mm" in words) == (units != "imperial")
    assert ("0.688 in" in words) == ("0.375 in" in words) == (units != "metric")


def test_cloths_differ_by_more_than_colour(folds):
    plain, bound = (compose_fold(fold).axes[0] for fold in folds)
    beads = [sum(line.get_marker() == "o" for line in axes.lines) for axes in (plain, bound)]
    assert beads == [0, 1]
    assert {"body", "strip", "cord"} <= set(list_words(bound.figure))


def test_nothing_runs_off_the_sheet(folds):
    for fold in folds:
        figure = compose_fold(fold)
        figure.canvas.draw()
        sheet = figure.bbox
        for text in [*figure.texts, *(text for text in figure.axes[0].texts if text.get_text())]:
            box = text.get_window_extent()
            assert sheet.x0 <= box.x0 < box.x1 <= sheet.x1, text.get_text()
            assert sheet.y0 <= box.y0 < box.y1 <= sheet.y1, text.get_text()


def test_picture_is_written_where_there_is_a_fold(folds, tmp_path):
    for fold, drawn in ((folds[0], True), (None, False)):
        record = make_record(ResultRecord, channel=make_record(ChannelRecord, fold=fold))
        write_json(tmp_path / "result.json", encode_result(record))
        assert draw_fold(tmp_path, tmp_path / "channel.png") is drawn
        assert (tmp_path / "channel.png").exists() is drawn
        if drawn:
            assert imread(tmp_path / "channel.png").shape[1] == 980
            (tmp_path / "channel.png").unlink()
