"""The columns in which the designs of a sweep are compared: choices, result values, and words."""

from collections.abc import Mapping, Sequence
from functools import lru_cache
from math import floor
from typing import NamedTuple

from ....materials import DIMENSIONS, QuantityError, escape_text, parse_quantity
from ...design_issue import LONGEST_NAME, InputError, suggest_name
from ...unit_display import Units, show_quantity
from ..sweep.result_value import RESULT_VALUES, ResultValue
from ..sweep.sweep_row import SweepRow
from ..sweep.sweep_variable import AS_DESIGNED

WORDS = ("status", "reason", "governs", "failed", "unchecked", "unjudged")  # columns of text beside choices and figures
_SHORT = {"packed_kg": "pack weight", "least_margin": "reserve factor"}
TAKEN = ("number", "holds", "unbeaten", *WORDS)


class RankingError(InputError):
    """A question about the designs of a sweep that cannot be answered; the message says why."""


class OrderedValues(NamedTuple):
    """The values of a choice whose labels are all numbers or quantities of one kind.

    Parameters
    ----------
    dimension : str
        Known to materials; empty for plain numbers.
    values : mapping of str to float
        SI value of each label; the unchanged design has none.
    """

    dimension: str
    values: Mapping[str, float]


def list_figures(rows: Sequence[SweepRow]) -> tuple[ResultValue, ...]:
    """Return the result values that at least one design has, in the order of ``RESULT_VALUES``."""
    return tuple(figure for figure in RESULT_VALUES if any(figure.key in row.figures for row in rows))


def name_choices(rows: Sequence[SweepRow]) -> dict[str, str]:
    """Return what varies, each by the name of its column; one that is called like another column is ``chosen NAME``.

    Examples
    --------
    >>> from tautlay.cases.studies.sweep.sweep_row import RowStatus
    >>> name_choices([SweepRow(1, {"cloth": "nylon", "status": "new"}, RowStatus.OPEN)])
    {'cloth': 'cloth', 'chosen status': 'status'}
    """
    names: dict[str, str] = {}
    taken = {*TAKEN, *(figure.key for figure in RESULT_VALUES)}
    for choice in dict.fromkeys(name for row in rows for name in row.choices):
        column = choice
        while column in taken or column in names:
            column = f"chosen {column}"
        names[column] = choice
    return names


def find_common(rows: Sequence[SweepRow]) -> dict[str, str]:
    """Return the choices that several designs all have alike; nothing for a single one, which differs from none."""
    first = rows[0].choices if len(rows) > 1 else {}
    return {name: label for name, label in first.items() if all(row.choices.get(name) == label for row in rows)}


def name_design(row: SweepRow, known: Mapping[str, str] | None = None) -> str:
    """Return what was chosen in a design, but for what is as designed and what is known already.

    Examples
    --------
    >>> from tautlay.cases.studies.sweep.sweep_row import RowStatus
    >>> row = SweepRow(1, {"cloth": "nylon", "cord": "as designed", "bar": "short"}, RowStatus.OPEN)
    >>> name_design(row, {"bar": "short"})
    'nylon'
    """
    chosen = [label for name, label in row.choices.items() if name not in (known or {})]
    return ", ".join(label for label in chosen if label != AS_DESIGNED.label) or AS_DESIGNED.label


def find_figure_column(key: str, rows: Sequence[SweepRow]) -> ResultValue:
    """Return the result value of a key.

    Raises
    ------
    RankingError
        If no design has it, with the nearest that there is.
    """
    figures = list_figures(rows)
    found = next((figure for figure in figures if figure.key == key), None)
    if found is None:
        raise RankingError(f"no design has a value {_shorten(key)}. {_suggest(key, figures, ())}")
    return found


def find_column(key: str, rows: Sequence[SweepRow]) -> ResultValue | str:
    """Return the result value of a key, or the choice, number or words of that column.

    Raises
    ------
    RankingError
        If there is no such column, with the nearest that there is.
    """
    choices, figures = name_choices(rows), list_figures(rows)
    if key in choices or key in ("number", *WORDS):
        return key
    for figure in figures:
        if figure.key == key:
            return figure
    raise RankingError(f"unknown column {_shorten(key)}. {_suggest(key, figures, tuple(choices))}")


def list_columns(rows: Sequence[SweepRow]) -> dict[str, str]:
    """Return every column, with a title where its name is not enough.

    Parameters
    ----------
    rows : sequence of SweepRow
        Designs of one sweep.

    Examples
    --------
    >>> from tautlay.cases.studies.sweep.sweep_row import RowStatus
    >>> list_columns([SweepRow(1, {"cloth": "nylon"}, RowStatus.SOLVED, figures={"packed_kg": 0.25})])["packed_kg"]
    'added pack weight'
    """
    choices = dict.fromkeys(name_choices(rows), "choice")
    words = dict.fromkeys(WORDS, "text")
    return {
        **choices,
        "number": "number of the design",
        **words,
        **{each.key: each.title for each in list_figures(rows)},
    }


def _shorten(key: str) -> str:
    """Return a name for a message, shortened."""
    return escape_text(key if len(key) <= LONGEST_NAME else f"{key[:LONGEST_NAME]}...")


def _suggest(key: str, figures: Sequence[ResultValue], others: tuple[str, ...]) -> str:
    """Return the nearest name, and how to list all."""
    known = [*others, *(figure.key for figure in figures)]
    if not known:
        return "No design of this sweep is solved yet."
    word = key.strip().lower()
    titled = [figure.key for figure in figures if len(word) > 2 and word in figure.title]
    near = f"Did you mean {titled[0]}? " if titled else suggest_name(key, known)
    return f"{near}List all: `tautlay rank FILE --columns`."


def name_figure(figure: ResultValue) -> str:
    """Return the title of a result value, in a word or two where it is long.

    Examples
    --------
    >>> from tautlay.cases.studies.sweep.result_value import MARGIN
    >>> name_figure(MARGIN)
    'reserve factor'
    """
    return _SHORT.get(figure.key, figure.title)


def find_scale(labels: Sequence[str]) -> OrderedValues | None:
    """Return the values of labels that are all numbers or quantities of one kind, or None.

    Examples
    --------
    >>> find_scale(["as designed", "16 cm", "1.5 m"]).values
    {'16 cm': 0.16, '1.5 m': 1.5}
    >>> find_scale(["nylon", "16 cm"]) is None
    True
    """
    return _find_scale(tuple(label for label in dict.fromkeys(labels) if label != AS_DESIGNED.label))


@lru_cache
def _find_scale(written: tuple[str, ...]) -> OrderedValues | None:
    """Return the values of labels that differ; reading quantities takes its time, and many figures ask."""
    if not written:
        return None
    try:
        return OrderedValues("", {label: float(label) for label in written})
    except ValueError:
        pass  # no plain numbers
    for dimension in DIMENSIONS:
        try:
            return OrderedValues(dimension, {label: parse_quantity(label, dimension, signed=True) for label in written})
        except QuantityError:
            continue  # of another kind
    return None


def order_labels(labels: Sequence[str]) -> list[str]:
    """Return each label of a choice once: quantities from least to most, others as they first come.

    The unchanged design comes first.
    """
    scale, once = find_scale(labels), list(dict.fromkeys(labels))
    designed = [label for label in once if label == AS_DESIGNED.label]
    rest = [label for label in once if label != AS_DESIGNED.label]
    return designed + (rest if scale is None else sorted(rest, key=scale.values.__getitem__))


def show_figure(value: float | None, figure: ResultValue, units: Units, digits: int = 4) -> str:
    """Return a result value for a table; factors are rounded down, so that 0.999 is not 1.

    Parameters
    ----------
    value : float or None
        SI; None is a dash.
    figure : ResultValue
        What it is.
    units : {"metric", "imperial", "both"}
        Units.
    digits : int
        Significant digits of all but factors, which have two after the point.

    Examples
    --------
    >>> from tautlay.cases.studies.sweep.result_value import MARGIN
    >>> show_figure(0.999, MARGIN, "metric"), show_figure(None, MARGIN, "metric")
    ('0.99', '-')
    """
    if value is None:
        return "-"
    if figure.dimension == "ratio":
        return f"{floor(value * 100 * (1 + 1e-12)) / 100:.2f}"
    return show_quantity(value, figure.dimension, units, digits)
