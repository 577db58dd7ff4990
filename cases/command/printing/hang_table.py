"""A hang sheet in tables for a terminal."""

from collections.abc import Callable, Iterator, Sequence
from math import degrees

from rich.console import Console, Group, RenderableType
from rich.table import Table
from rich.text import Text

from ....hammock.load_case import HANGING
from ....hammock.suspension import EndSuspension
from ....making import Hitch
from ....materials import System, format_quantity, make_sentence
from ...design import Design
from ...judging.checks.check import name_part, write_utilisation
from ...judging.checks.shortfall import make_shortfall
from ...judging.tree_notes import HIGHEST_STRAP
from ...judging.trees import SlingLoad
from ...studies.hang.hang_option import HangOption, ImpossibleHang, explain_limits
from ...studies.hang.hang_sheet import HangSheet
from ...studies.hang.other_trees import SlingSpan, list_sling_spans
from ...unit_display import WIDTH, Units, find_main_system, show_tape, write_sentence

_SPOT_HEADINGS = ("tree\nspacing", "angle\ndeg", "head\npull", "foot\npull", "sag", "seat", "clear", "used")
_SLINGS: tuple[tuple[str, str, Callable[[SlingLoad], float | None]], ...] = (
    ("slings, tension of each", "force", lambda slings: slings.tension),
    ("slings, angle between both", "angle", lambda slings: slings.angle),
    ("slings, length of each", "length", lambda slings: slings.length),
    ("slings, cord on the bark", "length", lambda slings: slings.on_bark),
    ("slings, pressure on the bark", "stress", lambda slings: slings.bark_pressure),
)


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
        Text(
            "seat: height of the side cords at their lowest. clear: lowest point above ground. used: share of its "
            "strength that the part closest to failing uses, factor of safety included."
        ),
        Text(write_sentence(_write_reach(sheet), units)),
        *(Text(write_sentence(sentence, units)) for sentence in _list_reasons(sheet)),
        _list_rehangs(sheet, system),
        Text(write_sentence(_write_kept(sheet), units)),
        *_list_tree_parts(sheet, system),
    ]
    console.print(Group(*parts), width=min(console.width, WIDTH))


def print_sling_spans(designs: Sequence[Design], units: Units, console: Console) -> None:
    """Print how far slings must adjust from the thinnest to the thickest tree; nothing for straps without slings.

    Parameters
    ----------
    designs : sequence of Design
        The same hammock between the trees asked for.
    units : {"metric", "imperial", "both"}
        Of the sentences.
    console : Console
        Where to.
    """
    sentences = [write_sentence(_write_span(span), units) for span in list_sling_spans(designs)]
    if sentences:
        console.print(Group(Text(), *map(Text, sentences)), width=min(console.width, WIDTH))


def _write_span(span: SlingSpan) -> str:
    """Return how far the slings of one end must adjust."""
    if span.travel == 0.0:
        return make_sentence(
            "{end} slings: set to {least:length} each; {slings.shortest:length} to {slings.longest:length} are "
            "possible.",
            end=span.end.capitalize(),
            least=span.least,
            slings=span.slings,
        )
    idle = " Round thinner trees the strap goes without them." if span.idle else ""
    return make_sentence(
        "{end} slings: {least:length} to {most:length} for these trees, so they must adjust by {travel:length}. They "
        "can be set to {span.slings.shortest:length} to {span.slings.longest:length}.{idle}",
        end=span.end.capitalize(),
        least=span.least,
        most=span.most,
        travel=span.travel,
        span=span,
        idle=idle,
    )


def _write_heading(sheet: HangSheet, units: Units) -> str:
    """Return what hangs, and how; head and foot as one where they are alike."""
    s = sheet.design.hammock.suspension
    lines = _show_pair("line", s.head.line_length, s.foot.line_length, units)
    head, foot = (end.tree.girth if end.tree else None for end in (s.head, s.foot))
    trees = f", {_show_pair('tree girth', head, foot, units)}" if head or foot else ""
    return make_sentence(
        "{name}, {load}: {lines}, head strap {head} high, foot strap {foot} high{trees}",
        name=sheet.design.name,
        load=HANGING.words,
        lines=lines,
        head=show_tape(s.head.strap_height, units),
        foot=show_tape(s.foot.strap_height, units),
        trees=trees,
    )


def _show_pair(noun: str, head: float | None, foot: float | None, units: Units) -> str:
    """Return a length of both ends, once where it is the same."""
    shown = ["not told" if each is None else show_tape(each, units) for each in (head, foot)]
    return f"{noun} {shown[0]}" if head == foot else f"{noun} {shown[0]} (head), {shown[1]} (foot)"


def _list_tree_parts(sheet: HangSheet, system: System) -> Iterator[RenderableType]:
    """Yield what the trees bear at the kept angle and how the slings are set; nothing where no girth is told."""
    s, loads = sheet.design.hammock.suspension, sheet.kept.trees
    if s.head.tree is None and s.foot.tree is None:
        return
    title = f"\nTrees at a hang angle of {format_quantity(sheet.kept.angle, 'angle')}"
    table = _make_table(title, ("", "head", "foot"), "")
    table.columns[0].justify = "left"
    pairs = [
        ("trunk thickness", [_show(load.diameter, "length", system) for load in (loads.head, loads.foot)]),
        ("strap", [_name_hitch(end) for end in (s.head, s.foot)]),
        ("pressure on the bark", [_show(load.bark_pressure, "stress", system) for load in (loads.head, loads.foot)]),
    ]
    if loads.head.slings is not None or loads.foot.slings is not None:
        pairs += [
            (
                noun,
                [
                    _show(read(each) if each else None, dimension, system)
                    for each in (loads.head.slings, loads.foot.slings)
                ],
            )
            for noun, dimension, read in _SLINGS
        ]
    for noun, cells in pairs:
        table.add_row(*map(Text, (noun, *cells)))
    yield table
    yield Text(
        "Computed as on smooth bark, the worst case: rough bark takes load off what lies behind the trunk. We know of "
        "no agreed limit to the pressure; a wider strap lowers it."
    )


def _show(value: float | None, dimension: str, system: System) -> str:
    """Return a quantity, nothing for None."""
    return "" if value is None else format_quantity(value, dimension, system)


def _name_hitch(hung: EndSuspension) -> str:
    """Return how the strap goes round its tree."""
    if hung.strap is None or hung.wrap is None:
        return "none: line round trunk" if hung.tree else ""
    if hung.strap.hitch is not Hitch.SLINGS:
        return str(hung.strap.hitch)
    return "behind the trunk" if hung.wrap.sling else "through its own loop"


def _list_spots(sheet: HangSheet, system: System) -> Table:
    """Return the hang with lines and straps unchanged, spacing by spacing."""
    table = _make_table("", _SPOT_HEADINGS, "fits")
    for spot in sheet.spots:
        cells = [format_quantity(spot.distance, "length", system)]
        if isinstance(spot, HangOption):
            values = ((spot.head_pull, "force"), (spot.foot_pull, "force"))
            lengths = ((spot.sag, "length"), (spot.seat, "length"), (spot.clearance, "length"))
            cells.append(f"{degrees(spot.angle):.1f}")
            cells += [format_quantity(*each, system) for each in (*values, *lengths)]
            cells.append(write_utilisation(spot.tightest.margin).replace(" ", "") if spot.tightest else "")
        else:
            cells += [""] * 7
        table.add_row(*map(Text, (*cells, spot.verdict)), style="" if spot.fits else "bold")
    return table


def _list_rehangs(sheet: HangSheet, system: System) -> Table:
    """Return lines and straps at the kept angle, spacing by spacing."""
    title = f"\nTo keep a hang angle of {format_quantity(sheet.kept.angle, 'angle')}"
    alike = all(way.line == way.foot_line for way in sheet.rehangs)
    lines = ("line",) if alike else ("head line", "foot line")
    table = _make_table(title, ("tree spacing", *lines, "head strap", "foot strap"), "")
    for way in sheet.rehangs:
        distance = format_quantity(way.distance, "length", system)
        if not way.possible:
            table.add_row(*map(Text, (distance, *("" for _ in lines), "", "", "TOO CLOSE")), style="bold")
            continue
        ropes = (way.line,) if alike else (way.line, way.foot_line)
        lengths = [show_tape(each, system) for each in (*ropes, way.head_strap, way.foot_strap)]
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
    tightest = [spot.tightest for spot in sheet.spots if isinstance(spot, HangOption)]
    failed = sorted((check for check in tightest if check and not check.passed), key=lambda check: check.margin)
    worst = {name_part(check.title): check for check in reversed(failed)}
    for check in reversed(worst.values()):
        yield make_sentence("TOO WEAK: {shortfall}", shortfall=make_shortfall(check))


def _write_kept(sheet: HangSheet) -> str:
    """Return the loads at the kept angle."""
    return make_sentence(
        "At that angle the lines pull with {kept.head_pull:force} (head) and {kept.foot_pull:force} (foot) at any "
        "spacing. HIGH: above the {most:length} that some parks allow (Three Rivers Park District, 6 ft). The weight "
        "of longer lines is ignored.",
        kept=sheet.kept,
        most=HIGHEST_STRAP,
    )
