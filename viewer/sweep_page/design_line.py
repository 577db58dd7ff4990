"""The table of all designs: what was chosen, and the result."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from ...cases.studies.compare.row_verdict import format_reason
from ...cases.studies.compare.value_columns import show_figure
from ...cases.studies.sweep.result_value import ResultValue
from ...cases.studies.sweep.sweep_row import RowStatus, SweepRow, write_pass
from ...cases.unit_display import Units

KINDS = ("passes", "fails", "open")  # in the order in which they are listed


class DesignLine(NamedTuple):
    """One line of the table.

    Parameters
    ----------
    number : int
        Of the design.
    kind : str
        One of ``KINDS``, or ``partly`` for what passes as far as it was looked at.
    labels : tuple of str
        What was chosen, of those choices that differ.
    verdict, reason : str
        Whether it passes; its governing check, or why it fails or was not solved.
    values : tuple of str
        In the units the page shows first.
    """

    number: int
    kind: str
    labels: tuple[str, ...]
    verdict: str
    reason: str
    values: tuple[str, ...]


def find_kind(row: SweepRow) -> str:
    """Return whether a design passes, fails or is open, which is anything that is not solved."""
    return "passes" if row.holds else "fails" if row.status is RowStatus.SOLVED else "open"


def _write_verdict(row: SweepRow) -> str:
    """Return whether a design passes, and under what if that is not all that it has to stand."""
    if row.holds:
        mark = "\N{CHECK MARK}" if row.earned else "?"
        return f"{mark} {write_pass([row])}"
    return "\N{BALLOT X} FAIL" if row.status is RowStatus.SOLVED else f"? {row.status}"


def list_lines(
    rows: Sequence[SweepRow], names: Sequence[str], figures: Sequence[ResultValue], units: Units
) -> Iterator[DesignLine]:
    """Yield a line for each design.

    Parameters
    ----------
    rows : sequence of SweepRow
        Designs in order.
    names : sequence of str
        Choices that are shown.
    figures : sequence of ResultValue
        Result values that are shown.
    units : {"metric", "imperial", "both"}
        Units.
    """
    for row in rows:
        kind = find_kind(row)
        yield DesignLine(
            row.number,
            "partly" if row.holds and not row.earned else kind,
            tuple(row.choices.get(name, "") for name in names),
            _write_verdict(row),
            format_reason(row),
            tuple(show_figure(row.figures.get(figure.key), figure, units, 3) for figure in figures),
        )
