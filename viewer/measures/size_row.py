"""The list below a view: number, key and value of each size."""

from collections.abc import Iterator
from textwrap import wrap
from typing import NamedTuple

from ...cases.unit_display import Units, show_quantity
from .measured_view import MeasuredView
from .placed_view import LETTER, WIDTH, number_keys

_INDENT = 26.0  # of keys, beside their numbers
_DIGITS = {"length": 3, "angle": 2}


class SizeRow(NamedTuple):
    """One size: its number, which only the first of several has, its key, and its value in metric and US units."""

    number: int | None
    key: str
    metric: str
    imperial: str

    def write(self, units: Units) -> str:
        """Return the value in some units."""
        if units == "both" and self.metric != self.imperial:
            return f"{self.metric} ({self.imperial})"
        return self.imperial if units == "imperial" else self.metric

    @property
    def lines(self) -> int:
        """How many lines it takes: two where key and value together are wider than the sheet."""
        letters = len(self.key) + len(self.write("both"))
        return 1 if _INDENT + LETTER * (letters + 1) <= WIDTH - 8.0 else 2


def list_rows(view: MeasuredView) -> Iterator[SizeRow]:
    """Yield the sizes of a view by number.

    Parameters
    ----------
    view : MeasuredView
        With its spans.
    """
    for keys, number in number_keys(view).items():
        for index, key in enumerate(keys):
            size = view.sizes[key]
            metric, imperial = (
                show_quantity(size.value, size.dimension, units, _DIGITS[size.dimension])
                for units in ("metric", "imperial")
            )
            yield SizeRow(None if index else number, key, metric, imperial)


def wrap_note(view: MeasuredView) -> list[str]:
    """Return the note of a view in lines as wide as its sheet."""
    return wrap(view.note, int((WIDTH - 8.0) / LETTER))
