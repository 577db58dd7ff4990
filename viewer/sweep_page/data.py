"""What the program of the page works with: choices, result values and effects as plain numbers."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from ...cases.judging.comfort.measure_list import MEASURES
from ...cases.studies.compare.choice_effects import ChoiceEffects, find_effects
from ...cases.studies.compare.pareto_front import DIGITS
from ...cases.studies.compare.value_columns import list_figures, name_figure, order_labels
from ...cases.studies.sweep.result_value import RESERVES, ResultValue
from ...cases.studies.sweep.sweep_form import Combine
from ...cases.studies.sweep.sweep_row import SweepRow
from ...cases.studies.sweep.sweep_variable import AS_DESIGNED
from ..report.scene import pack_units
from .design_line import KINDS, find_kind

_KEPT = 9  # digits of a value, more than are ever shown
_LAY = {measure.key for measure in MEASURES}


def pack_sweep(rows: Sequence[SweepRow], names: Sequence[str], measure: str, combine: Combine) -> Mapping[str, Any]:
    """Return the data of the page, one list for each choice and result value, in the order of the rows.

    Parameters
    ----------
    rows : sequence of SweepRow
        Designs in order.
    names : sequence of str
        Choices that differ.
    measure : str
        Key of the value that is shown first beside weight and reserve factor; empty if there is none.
    combine : Combine
        How the choices are put together.
    """
    figures = [figure for figure in list_figures(rows) if figure not in RESERVES]  # the least of them is there
    return {
        "designed": AS_DESIGNED.label,
        "units": pack_units(),
        "digits": DIGITS,
        "numbers": [row.number for row in rows],
        "kinds": [KINDS.index(find_kind(row)) for row in rows],
        "choices": [_pack_choice(rows, name) for name in names],
        "figures": [_pack_figure(rows, figure) for figure in figures],
        "measure": measure,
        "effects": {figure.key: _pack_effects(find_effects(rows, figure.key, combine)) for figure in figures},
    }


def _pack_choice(rows: Sequence[SweepRow], name: str) -> Mapping[str, Any]:
    """Return the labels of a choice in their order, and the place of each design's among them."""
    labels = order_labels([row.choices.get(name, "") for row in rows])
    places = {label: place for place, label in enumerate(labels)}
    return {"name": name, "labels": labels, "picks": [places[row.choices.get(name, "")] for row in rows]}


def _pack_figure(rows: Sequence[SweepRow], figure: ResultValue) -> Mapping[str, Any]:
    """Return a result value of all designs, SI."""
    values = [row.figures.get(figure.key) for row in rows]
    return {
        "key": figure.key,
        "title": name_figure(figure),
        "dimension": figure.dimension,
        "better": figure.better,
        "lay": figure.key in _LAY,
        "values": [None if value is None else float(f"{value:.{_KEPT}g}") for value in values],
    }


def _pack_effects(effects: ChoiceEffects) -> Mapping[str, Any]:
    """Return the effects on a result value."""
    return {"how": effects.how, "influences": list(_list_influences(effects))}


def _list_influences(effects: ChoiceEffects) -> Iterator[Mapping[str, Any]]:
    """Yield the effect of each choice."""
    for influence in effects.influences:
        yield {
            "choice": influence.choice,
            "against": influence.effects[0].against,
            "effects": [
                [each.label, *map(_round, (each.mean, each.least, each.most)), each.size] for each in influence.effects
            ],
        }


def _round(value: float | None) -> float | None:
    """Return a change with the digits that are shown and some more."""
    return None if value is None else float(f"{value:.5g}")
