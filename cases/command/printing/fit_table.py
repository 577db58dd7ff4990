"""What measurements tell, as a table and sentences for a terminal."""

from collections.abc import Iterator
from textwrap import fill

from rich.console import Console, Group, RenderableType
from rich.table import Table
from rich.text import Text

from ....materials import Sentence, make_sentence
from ...studies.fit.stiffness_fit import FoundInput, StiffnessFit
from ...unit_display import WIDTH, Units, find_main_system, show_alike, write_sentence

_UNLIKELY = 0.01  # chance of the misfits below which they are doubted
_HEADINGS = ("stiffness", "before", "found", "90 of 100 within", "unsure", "told")


def print_fit(found: StiffnessFit, units: Units, console: Console) -> None:
    """Print every stiffness with its band, what is not told, what to measure next, and how well all fits.

    Parameters
    ----------
    found : StiffnessFit
        From :func:`~tautlay.cases.studies.fit.stiffness_fit.fit_stiffness`.
    units : {"metric", "imperial", "both"}
        Units; the table has one system only.
    console : Console
        Where to; nothing is wider than 80 columns.
    """
    width = min(console.width, WIDTH)
    parts: list[RenderableType] = [
        Text(f"{found.design.name}: what {len(found.misfits)} measurements tell", style="bold"),
        _build_table(found, find_main_system(units)),
        Text("unsure: standard deviation, of that before. Ranges of the library are the prior."),
        *(Text(fill(write_sentence(each, units), width)) for each in list_findings(found)),
    ]
    console.print(Group(*parts), width=width)


def _build_table(found: StiffnessFit, units: Units) -> Table:
    """Return the stiffnesses, and what else is told."""
    table = Table(box=None, pad_edge=False)
    for heading in _HEADINGS:
        left = heading in ("stiffness", "told")
        table.add_column(heading, justify="left" if left else "right", no_wrap=not left)
    for each in (*found.stiffnesses, *(other for other in found.others if other.told != "not")):
        numbers = (each.source.value, each.value, each.low, each.high)
        before, value, low, high = show_alike(numbers, each.source.dimension, units)
        row = (str(each.source.title), before, value, f"{low} to {high}", f"{each.narrowed:.0%}", each.told)
        table.add_row(*map(Text, row))
    return table


def list_findings(found: StiffnessFit) -> Iterator[Sentence]:
    """Yield what is not told, what to measure next, and how well all fits.

    Parameters
    ----------
    found : StiffnessFit
        What measurements tell.
    """
    for each in found.stiffnesses:
        if each.told == "not":
            yield _write_untold(each)
        elif each.helps is not None and each.told == "in part":
            yield make_sentence("{title}: {help}", title=each.source.title, help=_write_help(each))
    for source in found.unknown:
        yield make_sentence(
            "{title}: no range is known, it counts as exact. Give one in a file of materials.", title=source.title
        )
    worst = max(found.misfits, key=lambda each: abs(each.spreads))
    places = {"title": worst.title, "measured": worst.measured, "computed": worst.computed, "by": abs(worst.spreads)}
    words = f"{{title}}: measured {{measured:{worst.dimension}.4}}, computed {{computed:{worst.dimension}.4}}"
    if found.chance < _UNLIKELY:
        yield make_sentence(
            "The measurements do not fit together: fewer than 1 of 100 such trials would miss by as much. Trust "
            f"nothing above before you know why. Worst: {words}, {{by:.1f}} times its accuracy.",
            **places,
        )  # fmt: skip
    else:
        yield make_sentence(f"All fits within its accuracy. Worst: {words}.", **places)


def _write_untold(each: FoundInput) -> Sentence:
    """Return that these measurements cannot tell a stiffness."""
    return make_sentence(
        "{title} cannot be told from these measurements: anywhere in its range they would hardly differ. {help}",
        title=each.source.title,
        help=_write_help(each),
    )


def _write_help(each: FoundInput) -> Sentence:
    """Return what measurement would help most."""
    if each.helps is None:
        return make_sentence("No measurement known here would narrow it by a tenth.")
    return make_sentence(
        "Would help most: {what} (unsure {then:.0%} instead of {now:.0%}).",
        what=each.helps.title,
        then=each.helped,
        now=each.narrowed,
    )
