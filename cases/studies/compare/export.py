"""The designs of a sweep as CSV and Parquet."""

import csv
import io
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from ...storage.atomic import write_beside, write_text
from ...storage.spreadsheet import write_cell
from .value_columns import RankingError


def write_csv(columns: Mapping[str, Sequence[Any]], path: Path) -> None:
    """Write a table as CSV: UTF-8, a header, commas, decimal points, every digit of every number.

    Nothing stands where there is no value, TRUE and FALSE for what is or is not; a text that a spreadsheet would run
    has an apostrophe before it. ``pandas.read_csv(path)`` reads all
    of it; before pandas 3 the last digit of a number may be another unless told ``float_precision="round_trip"``.

    Parameters
    ----------
    columns : mapping of str to sequence
        From :meth:`~tautlay.cases.studies.compare.ranking.Ranking.to_columns`.
    path : Path
        File, whole or not at all.

    Raises
    ------
    OSError
        If it cannot be written.
    """
    text = io.StringIO(newline="")
    sheet = csv.writer(text, lineterminator="\n")
    sheet.writerow(map(write_cell, columns))
    sheet.writerows([write_cell(cell) for cell in row] for row in zip(*columns.values(), strict=True))
    write_text(path, text.getvalue())


def write_parquet(columns: Mapping[str, Sequence[Any]], path: Path) -> None:
    """Write a table as Parquet: text, whole numbers, 64-bit floats, truth values; null where there is no value.

    Parameters
    ----------
    columns : mapping of str to sequence
        From :meth:`~tautlay.cases.studies.compare.ranking.Ranking.to_columns`.
    path : Path
        File, whole or not at all.

    Raises
    ------
    RankingError
        If pyarrow is not installed.
    OSError
        If it cannot be written.
    """
    try:
        import pyarrow
        from pyarrow import parquet
    except ImportError:
        raise RankingError(
            "Parquet needs pyarrow. Install it, `pip install pyarrow`, or write --csv instead."
        ) from None
    table = pyarrow.table({name: pyarrow.array(cells, _choose_type(cells)) for name, cells in columns.items()})
    with write_beside(path) as beside:
        parquet.write_table(table, beside)


def _choose_type(cells: Sequence[Any]) -> Any:  # noqa: ANN401 - a type of a package that is not always there
    """Return the type of a column, also of one without rows."""
    import pyarrow

    first = next((cell for cell in cells if cell is not None), "")
    kinds = ((bool, pyarrow.bool_()), (int, pyarrow.int64()), (float, pyarrow.float64()), (str, pyarrow.string()))
    return next(kind for type_, kind in kinds if isinstance(first, type_))
