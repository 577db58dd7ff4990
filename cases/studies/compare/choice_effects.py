"""Effect of each choice of a sweep on a result value."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from math import sqrt
from statistics import fmean, variance
from typing import NamedTuple

from ....materials.short_repr import write_repr
from ..sweep.result_value import ResultValue
from ..sweep.sweep_form import Combine
from ..sweep.sweep_row import SweepRow
from ..sweep.sweep_variable import AS_DESIGNED
from .value_columns import OrderedValues, find_figure_column, find_scale, name_choices, order_labels

_FEW = 3  # designs of one label, below which a sampled choice of quantities is looked at in halves
_ALONE = (
    "Each change is relative to the unchanged design, one change at a time. Effects of two changes together need not "
    "add up."
)
_PAIRS = (
    "Each change is the mean over all pairs of solved designs that differ in this choice alone, with min and max; n is "
    "the number of pairs."
)
_SAMPLES = (
    "Each change is the difference of two means over designs drawn at random, in which everything else varies too. Min "
    "and max are two standard errors (n designs of the label): 19 of 20 true values lie between them. A choice of "
    "quantities is divided into two halves of equally many designs."
)
_NO_BASE = "The unchanged design has no such value, so the others cannot be compared with it."
_TOGETHER = "The choices vary together: this sweep cannot show the effect of one alone."


class ChoiceEffect(NamedTuple):
    """Effect of one label of a choice on a result value.

    Parameters
    ----------
    label, against : str
        The choice, and the one it is compared with.
    mean : float
        Change, SI.
    least, most : float or None
        Of it, see ``Effects.how``; None for a single design.
    size : int
        Pairs, or designs of the label.
    """

    label: str
    against: str
    mean: float
    least: float | None
    most: float | None
    size: int


class Influence(NamedTuple):
    """Effect of a choice on a result value.

    Parameters
    ----------
    choice : str
        What varies.
    effects : tuple of ChoiceEffect
        One for each label but the one compared against, in their order.
    reach : float
        From the label with the least to the one with the most of the figure, SI.
    """

    choice: str
    effects: tuple[ChoiceEffect, ...]
    reach: float

    def __repr__(self) -> str:
        return write_repr(self, self.choice, f"{len(self.effects)} effects", f"reach {self.reach:.3g}")


class ChoiceEffects(NamedTuple):
    """Effects of all choices on a result value, and how they are computed.

    Parameters
    ----------
    figure : ResultValue
        Which.
    influences : tuple of Influence
        The choice with the largest effect first.
    how : str
        How they are computed, in sentences.
    """

    figure: ResultValue
    influences: tuple[Influence, ...]
    how: str

    def __repr__(self) -> str:
        return write_repr(self, self.figure.key, *(influence.choice for influence in self.influences))


def find_effects(rows: Sequence[SweepRow], key: str, combine: Combine) -> ChoiceEffects:
    """Return the effect of each choice on a result value.

    For ``one at a time`` the change from the unchanged design; for a grid the mean over pairs that differ in one
    choice alone, so that designs without a result bias nothing; for samples the difference of the means of two groups,
    with two standard errors sqrt(s1^2/n1 + s2^2/n2).

    Parameters
    ----------
    rows : sequence of SweepRow
        Designs of one sweep; those without the value are skipped, those that fail are not.
    key : str
        Figure.
    combine : Combine
        How the sweep puts its choices together.

    Raises
    ------
    RankingError
        If no design has the value.

    Examples
    --------
    >>> from tautlay.cases.studies.sweep.sweep_row import RowStatus
    >>> rows = [SweepRow(n, {"depth": d}, RowStatus.SOLVED, figures={"sag_m": sag})
    ...         for n, d, sag in ((1, "12 cm", 0.5), (2, "16 cm", 0.625))]
    >>> find_effects(rows, "sag_m", Combine.GRID).influences[0].effects[0].mean
    0.125
    """
    figure = find_figure_column(key, rows)
    known = [row for row in rows if key in row.figures]
    if combine is Combine.PAIRED and len(name_choices(rows)) > 1:
        return ChoiceEffects(figure, (), _TOGETHER)
    if combine is Combine.ALONE and not any(set(row.choices.values()) == {AS_DESIGNED.label} for row in known):
        return ChoiceEffects(figure, (), _NO_BASE)
    sampled = combine.sampled
    influences = []
    for choice in name_choices(rows).values():
        effects = tuple(_compare_groups(known, choice, key) if sampled else _compare_pairs(known, choice, key))
        if effects:
            means = [0.0, *(effect.mean for effect in effects)]
            influences.append(Influence(choice, effects, max(means) - min(means)))
    influences.sort(key=lambda each: -each.reach)
    return ChoiceEffects(
        figure, tuple(influences), _SAMPLES if sampled else _ALONE if combine is Combine.ALONE else _PAIRS
    )


def _compare_pairs(rows: Sequence[SweepRow], choice: str, key: str) -> Iterator[ChoiceEffect]:
    """Yield the changes over pairs that differ in one choice alone."""
    values: dict[str, dict[tuple[str, ...], float]] = defaultdict(dict)
    for row in rows:
        rest = tuple(label for name, label in row.choices.items() if name != choice)
        values[row.choices[choice]][rest] = row.figures[key]
    first, *others = order_labels(list(values)) or [""]
    for label in others:
        pairs = [value - values[first][rest] for rest, value in values[label].items() if rest in values[first]]
        if pairs:
            yield ChoiceEffect(label, first, fmean(pairs), min(pairs), max(pairs), len(pairs))


def _compare_groups(rows: Sequence[SweepRow], choice: str, key: str) -> Iterator[ChoiceEffect]:
    """Yield the differences of the means of groups, all else varying."""
    groups = _group_rows(rows, choice)
    first, *others = groups or {"": []}
    for label in others:
        one, two = ([row.figures[key] for row in groups[each]] for each in (first, label))
        change, error = fmean(two) - fmean(one), _find_error(one, two)
        least, most = (None, None) if error is None else (change - 2 * error, change + 2 * error)
        yield ChoiceEffect(label, first, change, least, most, len(two))


def _find_error(one: Sequence[float], two: Sequence[float]) -> float | None:
    """Return the standard error of the difference of two means; None if one is of a single value."""
    if min(len(one), len(two)) < 2:
        return None
    return sqrt(variance(one) / len(one) + variance(two) / len(two))


def _group_rows(rows: Sequence[SweepRow], choice: str) -> Mapping[str, Sequence[SweepRow]]:
    """Return designs by label; by halves where a choice of quantities has a label for nearly every design."""
    labels = [row.choices[choice] for row in rows]
    scale = find_scale(labels)
    if scale is not None and set(scale.values) == set(labels) and len(rows) < _FEW * len(set(labels)):
        return _halve(rows, choice, scale)
    return {
        label: [row for row, each in zip(rows, labels, strict=True) if each == label] for label in order_labels(labels)
    }


def _halve(rows: Sequence[SweepRow], choice: str, scale: OrderedValues) -> Mapping[str, Sequence[SweepRow]]:
    """Return the designs with the lower and with the higher values of a choice."""
    ordered = sorted(rows, key=lambda row: scale.values[row.choices[choice]])
    middle = len(ordered) // 2
    halves = [half for half in (ordered[:middle], ordered[middle:]) if half]
    return {f"{half[0].choices[choice]} to {half[-1].choices[choice]}": half for half in halves}
