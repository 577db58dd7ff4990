"""A hang sheet in tables for a terminal."""

from collections.abc import Iterator

from rich.console import Console, Group, RenderableType
from rich.table import Table
from rich.text import Text

from ....materials import System, format_quantity, make_sentence
from ...judging.trees import HIGHEST_STRAP
from ...studies.hang.hang_option import HangOption, ImpossibleHang, explain_limits
from ...studies.hang.hang_sheet import HangSheet
from ...unit_display import WIDTH, Units, find_main_system, show_tape, write_sentence


def print_hang_sheet(sheet: HangSheet, units: Units, console: Console) -> None:
    """Print which tree spacings a design fits, and how to hang it between others.

    Parameters
    ----------
    sheet : HangSheet
        What was found.
    units : {"metric", "imperial", "both"}
        The tables have one system only: imperial where that is asked for, else metric.
    console : Console
        Where to; nothing is wider than 80 columns.
    """
    system: System = find_main_system(units)
    parts: list[RenderableType] = [
        Text(_write_heading(sheet, units), style="bold"),
        _list_spots(sheet, system),
        Text("seat: height of the side cords at their lowest. clear: lowest point above ground."),
        Text(write_sentence(_write_reach(sheet), units)),
        *(Text(write_sentence(sentence, units)) for sentence in _list_reasons(sheet)),
        _list_rehangs(sheet, system),
        Text(write_sentence(_write_kept(sheet), units)),
    ]
    console.print(Group(*parts), width=min(console.width, WIDTH))


def _write_heading(sheet: HangSheet, units: Units) -> str:
    """Return what hangs, and how."""
    s = sheet.design.hammock.suspension
    trees = "" if sheet.girth is None else f", tree girth {show_tape(sheet.girth, units)}"
    return make_sentence(
        "{name}: line {line}, head strap {head}, foot strap {foot}{trees}",
        name=sheet.design.name,
        line=show_tape(s.line_length, units),
        head=show_tape(s.head_strap_height, units),
        foot=show_tape(s.foot_strap_height, units),
        trees=trees,
    )


def _list_spots(sheet: HangSheet, system: System) -> Table:
    """Return the hang with lines and straps unchanged, spacing by spacing."""
    table = _make_table("", ("tree\nspacing", "angle", "head\nload", "foot\nload", "sag", "seat", "clear"), "fits")
    for spot in sheet.spots:
        cells = [format_quantity(spot.distance, "length", system)]
        if isinstance(spot, HangOption):
            values = ((spot.head_pull, "force"), (spot.foot_pull, "force"))
            lengths = ((spot.sag, "length"), (spot.seat, "length"), (spot.clearance, "length"))
            cells += [format_quantity(*each, system) for each in ((spot.angle, "angle"), *values, *lengths)]
        else:
            cells += [""] * 6
        table.add_row(*map(Text, (*cells, spot.verdict)), style="" if spot.fits else "bold")
    return table


def _list_rehangs(sheet: HangSheet, system: System) -> Table:
    """Return lines and straps at the kept angle, spacing by spacing."""
    title = f"\nTo keep a hang angle of {format_quantity(sheet.kept.angle, 'angle')}"
    table = _make_table(title, ("tree spacing", "line", "head strap", "foot strap"), "")
    for way in sheet.rehangs:
        distance = format_quantity(way.distance, "length", system)
        if not way.possible:
            table.add_row(*map(Text, (distance, "", "", "", "TOO CLOSE")), style="bold")
            continue
        lengths = [show_tape(each, system) for each in (way.line, way.head_strap, way.foot_strap)]
        high = max(way.head_strap, way.foot_strap) > HIGHEST_STRAP
        table.add_row(*map(Text, (distance, *lengths, "HIGH" if high else "")))
    return table


def _make_table(title: str, headings: tuple[str, ...], last: str) -> Table:
    """Return an empty table, numbers to the right, a word at the end of each line."""
    table = Table(title=title or None, title_justify="left", title_style="bold", box=None, pad_edge=False)
    for heading in headings:
        table.add_column(heading, justify="right", no_wrap=True)
    table.add_column(last, no_wrap=True)
    return table


def _write_reach(sheet: HangSheet) -> str:
    """Return which tree spacings it fits."""
    if sheet.reach is None:
        return make_sentence("It fits no tree spacing unchanged. {limits}", limits=explain_limits())
    return make_sentence(
        "It fits tree spacings of {near:length} to {far:length}. {limits}",
        near=sheet.reach[0],
        far=sheet.reach[1],
        limits=explain_limits(),
    )


def _list_reasons(sheet: HangSheet) -> Iterator[str]:
    """Yield why it cannot hang at a spacing."""
    for spot in sheet.spots:
        if isinstance(spot, ImpossibleHang):
            yield spot.reason


def _write_kept(sheet: HangSheet) -> str:
    """Return the loads at the kept angle."""
    return make_sentence(
        "At that angle the tree load is {kept.head_pull:force} (head) and {kept.foot_pull:force} (foot) at any "
        "spacing. HIGH: above the {most:length} that some parks allow (Three Rivers Park District, 6 ft). The weight "
        "of longer lines is ignored.",
        kept=sheet.kept,
        most=HIGHEST_STRAP,
    )
