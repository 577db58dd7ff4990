"""Designs that cannot be built or hung, and ones that deserve a second look."""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from math import degrees, isfinite
from typing import TYPE_CHECKING

import numpy as np

from .cross_section import find_sag
from .flaw import Flaw
from .hammock import Attachment, Body, Hammock, Person
from .hang import STEEPEST, HangError, hang_hammock, reach_of_legs
from .outline import Outline, draw_outline
from .person_load import find_narrowing

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

_LONGEST_CORD = 1.25  # times the cut edge; beyond, the cord hangs free of any load the cloth could give it
_NARROW_WAIST = 0.45  # m: under the mean hip breadth plus a hand on each side
_SOFT_SHEAR = 100.0  # N/m: of 200 random designs 42 gathered up on sliding cords, 37 of them with softer cloth
LEFT_AND_RIGHT = ("body.left_arc.depth", "body.right_arc.depth")
HANG = ("suspension.hang_angle", "suspension.tree_distance", "suspension.line_length")
_FLAT, _STEEP = 0.30, 1.05  # rad: about 17 and 60 degrees


class HammockError(ValueError):
    """An inconsistent design; ``faults`` has one record for each fault."""

    def __init__(self, faults: list[Flaw]) -> None:
        super().__init__("\n".join(map(str, faults)))
        self.faults = faults


def find_faults(hammock: Hammock, person: Person | None = None) -> list[Flaw]:
    """Return one sentence, with the fields in question, for everything that keeps a design from being built or hung.

    Parameters
    ----------
    hammock : Hammock
        The design.
    person : Person or None
        Who lies in it.

    Returns
    -------
    list of Flaw
        All faults at once, with the numbers and what to change; empty for a consistent design. Where
        numbers themselves are impossible only those are listed.

    Examples
    --------
    >>> from dataclasses import replace
    >>> from tautlay.meshing import example_hammock
    >>> hammock = example_hammock()
    >>> long_bar = replace(hammock, head_bar=replace(hammock.head_bar, length=1.5))
    >>> print(find_faults(long_bar)[0])
    The head bar is 1.500 m long but the body is only 1.160 m wide there; shorten the bar or widen the body.
    """
    numbers = [*_check_numbers(hammock, "hammock"), *(_check_numbers(person, "person") if person else ())]
    if numbers:
        return numbers
    try:
        outline = draw_outline(hammock.body)
    except ValueError as error:
        return [Flaw(str(error), LEFT_AND_RIGHT)]
    sewn = [*_check_body(outline), *_check_bars(hammock), *_check_channel(hammock, outline)]
    hung = list(_check_suspension(hammock))
    if not hung and not sewn:
        hung = list(_check_hang(hammock))
    return [*sewn, *hung, *(_check_person(person, hammock.body) if person else ())]


def find_cautions(hammock: Hammock, person: Person | None = None) -> list[str]:
    """Return one sentence for everything unusual in a design that has no faults.

    Raises
    ------
    HammockError
        For a design with faults: nothing sensible can be said about it.

    Examples
    --------
    >>> from tautlay.meshing import example_hammock, example_person
    >>> find_cautions(example_hammock(), example_person())
    []
    """
    faults = find_faults(hammock, person)
    if faults:
        raise HammockError(faults)
    outline = draw_outline(hammock.body)
    return [
        *_question_body(hammock, outline),
        *_question_channel(hammock, outline),
        *_question_hang(hammock),
        *(_question_person(person, outline) if person else ()),
    ]


def _check_numbers(record: "DataclassInstance", path: str) -> Iterator[Flaw]:
    """Yield a sentence for every number that no hammock can have."""
    may_be_zero = {"depth", "lock_length", "set_in", "grain", "head_from_bar"}
    for item in fields(record):
        value, name = getattr(record, item.name), f"{path}.{item.name}"
        if is_dataclass(value) and not isinstance(value, type):
            if not hasattr(value, "provenance"):  # materials have checked themselves
                yield from _check_numbers(value, name)
        elif isinstance(value, int | float):
            if not isfinite(value) or (value < 0 and item.name != "grain"):
                yield Flaw(
                    f"{name} is {value:g}; it must be a finite number, not negative.", (name.removeprefix("hammock."),)
                )
            elif value == 0 and item.name not in may_be_zero:
                yield Flaw(f"{name} is zero; it must be greater than zero.", (name.removeprefix("hammock."),))


def _check_body(outline: Outline) -> Iterator[Flaw]:
    """Yield faults of the cloth."""
    where, waist = outline.waist
    if waist <= 0:
        yield Flaw(
            f"The two side arcs meet: at {where:.2f} m from the head bar the body is {waist:.3f} m wide; "
            "make the arcs shallower or the body wider.",
            (*LEFT_AND_RIGHT, "body.head_width", "body.foot_width"),
        )


def _check_bars(hammock: Hammock) -> Iterator[Flaw]:
    """Yield faults of bars and legs."""
    for name, bar, width, leg in hammock.ends:
        if bar.length >= width:
            yield Flaw(
                f"The {name} bar is {bar.length:.3f} m long but the body is only {width:.3f} m wide there; "
                "shorten the bar or widen the body.",
                (f"{name}_bar.length", f"body.{name}_width"),
            )
        reach = reach_of_legs(leg, bar.length)
        if reach == 0:
            yield Flaw(
                f"The {name} legs of {leg:.3f} m cannot meet in front of a bar of {bar.length:.3f} m; "
                f"make each leg longer than half the bar, {bar.length / 2:.3f} m.",
                (f"suspension.{name}_leg_length", f"{name}_bar.length"),
            )
        elif bar.set_in >= reach:
            yield Flaw(
                f"The {name} bar is set in {bar.set_in:.3f} m but its legs reach only {reach:.3f} m beyond it; "
                "set the bar in less or lengthen the legs.",
                (f"{name}_bar.set_in", f"suspension.{name}_leg_length"),
            )


def _check_channel(hammock: Hammock, outline: Outline) -> Iterator[Flaw]:
    """Yield faults of side cords and locks."""
    channel = hammock.channel
    for name, edge in (("left", outline.left), ("right", outline.right)):
        cord = channel.cord_length
        if cord is not None and cord < edge.chord:
            yield Flaw(
                f"The side cord of {cord:.3f} m is shorter than the {edge.chord:.3f} m straight from corner to "
                f"corner of the {name} side; it must be longer, about the {edge.length:.3f} m of the cut edge.",
                ("channel.cord_length",),
            )
        if cord is not None and cord > _LONGEST_CORD * edge.length:
            yield Flaw(
                f"The side cord of {cord:.3f} m is more than {_LONGEST_CORD:g} times the {name} edge of "
                f"{edge.length:.3f} m and would carry nothing; shorten it.",
                ("channel.cord_length",),
            )
        if channel.attachment is Attachment.LOCKED and not 0 < channel.lock_length < edge.length / 2:
            yield Flaw(
                f"The lock length is {channel.lock_length:.3f} m; it must be above zero and under half the {name} "
                f"edge, {edge.length / 2:.3f} m.",
                ("channel.lock_length",),
            )


def _check_suspension(hammock: Hammock) -> Iterator[Flaw]:
    """Yield faults in what settles the hang."""
    s = hammock.suspension
    if (s.hang_angle is None) == (s.tree_distance is None):
        yield Flaw("Give either the hang angle or the tree distance, and not both.", HANG[:2])
    if s.hang_angle is not None and not 0 < s.hang_angle <= STEEPEST:
        yield Flaw(
            f"The hang angle is {degrees(s.hang_angle):.1f} degrees; it must lie above 0 and up to "
            f"{degrees(STEEPEST):.0f} degrees.",
            ("suspension.hang_angle",),
        )


def _check_hang(hammock: Hammock) -> Iterator[Flaw]:
    """Yield faults of trees and ropes."""
    try:
        hang = hang_hammock(hammock)
    except HangError as error:
        yield Flaw(str(error), error.keys)
        return
    mean = (hang.head_angle + hang.foot_angle) / 2
    if mean > STEEPEST:
        yield Flaw(
            f"With the trees {hang.tree_distance:.2f} m apart the lines would stand at {degrees(mean):.0f} degrees, "
            f"more than {degrees(STEEPEST):.0f}; shorten the lines or choose trees farther apart.",
            HANG,
        )
    lines = hammock.suspension.line_length
    apex = [hang.trace_rope(head=head, distance=lines)[0] for head in (True, False)]
    bars = [float(hang.trace_body(np.array(place))[0]) for place in (0.0, hang.length)]
    if not apex[0] < bars[0] < bars[1] < apex[1]:
        yield Flaw(
            f"The apexes, {apex[0]:.2f} m and {apex[1]:.2f} m from the middle, must lie outside the bars at "
            f"{bars[0]:.2f} m and {bars[1]:.2f} m; choose trees farther apart.",
            HANG,
        )


def _check_person(person: Person, body: Body) -> Iterator[Flaw]:
    """Yield faults of who lies in it."""
    need = person.head_from_bar + person.stature
    if need > body.length:
        yield Flaw(
            f"A person of {person.stature:.2f} m lying {person.head_from_bar:.2f} m from the head bar needs "
            f"{need:.2f} m but the body is {body.length:.2f} m long; lengthen the body "
            "or move the head closer to the bar.",
            ("person.stature", "person.head_from_bar", "body.length"),
        )


def _question_body(hammock: Hammock, outline: Outline) -> Iterator[str]:
    """Yield what is unusual about the cloth and its bars."""
    for name, bar, width, _ in hammock.ends:
        if bar.length < 0.5 * width:
            sag = float(find_sag(np.array(width), np.array(bar.length)))
            yield (
                f"The {name} bar of {bar.length:.2f} m spans less than half the cloth of {width:.2f} m: in an arc the "
                f"cloth would hang {sag:.2f} m below it."
            )
        if bar.length > 0.97 * width:
            yield f"The {name} bar takes up nearly the whole width of the cloth, which then carries like a drum."
    where, waist = outline.waist
    if waist < _NARROW_WAIST:
        yield f"The body is only {waist:.2f} m wide at {where:.2f} m from the head bar."


def _question_channel(hammock: Hammock, outline: Outline) -> Iterator[str]:
    """Yield what is unusual about the side cords."""
    cord = hammock.channel.cord_length
    for name, edge in (("left", outline.left), ("right", outline.right)):
        if cord is not None and abs(cord / edge.length - 1) > 0.03:
            effect = "gathers the cloth" if cord < edge.length else "leaves the load to the cloth's edge"
            yield f"The side cord of {cord:.3f} m on the {name} edge of {edge.length:.3f} m {effect}."

    shear = hammock.body.fabric.shear * hammock.body.layers
    if hammock.channel.attachment is not Attachment.SEWN and shear < _SOFT_SHEAR:
        yield (
            f"The cord slides in its channel and the cloth has a shear stiffness of only {shear:.0f} N/m: without "
            "friction, which is left out, the cloth gathers at the deepest point of the cord until it is packed; "
            "sew the cord in along the channel to see the other bound."
        )


def _question_hang(hammock: Hammock) -> Iterator[str]:
    """Yield what is unusual about the hang."""
    hang = hang_hammock(hammock)
    for name, angle in (("head", hang.head_angle), ("foot", hang.foot_angle)):
        if angle < _FLAT:
            yield (
                f"The {name} line leaves its tree at about {degrees(angle):.0f} degrees: a flat hang raises every "
                f"force, about as 1/(2 sin a) = {1 / (2 * np.sin(max(angle, 1e-3))):.1f} times the weight a line."
            )
        if angle > _STEEP:
            yield f"The {name} line leaves its tree at about {degrees(angle):.0f} degrees, steeper than is usual."
    body = hammock.body
    sag = float(find_sag(np.array(body.head_width), np.array(min(hammock.head_bar.length, body.head_width))))
    if hang.lowest - sag < 0:
        yield (
            f"Hung this low the cloth would reach the ground: the side cords come down to {hang.lowest:.2f} m and "
            f"the cloth hangs up to {sag:.2f} m below them; raise the straps."
        )


def _question_person(person: Person, outline: Outline) -> Iterator[str]:
    """Yield what is unusual about who lies in it."""
    narrowest, where = find_narrowing(person, outline)
    if narrowest < 1:
        yield (
            f"The cloth is narrower than the person with arms at the sides: at {where:.2f} m from the head bar it has "
            f"room for {narrowest:.0%} of the breadth, and the load is drawn in to that."
        )
