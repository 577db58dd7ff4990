"""CSV and Parquet, read by pandas: every value is that of the rows, to the last bit."""

import math
import struct
import sys

import pandas
import pytest

from tautlay.cases.storage.spreadsheet import write_cell
from tautlay.cases.studies.compare.export import write_csv, write_parquet
from tautlay.cases.studies.compare.ranking import rank_rows
from tautlay.cases.studies.compare.value_columns import RankingError
from tautlay.cases.studies.sweep.sweep_row import RowStatus, SweepRow

from ...._rows import make_grid, make_row

ODD = {"cloth": 'taffeta, "60" g/m2\nred', "cord": "=1+1", "body.arc.depth": "ünï; NA"}


@pytest.fixture(scope="module")
def columns():
    odd = make_row(90, ODD, ("a", "b"), packed_kg=0.1 + 0.2, least_margin=5e-324, sag_m=-1.7976931348623157e308)
    third = make_row(91, ODD, packed_kg=1 / 3, least_margin=1e22, sag_m=0.1)
    return rank_rows([*make_grid(), odd, third, SweepRow(92, ODD, RowStatus.LOST, "gone")]).to_columns()


def check(frame, columns, kept=lambda cell: cell):
    assert list(frame.columns) == list(columns)
    for name, cells in columns.items():
        for found, asked in zip(frame[name].tolist(), cells, strict=True):
            if asked is None:
                assert isinstance(found, float)
                assert math.isnan(found)
            elif isinstance(asked, float):
                assert struct.pack("d", found) == struct.pack("d", asked)
            else:
                assert (found, type(found)) == (kept(asked), type(asked))


def test_pandas_reads_csv_to_the_last_bit(columns, tmp_path):
    write_csv(columns, tmp_path / "a.csv")
    empty = {name: [""] for name in ("packed_kg", "least_margin", "sag_m")}
    exact = {"float_precision": "round_trip"} if pandas.__version__ < "3" else {}  # from 3 on that is how it reads
    frame = pandas.read_csv(tmp_path / "a.csv", keep_default_na=False, na_values=empty, **exact)
    check(frame, columns, lambda cell: write_cell(cell) if isinstance(cell, str) else cell)  # no cell is a formula


def test_pandas_reads_parquet_to_the_last_bit(columns, tmp_path):
    write_parquet(columns, tmp_path / "a.parquet")
    check(pandas.read_parquet(tmp_path / "a.parquet"), columns)


def test_no_rows_are_a_table_too(tmp_path):
    columns = rank_rows([]).to_columns()
    write_csv(columns, tmp_path / "a.csv")
    write_parquet(columns, tmp_path / "a.parquet")
    assert list(pandas.read_csv(tmp_path / "a.csv").columns) == list(columns)
    assert len(pandas.read_parquet(tmp_path / "a.parquet")) == 0


@pytest.mark.parametrize("write", [write_csv, write_parquet])
def test_a_file_that_cannot_be_written_is_named_and_nothing_is_left(write, columns, tmp_path):
    (tmp_path / "folder").mkdir()
    with pytest.raises(OSError, match="the file cannot be written"):
        write(columns, tmp_path / "folder")
    assert [path.name for path in tmp_path.rglob("*")] == ["folder"]


def test_a_missing_package_is_told_in_a_sentence(columns, tmp_path, monkeypatch):
    monkeypatch.setitem(sys.modules, "pyarrow", None)
    with pytest.raises(RankingError, match=r"needs pyarrow. Install it, `pip install pyarrow`, or write --csv"):
        write_parquet(columns, tmp_path / "a.parquet")
