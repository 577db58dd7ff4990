"""The page of a trial put together from its template, and written to a file."""

from pathlib import Path
from typing import NamedTuple

from markupsafe import Markup

from ...cases.storage.atomic import write_text
from ...cases.studies.trial.trial_plan import ExpectedReading, TrialPlan
from ...cases.studies.trial.trial_solver import FINE
from ...cases.studies.trial.trial_words import PROOF_SOURCE, list_meanings, list_steps, list_trial_cautions
from ...cases.unit_display import Units, show_quantity
from ..report.template import render_page
from ..report.wording import mark_quantity


class TrialCell(NamedTuple):
    """What a reading should be under an amount of water; ``aside`` is None for what is no line."""

    head: str
    expected: Markup
    low: Markup
    high: Markup
    aside: Markup | None


class TrialRow(NamedTuple):
    """One reading under every amount of water."""

    words: str
    key: str
    cells: list[TrialCell]


def compose_trial_page(plan: TrialPlan, *, units: Units | None = None) -> str:
    """Return the page of a trial.

    Parameters
    ----------
    plan : TrialPlan
        What is tried.
    units : {"metric", "imperial", "both"} or None
        What the page shows first; None is as in the design.

    Returns
    -------
    str
        A whole HTML document that loads nothing from the network.
    """
    heads = [show_quantity(step.water, "mass", "metric") for step in plan.steps]
    rows = [
        TrialRow(group[0].words, group[0].key, [_fill_cell(*both) for both in zip(heads, group, strict=True)])
        for group in zip(*(step.readings for step in plan.steps), strict=True)
    ]
    return render_page(
        "trial.html",
        units or plan.design.units,
        bundle="pattern.js",
        styles=("page.css", "trial.css"),
        scene={},
        design=plan.design,
        plan=plan,
        fine=FINE,
        heads=heads,
        rows=rows,
        steps=list_steps(plan),
        meanings=list_meanings(),
        care=list_trial_cautions(plan),
        proof_source=PROOF_SOURCE,
    )


def _fill_cell(head: str, found: ExpectedReading) -> TrialCell:
    """Return one reading as the table shows it."""
    dimension = found.expected.dimension
    digits = 4 if dimension == "length" else 3
    expected, low, high = (
        mark_quantity(each.value, dimension, digits) for each in (found.expected, found.low, found.high)
    )
    aside = None if found.aside is None else mark_quantity(found.aside, "length")
    return TrialCell(head, expected, low, high, aside)


def write_trial_page(plan: TrialPlan, html_path: Path, *, units: Units | None = None) -> None:
    """Write the page of a trial.

    Parameters
    ----------
    plan : TrialPlan
        What is tried.
    html_path : Path
        File to write, whole or not at all.
    units : {"metric", "imperial", "both"} or None
        What the page shows first; None is as in the design.

    Raises
    ------
    OSError
        If the page cannot be written.
    """
    write_text(html_path, compose_trial_page(plan, units=units))
