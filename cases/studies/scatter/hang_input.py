"""What cutting, sewing, hanging and lying in it leave uncertain: lengths, widths, heights, angle, mass."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import cos
from typing import Any

from ....hammock.hammock import Body
from ...design import Design
from ...judging.sensitivity.range_input import Input
from ...result import Result
from .distribution import ANGLE, CORD, CUT, STRAP, WEIGHT, Distribution

PutValue = Callable[[Design, float], Design]


@dataclass(frozen=True, repr=False)
class HangInput(Input):
    """An input that is no number of a material.

    Parameters
    ----------
    distribution : Distribution
        How it scatters.
    put : callable
        From a design and a value to the design with that value.
    """

    distribution: Distribution
    put: PutValue


def list_hang_inputs(result: Result) -> tuple[HangInput, ...]:
    """Return them for a result whose design hangs between fixed trees.

    Parameters
    ----------
    result : Result
        Of any load case.

    Returns
    -------
    tuple of HangInput
        A straight side has no depth of its arc to vary. Both sides are cut alike.
    """
    return (
        *list_sizes(result.design),
        *list_suspension(result.design),
        _find_angle(result),
        _find_mass(result.design),
    )


def make_hang_input(
    title: str, value: float, spread: tuple[float, str], put: PutValue, dimension: str = "length"
) -> HangInput:
    """Return an input that scatters normally round its value."""
    ends = (value - spread[0], value + spread[0])
    return HangInput(title, value, ends, dimension, "", Distribution("normal", *ends, spread[1]), put)


def list_sizes(design: Design) -> Iterator[HangInput]:
    """Yield what is cut and sewn."""
    body = design.hammock.body

    def cut(varied: Design, depth: float) -> Design:
        more, now = depth - body.left_arc.depth, varied.hammock.body
        left = replace(body.left_arc, depth=body.left_arc.depth + more)
        right = replace(body.right_arc, depth=body.right_arc.depth + more)
        return _put_body(varied, replace(now, left_arc=left, right_arc=right))

    titles = {"length": "length of the body", "head_width": "width at the head", "foot_width": "width at the foot"}
    for field, title in titles.items():
        yield make_hang_input(title, float(getattr(body, field)), CUT, _cut_body(field))
    if min(body.left_arc.depth, body.right_arc.depth) > 2 * CUT[0]:
        yield make_hang_input("depth of the arcs", body.left_arc.depth, CUT, cut)


def _cut_body(field: str) -> PutValue:
    """Return what puts another value into one size of the body."""

    def put(varied: Design, value: float) -> Design:
        size: Any = {field: value}
        return _put_body(varied, replace(varied.hammock.body, **size))

    return put


def _put_body(design: Design, body: Body) -> Design:
    """Return the design with another body."""
    return replace(design, hammock=replace(design.hammock, body=body))


def list_suspension(design: Design) -> Iterator[HangInput]:
    """Yield what is tied and hung at each end."""
    spreads = {"leg_length": CORD, "line_length": CORD, "strap_height": STRAP}
    for end in ("head", "foot"):
        for field, spread in spreads.items():
            value = float(getattr(design.hammock.suspension.pick(end), field))
            yield make_hang_input(f"{end} {field.replace('_', ' ')}", value, spread, _hang_end(end, field))


def _hang_end(end: str, field: str) -> PutValue:
    """Return what puts another value into one end of the suspension."""

    def put(varied: Design, value: float) -> Design:
        head, foot = ({field: value} if each == end else {} for each in ("head", "foot"))
        return varied.hang(varied.hammock.suspension.change(head, foot))

    return put


def _find_angle(result: Result) -> HangInput:
    """Return the hang angle: straight lines of the same length at another angle put the trees closer or farther."""
    shape, suspension = result.shape, result.design.hammock.suspension
    angle = (shape.head_line_angle + shape.foot_line_angle) / 2
    reach = suspension.head.line_length + suspension.foot.line_length
    distance = result.model.tree_distance

    def put(varied: Design, value: float) -> Design:
        return varied.hang_between(distance + reach * (cos(value) - cos(angle)))

    return make_hang_input("hang angle", angle, ANGLE, put, "angle")


def _find_mass(design: Design) -> HangInput:
    """Return the mass of the person."""

    def put(varied: Design, value: float) -> Design:
        return replace(varied, person=replace(varied.person, mass=value))

    return make_hang_input("mass of the person", design.person.mass, WEIGHT, put, "mass")
