"""A hang sheet in tables for a terminal."""

from collections.abc import Iterator

from rich.console import Console, Group, RenderableType
from rich.table import Table
from rich.text import Text

from ....materials import System, format_quantity, make_sentence
from ...judging.trees import HIGHEST_STRAP
from ...studies.hang.hang_option import HangOption, ImpossibleHang, explain_limits
from ...studies.hang.hang_sheet import HangSheet
from ...unit_display import WIDTH, Units, find_main_system, write_sentence


def print_hang_sheet(sheet: HangSheet, units: Units, console: Console) -> None:
    """Print between which trees a design fits, and how to hang it between others.

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
        Text(write_sentence(_write_heading(sheet), units), style="bold"),
        _list_spots(sheet, system),
        Text("seat: height of the side cords where they hang lowest; clear: lowest point above ground."),
        Text(write_sentence(_write_reach(sheet), units)),
        *(Text(write_sentence(sentence, units)) for sentence in _list_reasons(sheet)),
        _list_rehangs(sheet, system),
        Text(write_sentence(_write_kept(sheet), units)),
    ]
    console.print(Group(*parts), width=min(console.width, WIDTH))


def _write_heading(sheet: HangSheet) -> str:
    """Return what hangs, and how."""
    s = sheet.design.hammock.suspension
    trees = "" if sheet.girth is None else make_sentence(", trees {girth:length.4} round", girth=sheet.girth)
    return make_sentence(
        "{name} as it is: lines of {line:length.4}, straps at {head:length.4} and {foot:length.4}{trees}",
        name=sheet.design.name,
        line=s.line_length,
        head=s.head_strap_height,
        foot=s.foot_strap_height,
        trees=trees,
    )


def _list_spots(sheet: HangSheet, system: System) -> Table:
    """Return how it hangs as it is, distance by distance."""
    table = _make_table("", ("trees", "angle", "head\npull", "foot\npull", "sag", "seat", "clear"), "fits")
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
    """Return lines and straps at the kept angle, distance by distance."""
    title = f"\nTo keep a hang angle of {format_quantity(sheet.kept.angle, 'angle')}"
    table = _make_table(title, ("trees", "lines", "head strap", "foot strap"), "")
    for way in sheet.rehangs:
        distance = format_quantity(way.distance, "length", system)
        if not way.possible:
            table.add_row(*map(Text, (distance, "", "", "", "TOO CLOSE")), style="bold")
            continue
        lengths = [format_quantity(each, "length", system) for each in (way.line, way.head_strap, way.foot_strap)]
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
    """Return between which trees it fits."""
    if sheet.reach is None:
        return make_sentence("It fits between no trees as it is. {limits}", limits=explain_limits())
    return make_sentence(
        "It fits between trees {near:length} to {far:length} apart. {limits}",
        near=sheet.reach[0],
        far=sheet.reach[1],
        limits=explain_limits(),
    )


def _list_reasons(sheet: HangSheet) -> Iterator[str]:
    """Yield why it cannot hang at a distance."""
    for spot in sheet.spots:
        if isinstance(spot, ImpossibleHang):
            yield spot.reason


def _write_kept(sheet: HangSheet) -> str:
    """Return what stays the same at the kept angle."""
    return make_sentence(
        "At that angle the trees are pulled with {kept.head_pull:force} (head) and {kept.foot_pull:force} (foot) at "
        "any distance. HIGH: above the {most:length} that some parks allow (Three Rivers Park District, 6 ft). "
        "Masses of longer lines are left out.",
        kept=sheet.kept,
        most=HIGHEST_STRAP,
    )
