"""The lines of a result's tables: what each is, its SI value, its dimension."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from math import hypot
from typing import NamedTuple

from ...hammock.part import title_part
from ...materials import make_sentence
from ..judging.checks.tension_checks import PARTS
from ..judging.clearance import Clearance
from ..judging.cloth.channel_summary import ChannelRecord, ChannelSide
from ..judging.cloth.cloth_summary import FabricRecord
from ..judging.comfort.comfort import Comfort
from ..judging.comfort.lay_notes import name_slide
from ..judging.comfort.measure_list import MEASURES, find_measure
from ..judging.forces import Anchors, Forces
from ..judging.loaded_shape import LoadedShape
from ..judging.stretch import CordStretch
from ..judging.trees import TreeLoad, TreeLoads
from ..judging.weighing import Weights
from ..unit_display import Units, round_shares, write_sentence
from .reading import Reading

_NOTHING = 1e-4  # of a radian or of the weight: the mesh does not know better


class ChannelRow(NamedTuple):
    """A number of a channel: how it is read, what it is, its dimension, whether it is a mean over the gauge length."""

    read: Callable[[ChannelSide], float]
    title: str
    dimension: str
    averaged: bool


CHANNEL = (
    ChannelRow(lambda side: side.pull_across_most, "load across channel, max", "line_load", True),
    ChannelRow(lambda side: side.pull_across_mean, "load across channel, mean", "line_load", False),
    ChannelRow(lambda side: side.pull_along_most, "load along channel, max", "line_load", True),
    ChannelRow(lambda side: side.cord_pressure_most, "cord bearing pressure, max", "stress", True),
)


def list_forces(forces: Forces, anchors: Anchors, trees: TreeLoads) -> Iterator[Reading]:
    """Yield the force in every cord, line, bar and tree.

    Parameters
    ----------
    forces, anchors, trees : Forces, Anchors, TreeLoads
        Of one result.

    Yields
    ------
    Reading
        N.
    """
    for part, material, _, read in PARTS:
        most = ", max" if material == "side cord" else ""
        yield Reading(f"{part}{most}", read(forces), "force")
    yield Reading("head bar thrust", forces.head_bar_thrust, "force")
    yield Reading("foot bar thrust", forces.foot_bar_thrust, "force")
    for end in ("head", "foot"):
        along, across, up = anchors.pick_tree(end)
        yield Reading(f"{end} tree, horizontal", hypot(along, across), "force")
        yield Reading(f"{end} tree, vertical", abs(up), "force")
        yield Reading(f"{end} tree, overturning moment", trees.pick_tree(end).moment_at_ground, "moment")
        yield from _list_bark(end, trees.pick_tree(end))


def _list_bark(end: str, tree: TreeLoad) -> Iterator[Reading]:
    """Yield what strap and slings do to the bark, and how the slings are set."""
    if tree.bark_pressure is not None:
        yield Reading(f"{end} tree, pressure on the bark", tree.bark_pressure, "stress")
    if tree.slings is not None:
        yield Reading(f"{end} slings, tension of each", tree.slings.tension, "force")
        yield Reading(f"{end} slings, angle between both", tree.slings.angle, "angle")
        yield Reading(f"{end} slings, length of each", tree.slings.length, "length")
        if tree.slings.bark_pressure is not None:
            yield Reading(f"{end} slings, pressure on the bark", tree.slings.bark_pressure, "stress")


def find_ends(forces: Forces, anchors: Anchors) -> Iterator[tuple[str, float, float, str]]:
    """Yield what stands at both ends: what it is, its SI value at the head and at the foot, its dimension.

    Of left and right the larger is taken.

    Parameters
    ----------
    forces, anchors : Forces, Anchors
        Of one result.
    """

    def pair(read: Callable[[str], float]) -> tuple[float, float]:
        return read("head"), read("foot")

    yield (
        "leg, corner to apex",
        *pair(lambda end: max(forces.pick_leg(end, side) for side in ("left", "right"))),
        "force",
    )
    yield "line, apex to tree", *pair(forces.pick_line), "force"
    yield "bar thrust (compression)", *pair(forces.pick_thrust), "force"
    yield "tree, horizontal", *pair(lambda end: hypot(*anchors.pick_tree(end)[:2])), "force"


def list_shape(shape: LoadedShape, weights: Weights) -> Iterator[Reading]:
    """Yield lengths, angles and weights.

    Parameters
    ----------
    shape, weights : LoadedShape, Weights
        Of one result.

    Yields
    ------
    Reading
        SI.
    """
    height = shape.ground_clearance
    yield Reading("sag below the bars", shape.sag, "length")
    yield Reading("lowest point above ground", height, "length", Clearance(height).verdict)
    yield Reading("head line angle", shape.head_line_angle, "angle")
    yield Reading("foot line angle", shape.foot_line_angle, "angle")
    yield Reading("hang angle, mean of both", shape.hang_angle, "angle")
    yield Reading("tree spacing", shape.tree_distance, "length")
    yield Reading("person", weights.person, "mass")
    yield Reading("all parts as computed", weights.hammock, "mass")


def list_part_masses(weights: Weights) -> Iterator[Reading]:
    """Yield the mass of each part that the structure carries.

    Parameters
    ----------
    weights : Weights
        Of one result.

    Yields
    ------
    Reading
        kg.
    """
    for part, mass in weights.parts.items():
        yield Reading(title_part(part), mass, "mass")


def list_channel(channel: ChannelRecord, units: Units) -> Iterator[Reading]:
    """Yield what cloth and side cord do to each other, the worse of both sides, and the sewn fold.

    Parameters
    ----------
    channel : ChannelRecord
        Of one result.
    units : {"metric", "imperial", "both"}
        Of quantities inside a remark.

    Yields
    ------
    Reading
        SI.
    """
    gauge = write_sentence(make_sentence("mean over {gauge:length.2}", gauge=channel.gauge), units)
    for row in CHANNEL:
        remark = gauge if row.averaged else ""
        yield Reading(row.title, max(row.read(side) for side in (channel.left, channel.right)), row.dimension, remark)
    for end in ("head", "foot"):
        jump = max(corner.jump for corner in channel.corners.pick_end(end))
        yield Reading(f"force to anchor, {end} cord", jump, "force")
    if (fold := channel.fold) is not None:
        layers = f"cord on {fold.layers_pulled}, stitches in {fold.layers_sewn} layers"
        yield Reading("finished width", fold.finished_width, "length", layers)
        per_inch = fold.stitches_per_inch
        stitches = (
            f"{per_inch / 2.54:.1f} stitches per cm" if units == "metric" else f"{per_inch:.1f} stitches per inch"
        )
        yield Reading("stitching width", fold.stitching_width, "length", stitches)


def list_stretch(stretch: Mapping[str, CordStretch], units: Units) -> Iterator[Reading]:
    """Yield how much longer every cord and line is under load than it was cut.

    Parameters
    ----------
    stretch : mapping of str to CordStretch
        Of one result.
    units : {"metric", "imperial", "both"}
        Of quantities inside a remark.

    Yields
    ------
    Reading
        m.
    """
    for name, found in stretch.items():
        remark = ""
        if found.bedding_in is not None:
            least, most = found.bedding_in
            settles = make_sentence(
                "bedding-in of new cord {least:length.2} to {most:length.2}", least=least, most=most
            )
            remark = write_sentence(settles, "imperial" if units == "imperial" else "metric")
        yield Reading(title_part(name), found.elastic, "length", remark)


def title_lay(comfort: Comfort) -> str:
    """Return the heading of the measures of the lay: whether they stand as spans."""
    told = any(measure.find_drift(comfort) for measure in MEASURES)
    return "Lay and comfort, as near as can be computed" if told else "Lay and comfort"


def list_comfort(comfort: Comfort, keys: Sequence[str] = ()) -> Iterator[Reading]:
    """Yield the measures of the lay.

    Parameters
    ----------
    comfort : Comfort
        Of a person in contact.
    keys : sequence of str
        Of the measures wanted, in their order; default: all.

    Yields
    ------
    Reading
        SI.
    """
    for measure in [find_measure(key) for key in keys] or MEASURES:
        value, remark = measure.read(comfort), measure.describe_aim(comfort)
        if measure.key == "high_pressure_Pa":
            remark = f"{comfort.high_pressure_part}; {remark}"
        if measure.key == "hold_N":
            value, remark = abs(value), f"{abs(comfort.slide):.1%} of weight, else slides to the {name_slide(value)}"
        value = 0.0 if abs(value) < _NOTHING else value
        yield Reading(measure.title, value, measure.dimension, remark, measure.find_drift(comfort))


def write_shares(fabric: FabricRecord) -> str:
    """Return in words how much of the cloth is taut, wrinkled and slack.

    Parameters
    ----------
    fabric : FabricRecord
        Of one result.
    """
    taut, wrinkled, slack = round_shares([fabric.taut_fraction, fabric.wrinkled_fraction, fabric.slack_fraction])
    return f"{taut}% taut, {wrinkled}% wrinkled, {slack}% slack"
