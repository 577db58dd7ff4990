"""The first screen of a result, in the order a maker reads: does it pass, what to change, how close is the rest."""

from collections.abc import Iterator
from textwrap import fill

from rich.console import Console, Group, RenderableType
from rich.table import Table
from rich.text import Text

from ....making import WeightGroup
from ....materials import make_sentence
from ...display.reading import show_reading
from ...display.result_rows import find_ends, list_comfort, title_lay
from ...display.safety_cautions import CAUTIONS, DROPPING, VITAL
from ...judging.checks import Findings
from ...judging.checks.check import NEVER_CHECKED, pick_tightest
from ...judging.checks.shortfall import make_shortfall
from ...judging.sensitivity.factor_ranges import FactorRanges
from ...judging.verdict.requirement import Topic
from ...result_record import ResultRecord
from ...studies.sweep.mesh_warning import note_mesh
from ...unit_display import WIDTH, Units, find_main_system, list_systems, show_quantity, write_sentence
from .check_table import list_never_checked, list_unchecked, list_unjudged, show_checks
from .range_table import show_factor_ranges

_MOST_CHECKS = 7
_LAY = (
    "trunk_pitch_rad",
    "leg_pitch_rad",
    "trunk_bend_rad",
    "neck_bend_rad",
    "knee_flexion_rad",
    "back_sag_m",
    "shoulder_squeeze_N",
    "bar_to_face_m",
)
_BULLET = " ! "


def print_overview(
    record: ResultRecord, findings: Findings, units: Units, console: Console, ranges: FactorRanges | None = None
) -> None:
    """Print the verdict, what to do, the tightest checks, forces, hang, lay, weight and the two vital cautions.

    Parameters
    ----------
    record : ResultRecord
        ``result.record``.
    findings : Findings
        Every check that was made, and what could not be checked.
    units : {"metric", "imperial", "both"}
        Units.
    console : Console
        Where to; nothing is wider than 80 columns.
    ranges : FactorRanges or None
        Range of each factor; None was not asked for.
    """
    width = min(console.width, WIDTH)
    parts: list[RenderableType] = [
        Text(fill(_write_title(record, units), width), style="bold"),
        Text(fill(write_sentence(record.verdict, units), width), style="bold"),
        *(Text(fill(line, width)) for line in (*list_unjudged(record), *list_never_checked(findings))),
        *(Text(line) for line in _list_tasks(record, findings, units, width)),
        *show_checks(findings, units, most=_MOST_CHECKS),
        *([] if ranges is None else show_factor_ranges(ranges, units)),
        _build_forces(record, units),
        Text(fill(_write_hang(record, units), width)),
        *([_build_lay(record, units)] if record.comfort else []),
        Text("\n" + fill(_write_weight(record, units), width)),
        *(Text(fill(sentence, width)) for sentence in _list_cautions(record)),
    ]
    console.print(Group(*parts), width=width)


def _list_cautions(record: ResultRecord) -> Iterator[str]:
    """Yield the vital cautions; under a sudden load what it stands for."""
    if record.design.load.sudden:
        yield (
            "These loads are those of a weight let go while just touching the cloth. Do not drop from higher: that "
            "pulls harder still."
        )
    yield from (CAUTIONS[place].text for place in VITAL if not (place == DROPPING and record.design.load.sudden))


def _write_title(record: ResultRecord, units: Units) -> str:
    """Return what was solved: design, load, person, trees."""
    load = record.design.load.words.format(factor=record.design.load_factor)
    person = show_quantity(record.weights.person, "mass", units)
    trees = show_quantity(record.shape.tree_distance, "length", units)
    return f"{record.design.name}, {load}: person {person}, trees {trees}"


def _list_tasks(record: ResultRecord, findings: Findings, units: Units, width: int) -> Iterator[str]:
    """Yield what to change or to know, one paragraph each; nothing where there is nothing to do."""
    notes = [write_sentence(note, units) for note in record.notes]
    tasks = [*_list_shortfalls(findings, units), *_list_limits(record, notes, units), *notes]
    if record.stability and record.stability.held in ("hardly", "softly"):
        tasks.append(write_sentence(record.stability.words, units))
    if record.solution.reason != "converged":
        tasks.append(f"The solver ended early: {record.solution.reason}, residual {record.solution.residual:.1e}.")
    tasks += list_unchecked((each for each in findings.unchecked if each.part not in NEVER_CHECKED), units)
    if record.hot_spots and (coarse := note_mesh(record.solution.mesh_size, hot_spots=True)) is not None:
        tasks.append(write_sentence(coarse, units))
    if tasks:
        yield "\nTo do"
    for task in tasks:
        yield fill(task, width, initial_indent=_BULLET, subsequent_indent=" " * len(_BULLET))


def _list_shortfalls(findings: Findings, units: Units) -> Iterator[str]:
    """Yield what each part that fails would need, left and right as one, its worst way first."""
    for check in pick_tightest(findings.failed):
        yield write_sentence(make_shortfall(check), units)


def _list_limits(record: ResultRecord, notes: list[str], units: Units) -> Iterator[str]:
    """Yield the limits of the maker that are not kept, but for what a note tells already."""
    for each in record.judged.failed if record.judged else ():
        words = write_sentence(each.remedy, units)
        told = any(words.partition(". ")[2] in note for note in notes)
        if each.topic in (Topic.LAY, Topic.SIZE) and each.found is not None and not told:
            yield words


def _build_forces(record: ResultRecord, units: Units) -> Table:
    """Return what the ends of the hammock feel, head beside foot."""
    table = Table(title="\nForces", title_justify="left", title_style="bold", box=None, pad_edge=False)
    table.add_column("", no_wrap=True)
    for end in ("head", "foot"):
        table.add_column(end, justify="left", no_wrap=True)
    for title, *values, dimension in find_ends(record.forces, record.anchors):
        table.add_row(title, *(Text(show_quantity(value, dimension, units)) for value in values))
    return table


def _write_hang(record: ResultRecord, units: Units) -> str:
    """Return how it hangs."""
    shape = record.shape
    above = shape.ground_clearance >= 0.0
    return write_sentence(
        make_sentence(
            "Hang: line angle {head:angle} head, {foot:angle} foot; sag below the bars {sag:length}; lowest point "
            f"{{low:length}} {'above' if above else 'BELOW'} ground.",
            head=shape.head_line_angle,
            foot=shape.foot_line_angle,
            sag=shape.sag,
            low=abs(shape.ground_clearance),
        ),
        units,
    )


def _build_lay(record: ResultRecord, units: Units) -> Table:
    """Return the measures of the lay that a maker can change."""
    assert record.comfort is not None
    title = f"\n{title_lay(record.comfort)}"
    table = Table(title=title, title_justify="left", title_style="bold", box=None, pad_edge=False)
    table.add_column("", no_wrap=True)
    table.add_column("", no_wrap=True)
    table.add_column("aim for")
    for reading in list_comfort(record.comfort, _LAY):
        value, *others = dict.fromkeys(show_reading(reading, system) for system in list_systems(units))
        table.add_row(reading.title, Text(value), Text(" ".join([*(f"({each})" for each in others), reading.remark])))
    return table


def _write_weight(record: ResultRecord, units: Units) -> str:
    """Return the total mass and that of each group."""
    system = find_main_system(units)
    groups = " + ".join(
        f"{group} {show_quantity(record.weights.groups[group], 'mass', system)}"
        for group in WeightGroup
        if record.weights.groups[group] > 0.0
    )
    total = show_quantity(record.weights.total, "mass", units)
    carried = record.weights.carried_anyway
    anyway = f" + dual-use {show_quantity(carried, 'mass', system)}" if carried > 0.0 else ""
    return f"Weight: {total} = {groups}{anyway}"
