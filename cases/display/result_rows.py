"""The lines of a result's tables: what each is, its SI value, its dimension."""

from collections.abc import Iterator, Mapping
from math import hypot
from typing import Any, NamedTuple

from ...materials import make_sentence
from ..judging.checks.tension_checks import PARTS
from ..judging.clearance import Clearance
from ..judging.comfort.measures import MEASURES
from ..unit_display import Units, find_main_system, round_shares, write_sentence

_NOTHING = 1e-4  # of a radian or of the weight: the mesh does not know better


class Reading(NamedTuple):
    """One line of a table: what it is, its SI value, its dimension, a remark."""

    title: str
    value: float
    dimension: str
    remark: str = ""


_STATES = (("taut_fraction", "taut"), ("wrinkled_fraction", "wrinkled"), ("slack_fraction", "slack"))
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


def list_shape(summary: Mapping[str, Any]) -> Iterator[Reading]:
    """Yield lengths, angles and weights.

    Parameters
    ----------
    summary : mapping
        ``result.summary``.

    Yields
    ------
    Reading
        SI.
    """
    for key, title, dimension in SHAPE:
        height = Clearance(summary["shape"][key]) if key == "ground_clearance_m" else None
        yield Reading(title, summary["shape"][key], dimension, height.verdict if height else "")
    weights = summary["weights"]
    yield Reading("person", weights["person_kg"], "mass")
    yield Reading("hammock as modelled", weights["hammock_kg"], "mass")


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
    gauge = write_sentence(make_sentence("mean over {gauge:length.2}", gauge=channel["gauge_m"]), units)
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
            settles = make_sentence(
                "new: {least:length.2} to {most:length.2} more",
                least=found["first_least_m"],
                most=found["first_most_m"],
            )
            remark = write_sentence(settles, find_main_system(units))
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
        if measure.key == "hold_N":
            value, remark = abs(value), f"{abs(found['slide']):.1%} of weight, toward the {_name_end(value)}"
        yield Reading(measure.title, 0.0 if abs(value) < _NOTHING else value, measure.dimension, remark)


def _name_end(hold: float) -> str:
    """Return where a force along the hammock, positive towards the feet, points."""
    return "feet" if hold > 0 else "head"


def write_shares(summary: Mapping[str, Any]) -> str:
    """Return in words how much of the cloth is taut, wrinkled and slack.

    Parameters
    ----------
    summary : mapping
        ``result.summary``.
    """
    parts = round_shares([summary["fabric"][key] for key, _ in _STATES])
    return ", ".join(f"{part}% {word}" for part, (_, word) in zip(parts, _STATES, strict=True))
