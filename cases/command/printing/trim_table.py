"""The effect of another hang: the same numbers before and after, for a terminal."""

import tomllib
from collections.abc import Callable, Iterator
from typing import NamedTuple

from rich.console import Console, Group, RenderableType
from rich.table import Table
from rich.text import Text

from ....materials import Sentence, make_sentence
from ...design import Design
from ...form import find_written
from ...judging.clearance import Clearance
from ...judging.comfort.comfort import Comfort
from ...judging.comfort.lay_notes import NO_SLIDE, name_slide
from ...judging.comfort.measure_list import Measure, find_measure
from ...judging.forces import Forces
from ...judging.tree_notes import HIGHEST_STRAP
from ...result import Result
from ...studies.lying.trim import Trim
from ...studies.lying.varied_length import VARIED, VariedLength
from ...unit_display import WIDTH, Units, show_quantity, show_tape, write_sentence

_FORCES: dict[str, Callable[[Forces], float]] = {
    "head line": lambda forces: forces.head_line,
    "foot line": lambda forces: forces.foot_line,
    "head bar thrust": lambda forces: forces.head_bar_thrust,
    "foot bar thrust": lambda forces: forces.foot_bar_thrust,
}
_LAY = ("trunk_pitch_rad", "leg_pitch_rad")


class BeforeAfter(NamedTuple):
    """One line of the table: what it is, in words before and after."""

    title: str
    before: str
    after: str


def print_trim(trim: Trim, units: Units, console: Console) -> None:
    """Print what to change, and its effect.

    Parameters
    ----------
    trim : Trim
        From :func:`~tautlay.cases.studies.lying.trim.find_trim`.
    units : {"metric", "imperial", "both"}
        Units.
    console : Console
        Where to; nothing is wider than 80 columns.
    """
    table = Table(box=None, pad_edge=False)
    table.add_column("")
    for heading in ("before", "after"):
        table.add_column(heading, justify="right", no_wrap=True)
    for change in list_changes(trim, units):
        table.add_row(*map(Text, change))
    parts: list[RenderableType] = [
        Text(f"{trim.result.design.name}: {_format_answer(trim, units)}\n"),
        table,
        Text(),
        *(Text(write_sentence(sentence, units)) for sentence in _list_remarks(trim.result)),
    ]
    console.print(Group(*parts), width=min(console.width, WIDTH))


def list_changes(trim: Trim, units: Units) -> Iterator[BeforeAfter]:
    """Yield strap heights, clearance, forces and lay, before and after.

    Parameters
    ----------
    trim : Trim
        What was changed.
    units : {"metric", "imperial", "both"}
        Units.

    Yields
    ------
    BeforeAfter
        In words.
    """
    for title, first, second in zip(
        _list_titles(trim),
        *(_list_values(each, _list_lengths(trim), units) for each in (trim.before, trim.result)),
        strict=True,
    ):
        yield BeforeAfter(title, first, second)


def _format_answer(trim: Trim, units: Units) -> str:
    """Return what to change, with lengths as they are tied, under the keys of the design."""
    varied = VARIED[trim.key]
    designs = trim.before.design, trim.result.design
    lengths = {
        end: [getattr(each.hammock.suspension.pick(end), varied.field) for each in designs] for end in varied.ends
    }
    homes = {end: _find_home(designs[0], f"suspension.{end}.{varied.field}") for end in varied.ends}
    trees = show_quantity(trim.result.model.tree_distance, "length", units)
    split = ""
    if len(homes) == 1 and (shared := f"suspension.{varied.field}") in homes.values():
        homes = {end: f"suspension.{end}_{varied.field}" for end in homes}
        split = " Replace {0} with head_{0} and foot_{0}.".format(shared.removeprefix("suspension."))
    changes = {}
    for end, (before, after) in lengths.items():
        now, then = show_tape(before, units), show_tape(after, units)
        changes[homes[end].removeprefix("suspension.")] = f"{then} instead of {now}"
    words = " and ".join(f"{key} to {change}" for key, change in changes.items())
    return f"set {words}; trees {trees} apart.{split}"


def _find_home(design: Design, key: str) -> str:
    """Return under which key a design gives a length of one end."""
    return find_written([key], tomllib.loads(design.text))[0]


def _list_lengths(trim: Trim) -> list[VariedLength]:
    """Return the lengths that may change; lines of different length one by one."""
    alike = all(
        each.design.hammock.suspension.head.line_length == each.design.hammock.suspension.foot.line_length
        for each in (trim.before, trim.result)
    )
    return [each for each in VARIED.values() if each.field != "line_length" or (len(each.ends) == 2) == alike]


def _list_titles(trim: Trim) -> list[str]:
    """Return the titles of the rows."""
    lay = [find_measure(key).title for key in _LAY]
    lengths = [varied.title for varied in _list_lengths(trim)]
    return [*lengths, "lowest point above ground", *_FORCES, *lay, "friction needed to stay put"]


def _list_values(result: Result, lengths: list[VariedLength], units: Units) -> list[str]:
    """Return the cells, in the order of the titles."""
    ropes, comfort = result.design.hammock.suspension, result.comfort
    assert comfort is not None  # whoever lies is in contact
    slide = comfort.slide
    return [
        *(show_tape(varied.read(ropes), units) for varied in lengths),
        show_quantity(result.shape.ground_clearance, "length", units),
        *(show_quantity(read(result.forces), "force", units) for read in _FORCES.values()),
        *(_show_lay(find_measure(key), comfort, units) for key in _LAY),
        f"{abs(slide):.1%} of weight, to {name_slide(slide)}" if abs(slide) >= NO_SLIDE else "none",
    ]


def _show_lay(measure: Measure, comfort: Comfort, units: Units) -> str:
    """Return an angle, with the side on which it misses what to aim for."""
    missed = measure.name_miss(comfort)
    return show_quantity(measure.read(comfort), "angle", units) + (f", {missed}" if missed else "")


def _list_remarks(result: Result) -> list[Sentence]:
    """Return remarks on straps, ground and mesh."""
    ropes = result.design.hammock.suspension
    high = [end for end in ("head", "foot") if ropes.pick(end).strap_height > HIGHEST_STRAP]
    verdict = f"The {' and '.join(high)} strap is above it" if high else "Both straps are below it"
    low = Clearance(result.shape.ground_clearance).sentence
    limit = make_sentence(
        "Some parks allow no strap above {limit:length} (Three Rivers Park District: 6 ft). {verdict}.",
        limit=HIGHEST_STRAP,
        verdict=verdict,
    )
    mesh = make_sentence(
        "Found on a mesh of {found:length}. `tautlay solve` uses that of the design, {finer:length}, and its result "
        "differs slightly.",
        found=result.mesh_size,
        finer=result.design.mesh_size,
    )
    return [limit, *([low] if low else []), *([mesh] if result.mesh_size > result.design.mesh_size else [])]
