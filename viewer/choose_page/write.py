"""The page of the lightest design put together from its template, and written to a file."""

from pathlib import Path
from typing import NamedTuple

from markupsafe import Markup

from ...cases.design import Design
from ...cases.judging.weighing import weigh_design
from ...cases.storage.atomic import write_text
from ...cases.studies.choose.choice_words import list_sentences, name_answer
from ...cases.studies.choose.outcome import ChooseResult, NextLighter
from ...cases.unit_display import SYSTEMS, Units
from ..report.template import render_page
from ..report.wording import mark_pair, mark_quantity
from .overlay import frame_designs, outline_design


class MeasureRow(NamedTuple):
    """A measure of the design as written and of the answer."""

    title: str
    start: Markup
    answer: Markup


class LighterBar(NamedTuple):
    """The next lighter value of one thing that is open; ``share`` of the largest saving, percent."""

    lighter: NextLighter
    saves: Markup
    share: float


def compose_choose_page(found: ChooseResult, *, units: Units | None = None) -> str:
    """Return the page of the lightest design.

    Parameters
    ----------
    found : ChooseResult
        What was found.
    units : {"metric", "imperial", "both"} or None
        What the page shows first; None is as in the design.

    Returns
    -------
    str
        A whole HTML document that loads nothing from the network.
    """
    start, chosen = found.open_design.fine.base, found.chosen
    answer = None if chosen is None else chosen.design
    metric, imperial = (list(list_sentences(found, system)) for system in SYSTEMS)
    return render_page(
        "choose.html",
        units or start.units,
        bundle="pattern.js",
        styles=("page.css", "choose.css"),
        scene={},
        terms=found.open_design.terms,
        start=start,
        asked=name_answer(found),
        kind="good" if chosen is not None and chosen.confirmed else "open" if chosen is not None else "bad",
        sentences=[mark_pair(one, other) for one, other in zip(metric, imperial, strict=True)],
        view=None if answer is None else frame_designs(start, answer),
        outlines=None if answer is None else (outline_design(start), outline_design(answer)),
        values=[] if chosen is None else found.open_design.list_changes(chosen.row.choices),
        measures=[] if answer is None else _list_measures(start, answer),
        bars=_list_bars(found.lighter),
    )


def _list_measures(start: Design, answer: Design) -> list[MeasureRow]:
    """Return sizes and weights of both."""
    lengths = [
        ("body length", start.hammock.body.length, answer.hammock.body.length),
        ("head width", start.hammock.body.head_width, answer.hammock.body.head_width),
        ("foot width", start.hammock.body.foot_width, answer.hammock.body.foot_width),
        ("head bar", start.hammock.head_bar.length, answer.hammock.head_bar.length),
        ("foot bar", start.hammock.foot_bar.length, answer.hammock.foot_bar.length),
    ]
    rows = [MeasureRow(title, *(mark_quantity(each, "length") for each in both)) for title, *both in lengths]
    scales = [weigh_design(each) for each in (start, answer)]
    for group in dict.fromkeys(weight.group for each in scales for weight in each.weights):
        both = [each.add(group, carried=False).mass for each in scales]
        rows.append(MeasureRow(f"{group} weight", *(mark_quantity(each, "mass") for each in both)))
    packed = [mark_quantity(each.packed.mass, "mass") for each in scales]
    return [*rows, MeasureRow("added pack weight", *packed)]


def _list_bars(lighter: tuple[NextLighter, ...]) -> list[LighterBar]:
    """Return why nothing lighter was chosen, the largest saving first."""
    ordered = sorted(lighter, key=lambda each: -each.saves)
    most = max((each.saves for each in ordered), default=0.0)
    return [
        LighterBar(each, mark_quantity(each.saves, "mass"), 100.0 * each.saves / most if most > 0.0 else 0.0)
        for each in ordered
    ]


def write_choose_page(found: ChooseResult, html_path: Path, *, units: Units | None = None) -> None:
    """Write the page of the lightest design.

    Parameters
    ----------
    found : ChooseResult
        What was found.
    html_path : Path
        File to write, whole or not at all.
    units : {"metric", "imperial", "both"} or None
        What the page shows first; None is as in the design.

    Raises
    ------
    OSError
        If the page cannot be written.
    """
    write_text(html_path, compose_choose_page(found, units=units))
