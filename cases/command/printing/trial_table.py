"""The plan of a trial as a table for a terminal."""

from textwrap import fill

from rich.console import Console, Group, RenderableType
from rich.table import Table
from rich.text import Text

from ...display.safety_cautions import CAUTIONS
from ...record import SIValue
from ...studies.trial.trial_plan import TrialPlan
from ...studies.trial.trial_words import list_meanings, list_steps, list_trial_cautions
from ...unit_display import WIDTH, Units, find_main_system, show_quantity, write_sentence


def print_trial(plan: TrialPlan, units: Units, console: Console) -> None:
    """Print what to do in a trial, what it should show, and what differences mean.

    Parameters
    ----------
    plan : TrialPlan
        From :func:`~tautlay.cases.studies.trial.trial_plan.make_trial_plan`.
    units : {"metric", "imperial", "both"}
        Units; the table has one system only.
    console : Console
        Where to; nothing is wider than 80 columns.
    """
    width = min(console.width, WIDTH)

    def write(number: int, text: str) -> Text:
        return Text(fill(f"{number}. {write_sentence(text, units)}", width, subsequent_indent="   "))

    parts: list[RenderableType] = [
        Text(f"{plan.design.name}: trial at home", style="bold"),
        *(Text(fill(write_sentence(each, units), width)) for each in (CAUTIONS[0].text, *list_trial_cautions(plan))),
        Text(),
        *(write(number, sentence) for number, sentence in enumerate(list_steps(plan), 1)),
        _build_table(plan, find_main_system(units)),
        Text(),
        *(Text(fill(f"- {write_sentence(each, units)}", width, subsequent_indent="  ")) for each in list_meanings()),
    ]
    console.print(Group(*parts), width=width)


def _build_table(plan: TrialPlan, units: Units) -> Table:
    """Return every reading with its likely range, by the water that lies in it."""
    table = Table(title="\nExpected, and between what 90 of 100 lie", title_justify="left", box=None, pad_edge=False)
    table.add_column("reading")
    for step in plan.steps:
        proof = ", proof" if step is plan.proof else ""
        table.add_column(f"{show_quantity(step.water, 'mass', units)}{proof}", justify="right")
    for group in zip(*(step.readings for step in plan.steps), strict=True):
        cells = [
            f"{_show(each.expected, units)}\n{_show(each.low, units)} to\n{_show(each.high, units)}" for each in group
        ]
        table.add_row(*map(Text, (f"{group[0].words}\n{group[0].key}", *cells)))
    return table


def _show(value: SIValue, units: Units) -> str:
    """Return a value to the millimetre or the newton."""
    return show_quantity(value.value, value.dimension, units, 4 if value.dimension == "length" else 3)
