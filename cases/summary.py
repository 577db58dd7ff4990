"""A result in words and tables for a terminal, in SI and in the maker's units."""

from collections.abc import Iterator, Mapping
from math import hypot
from typing import Any, NamedTuple

from rich.console import Console, Group, RenderableType
from rich.table import Table
from rich.text import Text

from ..materials import format_quantity
from .caution import list_cautions
from .checks import ASKED, SOURCE, TENSIONS, Check
from .clearance import Clearance
from .heading import write_heading
from .measures import MEASURES
from .reading import SYSTEMS, Units, round_shares, write_sentence
from .remark import say_hold

_NOTHING = 1e-4  # of a radian or of the weight: the mesh does not know better
WIDTH = 80  # columns of the narrowest terminal that is served


class Reading(NamedTuple):
    """One line of a table: what it is, its SI value, its dimension, a remark."""

    title: str
    value: float
    dimension: str
    remark: str = ""


SHAPE = (
    ("sag_m", "sag below the bars", "length"),
    ("ground_clearance_m", "lowest point above ground", "length"),
    ("head_line_angle_rad", "angle of the head line", "angle"),
    ("foot_line_angle_rad", "angle of the foot line", "angle"),
    ("hang_angle_rad", "hang angle, mean of both", "angle"),
    ("tree_distance_m", "distance of the trees", "length"),
)
STATES = (("taut_fraction", "taut"), ("wrinkled_fraction", "wrinkled"), ("slack_fraction", "slack"))


def print_summary(summary: Mapping[str, Any], checks: list[Check], units: Units, console: Console) -> None:
    """Print what was found, how the cords stand against their breaking load, and the cautions.

    Parameters
    ----------
    summary : mapping
        ``result.summary``.
    checks : list of Check
        Every check that was made, passed or not.
    units : {"metric", "imperial", "both"}
        Which columns are printed.
    console : Console
        Where to; nothing is wider than 80 columns.
    """
    remarks = {check.part: f"{check.demand / check.capacity:.1%} of break" for check in checks}
    heading = write_heading(summary["design"])
    parts: list[RenderableType] = [
        Text(heading.title, style="bold"),
        Text(heading.meaning),
        Text(_describe_solution(summary)),
        build_table("Forces", list(list_forces(summary, remarks)), units),
        build_table("Shape and weight", list(list_shape(summary, units)), units),
        *(_describe_lying(summary, units) if summary.get("comfort") else []),
        Text(_describe_cloth(summary)),
        _describe_checks(checks),
        *(Text(f"Note: {write_sentence(note, units)}") for note in summary.get("notes", [])),
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
    systems = [system for system in SYSTEMS if units in (system, "both")]
    for system in systems:
        table.add_column("SI" if system == "metric" else "maker's", justify="right", no_wrap=True)
    table.add_column("")
    for line in readings:
        cells = [format_quantity(line.value, line.dimension, system) for system in systems]
        if len(set(cells)) < len(cells):
            cells = [cells[0], ""]  # an angle is the same in both
        table.add_row(Text(line.title), *map(Text, cells), Text(line.remark))
    return table


def list_forces(summary: Mapping[str, Any], remarks: Mapping[str, str]) -> Iterator[Reading]:
    """Yield what every cord, line, bar and tree carries.

    Parameters
    ----------
    summary : mapping
        ``result.summary``.
    remarks : mapping of str to str
        Remark by the name of the part.

    Yields
    ------
    Reading
        N.
    """
    forces = summary["forces"]
    for key, (part, _) in TENSIONS.items():
        most = ", most" if key.endswith("_max_N") else ""
        yield Reading(f"{part}{most}", forces[key], "force", remarks.get(part, ""))
    yield Reading("thrust of the head bar", forces["head_bar_thrust_N"], "force")
    yield Reading("thrust of the foot bar", forces["foot_bar_thrust_N"], "force")
    for end in ("head", "foot"):
        along, across, up = summary["anchors"][f"{end}_tree_N"]
        yield Reading(f"{end} tree, pulled sideways", hypot(along, across), "force")
        yield Reading(f"{end} tree, pulled down", abs(up), "force")


def list_shape(summary: Mapping[str, Any], units: Units) -> Iterator[Reading]:
    """Yield lengths, angles, the highest line stress and weights.

    Parameters
    ----------
    summary : mapping
        ``result.summary``.
    units : {"metric", "imperial", "both"}
        Of quantities inside a remark.

    Yields
    ------
    Reading
        SI.
    """
    for key, title, dimension in SHAPE:
        height = Clearance(summary["shape"][key]) if key == "ground_clearance_m" else None
        yield Reading(title, summary["shape"][key], dimension, height.verdict if height else "")
    fabric, weights = summary["fabric"], summary["weights"]
    yield Reading(
        "highest line stress",
        fabric["highest_line_stress_N_per_m"],
        "line_load",
        write_sentence(fabric["highest_line_stress_place"], units),
    )
    yield Reading("person", weights["person_kg"], "mass")
    yield Reading("hammock as modelled", weights["hammock_kg"], "mass")


def list_comfort(summary: Mapping[str, Any]) -> Iterator[Reading]:
    """Yield how one lies, measure by measure.

    Parameters
    ----------
    summary : mapping
        ``result.summary`` of a person in contact.

    Yields
    ------
    Reading
        SI.
    """
    found = summary["comfort"]
    for measure in MEASURES:
        value, remark = found[measure.key], measure.better
        if measure.key == "high_pressure_Pa":
            remark = f"{found['high_pressure_part']}; {remark}"
        if measure.key == "hold_N":
            value, remark = abs(value), f"{abs(found['slide']):.1%} of weight, toward the {_name_end(value)}"
        yield Reading(measure.title, 0.0 if abs(value) < _NOTHING else value, measure.dimension, remark)


def _name_end(hold: float) -> str:
    """Return where a force along the hammock, positive towards the feet, points."""
    return "feet" if hold > 0 else "head"


def _describe_solution(summary: Mapping[str, Any]) -> str:
    """Return how the equilibrium was found."""
    found = summary["solution"]
    return (
        f"{found['reason']}, residual {found['residual']:.1e}, {found['triangles']} triangles, "
        f"{found['iterations']} steps, {found['seconds_s']:.1f} s"
    )


def _describe_lying(summary: Mapping[str, Any], units: Units) -> list[RenderableType]:
    """Return how one lies, and what holds one."""
    table = build_table("How one lies", list(list_comfort(summary)), units)
    words = [say_hold(summary["comfort"]), *([summary["stability"]["words"]] if summary.get("stability") else [])]
    return [table, Text("\n" + " ".join(write_sentence(sentence, units) for sentence in words))]


def _describe_cloth(summary: Mapping[str, Any]) -> str:
    """Return how much of the cloth is taut, wrinkled and slack, and what its peak is worth."""
    parts = round_shares([summary["fabric"][key] for key, _ in STATES])
    shares = ", ".join(f"{part}% {word}" for part, (_, word) in zip(parts, STATES, strict=True))
    return (
        f"\nCloth by area: {shares}. The highest line stress of a single triangle grows with a finer mesh at the "
        "corners and at the end of a lock. If it keeps growing from mesh to mesh it is no stress of the cloth: "
        "do not use it."
    )


def _describe_checks(checks: list[Check]) -> Text:
    """Return how many checks failed, and the factor behind them."""
    text = Text(
        f"Breaking load over tension should be at least {ASKED:g} [{SOURCE}]; knots, splices and stitches take "
        "their part off the breaking load. "
    )
    failed = [check for check in checks if not check.passed]
    if not failed:
        text.append(f"All {len(checks)} cords and lines pass. ")
    else:
        parts = ", ".join(f"{check.part} ({check.found:.1f})" for check in failed)
        text.append(f"NOT ENOUGH: {parts}. ", "bold")
    return text.append("Cloth, seams and bars are NOT checked: neither strength nor buckling.", "bold")
