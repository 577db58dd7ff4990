"""The designs of a sweep in order, best first."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from ....materials.short_repr import write_repr
from ..sweep.result_value import ResultValue
from ..sweep.sweep_row import RowStatus, SweepRow
from .condition import read_condition
from .pareto_front import LEAST, choose_figures, find_pareto_front
from .value_columns import WORDS, find_column, list_figures, name_choices, order_labels

_APART = "; "  # between the checks of a cell


@dataclass(frozen=True)
class Ranking:
    """The designs of a sweep in order.

    Parameters
    ----------
    rows : tuple of SweepRow
        Those that pass, best first; then those that fail, in the same order; then those not solved, by number.
    sort : str
        Column by which they are sorted.
    conditions : tuple of str
        Conditions they meet.
    total : int
        How many designs the sweep has.
    """

    rows: tuple[SweepRow, ...]
    sort: str
    conditions: tuple[str, ...]
    total: int

    def __repr__(self) -> str:
        return write_repr(self, f"{len(self.rows)} of {self.total} designs", f"{self.held} hold", f"by {self.sort}")

    @property
    def held(self) -> int:
        """How many of the designs pass."""
        return sum(row.holds for row in self.rows)

    def to_columns(self, against: Sequence[str] | None = None) -> dict[str, list[Any]]:
        """Return a table of all designs, for programs that compare them further.

        Parameters
        ----------
        against : sequence of str or None
            Values that decide the Pareto front; None is weight and reserve factor.

        Returns
        -------
        dict of str to list
            ``number``; one column for each choice, its labels; ``status``, ``holds``, ``reason``, ``governs``,
            ``failed``, ``unchecked`` and ``unjudged``, several of them with ``; `` between; ``unbeaten``, whether it is
            Pareto-optimal; and one for each value, in the SI unit at the end of its key, None where it does not apply.

        Raises
        ------
        RankingError
            As :func:`~tautlay.cases.studies.compare.pareto_front.find_pareto_front`.

        Examples
        --------
        >>> rows = [SweepRow(1, {"cloth": "nylon"}, RowStatus.SOLVED, figures={"packed_kg": 0.25, "least_margin": 1.1})]
        >>> columns = rank_rows(rows).to_columns()
        >>> columns["cloth"], columns["unbeaten"], columns["packed_kg"]
        (['nylon'], [True], [0.25])

        For a table of pandas:

        >>> import pandas
        >>> pandas.DataFrame(columns).groupby("cloth")["packed_kg"].min().to_dict()
        {'nylon': 0.25}
        """
        keys = choose_figures(self.rows) if against is None else against
        counted = self.rows and (against or len(keys) >= LEAST)
        front = {row.number for row in find_pareto_front(self.rows, keys).rows} if counted else set()
        words = {word: [_join(getattr(row, word)) for row in self.rows] for word in WORDS}
        return {
            "number": [row.number for row in self.rows],
            **{
                column: [row.choices.get(name) for row in self.rows] for column, name in name_choices(self.rows).items()
            },
            "status": words.pop("status"),
            "holds": [row.holds for row in self.rows],
            **words,
            "unbeaten": [row.number in front for row in self.rows],
            **{each.key: [row.figures.get(each.key) for row in self.rows] for each in list_figures(self.rows)},
        }


def rank_rows(
    rows: Sequence[SweepRow], *, sort: str | None = None, where: Sequence[str] = (), holding: bool = False
) -> Ranking:
    """Return designs in order, best first, as far as they meet some conditions.

    Parameters
    ----------
    rows : sequence of SweepRow
        All designs of one sweep.
    sort : str or None
        A value, a choice or another column; None is the weight, or the number where nothing is solved. A figure of
        which neither less nor more is better is sorted from least to most; a choice as the sweep lists it, quantities
        from least to most.
    where : sequence of str
        Conditions that all must be met, see :func:`~tautlay.cases.studies.compare.condition.read_condition`.
    holding : bool
        Only designs that pass.

    Raises
    ------
    RankingError
        For an unknown column or condition.

    Examples
    --------
    >>> rows = [SweepRow(n, {}, RowStatus.SOLVED, figures={"packed_kg": kg}) for n, kg in ((1, 0.3), (2, 0.2))]
    >>> [row.number for row in rank_rows(rows).rows]
    [2, 1]
    """
    conditions = [read_condition(text, rows) for text in where]
    key = sort or ("packed_kg" if any("packed_kg" in row.figures for row in rows) else "number")
    place = _choose_place(key, rows)
    kept = [row for row in rows if (row.holds or not holding) and all(condition.meets(row) for condition in conditions)]
    kept.sort(key=lambda row: (_judge(row), *place(row), row.number))
    asked = (*(condition.text for condition in conditions), *(["passes"] if holding else []))
    return Ranking(tuple(kept), key, asked, len(rows))


def _judge(row: SweepRow) -> int:
    """Return 0 for a design that passes, 1 for one that fails, 2 for one that is not solved."""
    return 0 if row.holds else 1 if row.status is RowStatus.SOLVED else 2


def _choose_place(key: str, rows: Sequence[SweepRow]) -> Callable[[SweepRow], tuple[Any, ...]]:
    """Return what puts rows in the order of a column; those without the value come last."""
    column = find_column(key, rows)
    if isinstance(column, ResultValue):
        sign = -1.0 if column.better == "more" else 1.0
        return lambda row: (column.key not in row.figures, sign * row.figures.get(column.key, 0.0))
    if column == "number":
        return lambda row: (row.number,)
    if column in WORDS:
        return lambda row: (_join(getattr(row, column)),)
    choice = name_choices(rows)[column]
    order = order_labels([row.choices[choice] for row in rows if choice in row.choices])
    places = {label: place for place, label in enumerate(order)}
    return lambda row: (places.get(row.choices.get(choice, ""), len(places)),)


def _join(texts: str | Sequence[str]) -> str:
    """Return one or several texts of a design as one."""
    return str(texts) if isinstance(texts, str) else _APART.join(texts)
