"""A result in words and tables for a terminal, in SI and in the maker's units."""

from collections.abc import Iterator, Mapping
from math import hypot
from typing import Any, NamedTuple

from rich.console import Console, Group, RenderableType
from rich.table import Table
from rich.text import Text

from ..materials import System, format_quantity, say
from .caution import list_cautions
from .certainty.bands import Bands
from .certainty.table import show_bands
from .checks import Findings
from .checks.table import show_checks, write_verdict
from .checks.tension import PARTS
from .clearance import Clearance
from .hot_spot import GAUGE
from .measures import MEASURES
from .reading import SYSTEMS, Units, show_quantity, write_sentence

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
CHANNEL = (  # the last tells whether it is an average over the gauge length
    ("pull_across_most_N_per_m", "pull on the cord, most", "line_load", True),
    ("pull_across_mean_N_per_m", "pull on the cord, mean", "line_load", False),
    ("pull_along_most_N_per_m", "pull along the cord, most", "line_load", True),
    ("cord_pressure_most_Pa", "pressure of the cord, most", "stress", True),
)
STATES = (("taut_fraction", "taut"), ("wrinkled_fraction", "wrinkled"), ("slack_fraction", "slack"))


def print_summary(
    summary: Mapping[str, Any], findings: Findings, units: Units, console: Console, bands: Bands | None = None
) -> None:
    """Print what was found, whether every part holds, and the cautions.

    Parameters
    ----------
    summary : mapping
        ``result.summary``.
    findings : Findings
        Every check that was made, passed or not, and what could not be checked.
    units : {"metric", "imperial", "both"}
        Which columns are printed.
    console : Console
        Where to; nothing is wider than 80 columns.
    bands : Bands or None
        How sure the checks are; None was not asked.
    """
    parts: list[RenderableType] = [
        Text(f"{summary['design']['name']}: loaded shape, {summary['design']['load']}", style="bold"),
        Text(_describe_solution(summary)),
        Text(write_verdict(findings), style="bold"),
        build_table("Forces", list(list_forces(summary)), units),
        build_table("Shape and weight", list(list_shape(summary, units)), units),
        *([_build_spots(summary["hot_spots"], units)] if summary.get("hot_spots") else []),
        build_table("Side channels", list(list_channel(summary, units)), units),
        build_table("Longer under load", list(list_stretch(summary, units)), units),
        *([build_table("How one lies", list(list_comfort(summary)), units)] if summary.get("comfort") else []),
        Text(_describe_cloth(summary)),
        *show_checks(findings, units),
        *([] if bands is None else show_bands(bands, units)),
        *(Text(line) for line in _describe_bars(summary, units)),
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


def list_forces(summary: Mapping[str, Any]) -> Iterator[Reading]:
    """Yield what every cord, line, bar and tree carries.

    Parameters
    ----------
    summary : mapping
        ``result.summary``.

    Yields
    ------
    Reading
        N.
    """
    forces = summary["forces"]
    for key, (part, _) in PARTS.items():
        most = ", most" if key.endswith("_max_N") else ""
        yield Reading(f"{part}{most}", forces[key], "force")
    yield Reading("thrust of the head bar", forces["head_bar_thrust_N"], "force")
    yield Reading("thrust of the foot bar", forces["foot_bar_thrust_N"], "force")
    for end in ("head", "foot"):
        along, across, up = summary["anchors"][f"{end}_tree_N"]
        yield Reading(f"{end} tree, pulled sideways", hypot(along, across), "force")
        yield Reading(f"{end} tree, pulled down", abs(up), "force")
        moment = summary["trees"][end]["moment_at_ground_N_m"]
        yield Reading(f"{end} tree, moment at ground", moment, "moment")


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
    if weights["carried_anyway_kg"]:
        yield Reading("of it carried anyway", weights["carried_anyway_kg"], "mass")


def list_channel(summary: Mapping[str, Any], units: Units) -> Iterator[Reading]:
    """Yield what cloth and side cord do to each other, the worse of both sides, and the sewn fold.

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
    channel = summary["channel"]
    gauge = write_sentence(say("mean over {gauge:length.2}", gauge=channel["gauge_m"]), units)
    for key, title, dimension, averaged in CHANNEL:
        remark = gauge if averaged else ""
        yield Reading(title, max(channel[side][key] for side in ("left", "right")), dimension, remark)
    for end in ("head", "foot"):
        jump = max(channel["corners"][f"{end}_{side}"]["jump_N"] for side in ("left", "right"))
        yield Reading(f"jump of the cord, {end}", jump, "force", "to be held at the corner")
    if (fold := channel["fold"]) is not None:
        layers = f"cord pulls {fold['layers_pulled']}, sewn {fold['layers_sewn']} layers"
        yield Reading("finished width", fold["finished_width_m"], "length", layers)
        per_inch = fold["stitches_per_inch"]
        stitches = (
            f"{per_inch / 2.54:.1f} stitches per cm" if units == "metric" else f"{per_inch:.1f} stitches per inch"
        )
        yield Reading("room for stitches", fold["stitching_width_m"], "length", stitches)


def list_stretch(summary: Mapping[str, Any], units: Units) -> Iterator[Reading]:
    """Yield how much longer every cord and line is under load than it was cut.

    Parameters
    ----------
    summary : mapping
        ``result.summary``.
    units : {"metric", "imperial", "both"}
        Of quantities inside a remark.

    Yields
    ------
    Reading
        m.
    """
    for name, found in summary["stretch"].items():
        remark = ""
        if found["first_least_m"] is not None:
            settles = say(
                "new: {least:length.2} to {most:length.2} more",
                least=found["first_least_m"],
                most=found["first_most_m"],
            )
            remark = write_sentence(settles, "imperial" if units == "imperial" else "metric")
        yield Reading(name, found["elastic_m"], "length", remark)


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
        yield Reading(measure.title, 0.0 if abs(value) < _NOTHING else value, measure.dimension, remark)


def _build_spots(spots: list[dict[str, Any]], units: Units) -> Table:
    """Return where the cloth is pulled hardest."""
    system: System = "imperial" if units == "imperial" else "metric"
    title = f"\nWhere the cloth is pulled hardest, over a width of {show_quantity(GAUGE, 'length', units)}"
    table = Table(title=title, title_justify="left", title_style="bold", box=None, pad_edge=False)
    table.add_column("", no_wrap=True)
    table.add_column("place")
    for heading in ("pull", "of strength", "thread", "off warp"):
        table.add_column(heading, justify="right", no_wrap=True)
    for number, spot in enumerate(spots, 1):
        pull = format_quantity(spot["line_stress_N_per_m"], "line_load", system)
        angle = format_quantity(spot["off_warp_rad"], "angle", digits=2)
        cells = (write_sentence(spot["place"], system), pull, f"{spot['share_of_strength']:.1%}", spot["thread"], angle)
        table.add_row(str(number), *map(Text, cells))
    return table


def _describe_bars(summary: Mapping[str, Any], units: Units) -> Iterator[str]:
    """Yield the way of the thrust through each bar of several parts."""
    for name, bar in summary["bars"].items():
        if bar["parts"] > 1:
            yield f"Thrust of the {name.replace('_', ' ')}: {write_sentence(bar['path'], units)}"


def _describe_solution(summary: Mapping[str, Any]) -> str:
    """Return how the equilibrium was found."""
    found = summary["solution"]
    return (
        f"{found['reason']}, residual {found['residual']:.1e}, {found['triangles']} triangles, "
        f"{found['iterations']} steps, {found['seconds_s']:.1f} s"
    )


def _describe_cloth(summary: Mapping[str, Any]) -> str:
    """Return how much of the cloth is taut, wrinkled and slack, and what its peak is worth."""
    shares = ", ".join(f"{summary['fabric'][key]:.0%} {word}" for key, word in STATES)
    return (
        f"\nCloth by area: {shares}. The highest line stress of a single triangle grows with a finer mesh at the "
        "corners and at the end of a lock. If it keeps growing from mesh to mesh it is no stress of the cloth: "
        "do not use it."
    )
