"""Conditions on the designs of a sweep, such as ``packed_kg < 300 g``, ``cloth = ripstop nylon 37 g/m2``, ``holds``."""

import operator
import re
from collections.abc import Callable, Sequence
from math import isclose, isfinite
from typing import NamedTuple

from ....materials import QuantityError, escape_text, parse_quantity, show_value
from ...design_issue import suggest_name, write_choices
from ..sweep.result_value import ResultValue
from ..sweep.sweep_row import RowStatus, SweepRow
from .value_columns import WORDS, RankingError, find_column, find_scale, name_choices

_ORDERS: dict[str, Callable[[float, float], bool]] = {
    "<=": operator.le, ">=": operator.ge, "<": operator.lt, ">": operator.gt,
}  # fmt: skip
_SIGNS = ("<=", ">=", "!=", "<", ">", "=", "~")
_SPLIT = re.compile(r"<=|>=|!=|<|>|==?|~")
_BARE: dict[str, Callable[[SweepRow], bool]] = {
    "passes": lambda row: row.holds,
    "fails": lambda row: not row.holds,
    "solved": lambda row: row.status is RowStatus.SOLVED,
    "not solved": lambda row: row.status is not RowStatus.SOLVED,
    "holds": lambda row: row.holds,  # words of earlier versions
    "not holds": lambda row: not row.holds,
}
_DIGITS = 9  # of the number of a design
_EXAMPLES = '"packed_kg < 300 g", "governs ~ splice" or "passes"'


class Condition(NamedTuple):
    """A condition that some designs meet.

    Parameters
    ----------
    text : str
        As it was written.
    meets : callable
        Returns whether a design meets it; one without the value does not.
    """

    text: str
    meets: Callable[[SweepRow], bool]


def read_condition(text: str, rows: Sequence[SweepRow]) -> Condition:
    """Return the condition in a text.

    ``NAME <= VALUE`` with ``<``, ``<=``, ``>`` or ``>=`` for a result value, or a choice of numbers or quantities;
    ``NAME = TEXT``, ``NAME != TEXT``, ``NAME ~ TEXT`` (has it in it) for a choice, ``status``, ``reason``,
    ``governs``, ``failed``, ``unchecked`` and ``unjudged``; and ``passes``, ``fails``, ``solved``, ``not solved``.

    Parameters
    ----------
    text : str
        A quantity in it has a unit, unless it is a ratio or a plain number. A choice that is left as designed has no
        value there, and lies on neither side of one.
    rows : sequence of SweepRow
        Designs that are filtered, to know what there is.

    Raises
    ------
    RankingError
        What is wrong, what is allowed, the nearest name.

    Examples
    --------
    >>> rows = [SweepRow(1, {"depth": "16 cm"}, RowStatus.SOLVED, figures={"packed_kg": 0.25})]
    >>> [read_condition(each, rows).meets(rows[0]) for each in ("packed_kg < 300 g", "depth > 17 cm", "holds")]
    [True, False, True]
    """
    bare = _BARE.get(" ".join(text.split()).lower())
    if bare is not None:
        return Condition(text, bare)
    name, sign, value = _split(text, rows)
    column = find_column(name, rows)
    if column in WORDS and (_SPLIT.match(value) or (sign == "~" and not value)):
        raise RankingError(f"{show_value(text)} is not a condition. Write one such as {_EXAMPLES}.")
    if isinstance(column, ResultValue):
        return Condition(text, _compare_figure(column, sign, value))
    if column in WORDS:
        return Condition(text, _compare_words(column, sign, value))
    if column == "number":
        return Condition(text, _compare_number(sign, value))
    return Condition(text, _compare_choice(name_choices(rows)[column], sign, value, rows))


def _split(text: str, rows: Sequence[SweepRow]) -> tuple[str, str, str]:
    """Return name, sign and value; a choice may have signs in its name."""
    plain = text.strip()
    for name in sorted(name_choices(rows), key=len, reverse=True):
        rest = plain[len(name) :].lstrip()
        if plain.startswith(name) and (found := _SPLIT.match(rest)):
            return name, _normalise(found[0]), rest[found.end() :].strip()
    found = _SPLIT.search(plain)
    if found is None:
        near = suggest_name(plain, list(_BARE))
        raise RankingError(f"{show_value(text)} is not a condition. {near}Write one such as {_EXAMPLES}.")
    return plain[: found.start()].strip(), _normalise(found[0]), plain[found.end() :].strip()


def _normalise(sign: str) -> str:
    """Return a sign in its usual form."""
    return "=" if sign == "==" else sign


def _compare_figure(figure: ResultValue, sign: str, value: str) -> Callable[[SweepRow], bool]:
    """Return whether a result value lies on one side of a limit."""
    if sign not in _ORDERS:
        raise RankingError(f'"{sign}" does not work for numbers. Write {figure.key} <= {escape_text(value)}.')
    limit, order = _read_quantity(value, figure.dimension, figure.key), _ORDERS[sign]
    return lambda row: figure.key in row.figures and order(row.figures[figure.key], limit)


def _read_quantity(value: str, dimension: str, name: str) -> float:
    """Return a quantity in SI, of any sign."""
    try:
        size = parse_quantity(value, dimension, signed=True) if dimension else float(value)
        if not isfinite(size):
            raise ValueError
    except QuantityError as error:
        raise RankingError(f"{escape_text(name)}: {error}") from None
    except ValueError:
        raise RankingError(f"{escape_text(name)}: {show_value(value)} is not a number.") from None
    return size


def _compare_words(column: str, sign: str, value: str) -> Callable[[SweepRow], bool]:
    """Return whether a text of a design equals, differs from, or contains another."""
    if sign in _ORDERS:
        raise RankingError(f"{column} is text. Write =, != or ~ (contains).")
    if column == "status" and sign != "~" and value not in list(RowStatus):
        near = suggest_name(value, list(RowStatus))
        raise RankingError(f"unknown status {show_value(value)}. {near}Choose {write_choices(list(RowStatus))}.")

    def meets(row: SweepRow) -> bool:
        found = getattr(row, column)
        return _match([found] if isinstance(found, str) else found, sign, value)

    return meets


def _match(texts: Sequence[str], sign: str, value: str) -> bool:
    """Return whether one of some texts equals or contains a value; for ``!=`` whether none does."""
    if sign == "~":
        return any(value.lower() in each.lower() for each in texts)
    return (value in texts) == (sign == "=")


def _compare_number(sign: str, value: str) -> Callable[[SweepRow], bool]:
    """Return whether the number of a design meets a limit."""
    if not value.isdecimal() or len(value) > _DIGITS or sign == "~":
        raise RankingError(f"number {sign} {show_value(value)}: the number of a design is a whole number.")
    orders = {**_ORDERS, "=": operator.eq, "!=": operator.ne}
    return lambda row: orders[sign](row.number, int(value))


def _compare_choice(choice: str, sign: str, value: str, rows: Sequence[SweepRow]) -> Callable[[SweepRow], bool]:
    """Return whether the choice is a label, or lies on one side of a quantity."""
    labels = list(dict.fromkeys(row.choices[choice] for row in rows if choice in row.choices))
    scale = find_scale(labels)
    if sign in _ORDERS:
        if scale is None:
            raise RankingError(f"{escape_text(choice)} has no order. Write =, != or ~ (contains).")
        limit, order = _read_quantity(value, scale.dimension, choice), _ORDERS[sign]
        chosen = {label for label, size in scale.values.items() if order(size, limit)}
        return lambda row: row.choices.get(choice) in chosen
    if sign == "~":
        return lambda row: _match([row.choices.get(choice, "")], sign, value)
    if value not in labels and scale is not None:
        size = _read_quantity(value, scale.dimension, choice)
        value = next((label for label, each in scale.values.items() if isclose(each, size, rel_tol=1e-9)), value)
    if value not in labels:
        raise RankingError(
            f"no design has {escape_text(choice)} = {show_value(value)}. {suggest_name(value, labels)}"
            f"There are {'; '.join(map(escape_text, labels))}."
        )
    return lambda row: choice in row.choices and _match([row.choices[choice]], sign, value)
