"""The Pareto-optimal designs of a sweep."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from ....materials.short_repr import write_repr
from ..sweep.result_value import ResultValue
from ..sweep.sweep_row import RowStatus, SweepRow
from .value_columns import RankingError, find_figure_column, list_figures, name_figure

DIGITS = (
    4  # what differs less than in the fourth digit is alike: a shape is found no more closely than that (judgement)
)
LEAST = 2  # figures


class ParetoFront(NamedTuple):
    """The Pareto-optimal designs, and what was compared.

    Parameters
    ----------
    figures : tuple of ResultValue
        What counts.
    rows : tuple of SweepRow
        The designs, the best in the first figure first.
    equal : tuple of tuple of int
        Numbers of those among them that are alike in every figure that counts.
    compared : int
        How many designs were compared.
    failing : int
        How many solved ones were excluded because they fail.
    lacking : int
        How many others were excluded because they are not solved or lack one of the values.
    """

    figures: tuple[ResultValue, ...]
    rows: tuple[SweepRow, ...]
    equal: tuple[tuple[int, ...], ...]
    compared: int
    failing: int
    lacking: int

    def __repr__(self) -> str:
        return write_repr(
            self, f"{len(self.rows)} of {self.compared} designs", *(figure.key for figure in self.figures)
        )

    def explain(self) -> str:
        """Return in words what was compared and how."""
        *first, last = map(name_figure, self.figures)
        names = f"{', '.join(first)} and {last}"
        left = [
            *([f"{self.failing} that fail"] if self.failing else []),
            *([f"{self.lacking} not solved or without these values"] if self.lacking else []),
        ]
        out = f" (excluded: {', '.join(left)})" if left else ""
        if not self.rows:
            return f"No design can be compared in {names}{out}."
        alike = "; ".join(" and ".join(map(str, group)) for group in self.equal)
        same = f" Ties: {alike}." if alike else ""
        return (
            f"Pareto-optimal in {names}, {len(self.rows)} of {self.compared}{out}: no other design is at least as good "
            f"in all of them and better in one. Values equal to {DIGITS} digits tie.{same}"
        )


def find_pareto_front(
    rows: Sequence[SweepRow], keys: Sequence[str], *, failing: bool = False, digits: int | None = DIGITS
) -> ParetoFront:
    """Return the Pareto-optimal designs.

    One dominates another if it is as good in every value and better in at least one. Designs that tie in all values
    do not dominate each other, so that all of them are kept. Values are rounded to ``digits``, which keeps the
    order of better and worse free of circles.

    Parameters
    ----------
    rows : sequence of SweepRow
        Designs of one sweep.
    keys : sequence of str
        Two or more figures of which a better value is known.
    failing : bool
        Whether designs that fail are compared as well.
    digits : int or None
        Significant digits; None compares to the last bit.

    Raises
    ------
    RankingError
        For fewer than two figures, one that no design has, or one of which neither less nor more is better.

    Examples
    --------
    >>> kept = {"packed_kg": 0.30, "least_margin": 1.2}
    >>> light, heavy, stout = kept, kept | {"packed_kg": 0.32}, {"packed_kg": 0.35, "least_margin": 1.5}
    >>> rows = [SweepRow(n, {}, RowStatus.SOLVED, figures=each) for n, each in enumerate([light, heavy, stout], 1)]
    >>> [row.number for row in find_pareto_front(rows, ["packed_kg", "least_margin"]).rows]
    [1, 3]
    """
    figures = tuple(_find_judged(key, rows) for key in dict.fromkeys(keys))
    if len(figures) < LEAST:
        raise RankingError("one value alone has a single best design. Choose two or more different ones.")
    solved = [row for row in rows if row.status is RowStatus.SOLVED]
    asked = [row for row in solved if failing or row.holds]
    taken = [row for row in asked if all(each.key in row.figures for each in figures)]
    costs = count_costs(taken, figures, digits)
    places = _find_front(costs)
    return ParetoFront(
        figures,
        tuple(taken[place] for place in places),
        _group_equal([taken[place].number for place in places], costs[places]),
        len(taken),
        len(solved) - len(asked),
        len(rows) - len(solved) + len(asked) - len(taken),
    )


def choose_figures(rows: Sequence[SweepRow]) -> tuple[str, ...]:
    """Return the values compared by default: weight and reserve factor, as far as the designs have them."""
    present = {figure.key for figure in list_figures(rows)}
    return tuple(key for key in ("packed_kg", "least_margin") if key in present)


def _find_judged(key: str, rows: Sequence[SweepRow]) -> ResultValue:
    """Return a figure of which a better value is known."""
    figure = find_figure_column(key, rows)
    if not figure.better:
        judged = ", ".join(each.key for each in list_figures(rows) if each.better)
        raise RankingError(f"{figure.key} has no better direction. Choose from {judged}.")
    return figure


def count_costs(rows: Sequence[SweepRow], figures: Sequence[ResultValue], digits: int | None) -> NDArray[np.float64]:
    """Return figures (rows, figures) rounded, with signs such that less is better."""
    return np.array([[_find_cost(row.figures[f.key], f, digits) for f in figures] for row in rows]).reshape(
        len(rows), len(figures)
    )


def _find_cost(value: float, figure: ResultValue, digits: int | None) -> float:
    """Return a figure rounded, less being better; minus zero is zero."""
    rounded = value if digits is None else float(f"{value:.{digits}g}")
    return (rounded if figure.better == "less" else -rounded) + 0.0


def _find_front(costs: NDArray[np.float64]) -> list[int]:
    """Return the places of rows that no other row beats, sorted by their costs from the first column on.

    Sorted like this a row can only be beaten by one before it, and then also by one that is itself unbeaten.
    """
    front: list[int] = []
    for place in np.lexsort(costs.T[::-1]):
        kept = costs[front]
        beaten = np.all(kept <= costs[place], axis=1) & np.any(kept < costs[place], axis=1)
        if not beaten.any():
            front.append(int(place))
    return front


def _group_equal(numbers: list[int], costs: NDArray[np.float64]) -> tuple[tuple[int, ...], ...]:
    """Return the numbers of rows that are alike."""
    groups: dict[tuple[float, ...], list[int]] = {}
    for number, cost in zip(numbers, costs, strict=True):
        groups.setdefault(tuple(cost), []).append(number)
    return tuple(tuple(sorted(group)) for group in groups.values() if len(group) > 1)
