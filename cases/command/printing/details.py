"""Every table of a result, for a terminal."""

from collections.abc import Iterator

from rich.console import Console, Group, RenderableType
from rich.table import Table
from rich.text import Text

from ....materials import System, format_quantity
from ...display.headings import write_heading
from ...display.reading import Reading, show_reading
from ...display.result_rows import (
    list_channel,
    list_comfort,
    list_forces,
    list_shape,
    list_stretch,
    title_lay,
    write_shares,
)
from ...display.safety_cautions import list_cautions
from ...judging.bar_summary import Bars
from ...judging.checks import Findings
from ...judging.cloth.gauge_square import GAUGE
from ...judging.cloth.hot_spot import HotSpot
from ...judging.comfort.comfort import Comfort
from ...judging.comfort.lay_notes import make_restraint_sentence
from ...judging.comfort.side_stability import StabilityRecord
from ...judging.sensitivity.factor_ranges import FactorRanges
from ...judging.weighing import Weights
from ...result_record import ResultRecord, SolutionRecord
from ...unit_display import WIDTH, Units, find_main_system, list_systems, show_quantity, title_units, write_sentence
from .check_table import list_factors, list_unchecked, list_unjudged, show_checks
from .range_table import show_factor_ranges
from .weight_table import write_total


def print_details(
    record: ResultRecord, findings: Findings, units: Units, console: Console, ranges: FactorRanges | None = None
) -> None:
    """Print every table of a result: checks, forces, shape, cloth, channels, lay, sources and all cautions.

    Parameters
    ----------
    record : ResultRecord
        ``result.record``.
    findings : Findings
        Every check that was made, passed or not, and what could not be checked.
    units : {"metric", "imperial", "both"}
        Columns to print.
    console : Console
        Where to; nothing is wider than 80 columns.
    ranges : FactorRanges or None
        Range of each factor; None was not asked for.
    """
    heading = write_heading(record.design.name, record.design.load, record.design.load_factor)
    parts: list[RenderableType] = [
        Text(heading.title, style="bold"),
        Text(heading.meaning),
        Text(_write_solution(record.solution)),
        Text(write_sentence(record.verdict, units), style="bold"),
        *(Text(line) for line in list_unjudged(record)),
        *show_checks(findings, units),
        *(Text(line) for line in list_unchecked(findings.unchecked, units)),
        *([] if ranges is None else show_factor_ranges(ranges, units)),
        *(Text(f"Note: {write_sentence(note, units)}") for note in record.notes),
        build_table("Forces", list(list_forces(record.forces, record.anchors, record.trees)), units),
        *(Text(line) for line in _write_bars(record.bars, units)),
        build_table("Shape and weight", list(list_shape(record.shape, record.weights)), units),
        Text(_write_weight(record.weights, units)),
        Text(f"\nCloth by area: {write_shares(record.fabric)}."),
        *([_build_spots(record.hot_spots, units)] if record.hot_spots else []),
        build_table("Side channels", list(list_channel(record.channel, units)), units),
        build_table("Stretch under load", list(list_stretch(record.stretch, units)), units),
        *(_show_lying(record.comfort, record.stability, units) if record.comfort else []),
        *(Text(line) for line in list_factors(findings)),
        Text("\nCautions", style="bold"),
        *(Text(f"- {caution}") for caution in list_cautions()),
    ]
    console.print(Group(*parts), width=min(console.width, WIDTH))


def build_table(title: str, readings: list[Reading], units: Units) -> Table:
    """Return a table with a column for each system of units.

    Parameters
    ----------
    title : str
        Heading.
    readings : list of Reading
        Its lines.
    units : {"metric", "imperial", "both"}
        Which columns.

    Returns
    -------
    Table
        At most 80 columns wide.

    Examples
    --------
    >>> build_table("Forces", [Reading("head line", 640.0, "force")], "both").row_count
    1
    """
    table = Table(title=f"\n{title}", title_justify="left", title_style="bold", box=None, pad_edge=False)
    table.add_column("", no_wrap=False)
    systems = list_systems(units)
    for system in systems:
        table.add_column(title_units(system), justify="right", no_wrap=True)
    table.add_column("")
    for line in readings:
        cells = [show_reading(line, system) for system in systems]
        if len(set(cells)) < len(cells):
            cells = [cells[0], ""]  # an angle is the same in both
        table.add_row(Text(line.title), *map(Text, cells), Text(line.remark))
    return table


def _build_spots(spots: tuple[HotSpot, ...], units: Units) -> Table:
    """Return where the cloth is pulled hardest."""
    system: System = find_main_system(units)
    title = f"\nHighest cloth tension, mean over {show_quantity(GAUGE, 'length', units)}"
    table = Table(title=title, title_justify="left", title_style="bold", box=None, pad_edge=False)
    table.add_column("", no_wrap=True)
    table.add_column("place")
    for heading in ("tension", "of strength", "thread", "off warp"):
        table.add_column(heading, justify="right", no_wrap=True)
    for number, spot in enumerate(spots, 1):
        pull = format_quantity(spot.line_stress, "line_load", system)
        angle = format_quantity(spot.off_warp, "angle", digits=2)
        cells = (write_sentence(spot.place, system), pull, f"{spot.share:.1%}", spot.thread, angle)
        table.add_row(str(number), *map(Text, cells))
    return table


def _write_bars(bars: Bars, units: Units) -> Iterator[str]:
    """Yield the way of the thrust through each bar of several parts."""
    for name, bar in bars.list_ends():
        if bar.parts > 1:
            yield f"Thrust path, {name}: {write_sentence(bar.path, units)}"


def _write_solution(found: SolutionRecord) -> str:
    """Return how the equilibrium was found."""
    return (
        f"{found.reason}, residual {found.residual:.1e}, {found.triangles} triangles, "
        f"{found.iterations} steps, {found.seconds:.1f} s"
    )


def _show_lying(comfort: Comfort, stability: StabilityRecord | None, units: Units) -> list[RenderableType]:
    """Return how one lies, and what holds one."""
    table = build_table(title_lay(comfort), list(list_comfort(comfort)), units)
    words: list[str] = [make_restraint_sentence(comfort.slide, comfort.hold)]
    if stability is not None:
        words += [stability.words] + ([stability.swing_words] if stability.swing_words else [])
    return [table, Text("\n" + " ".join(write_sentence(sentence, units) for sentence in words))]


def _write_weight(weights: Weights, units: Units) -> str:
    """Return what the hammock weighs with everything that the shape does not carry."""
    total = write_total(weights.total, weights.packed, units)
    return f"With hems, seams, splices and hardware it {total} `tautlay weigh` lists every part."
