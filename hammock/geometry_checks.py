"""Designs that cannot be built or hung."""

from collections.abc import Iterator
from math import degrees

import numpy as np

from ..making import find_bar_issues
from ..materials import make_sentence
from .extension_checks import check_extensions
from .foot_room import find_foot_room
from .geometry_issue import GeometryIssue
from .hammock import Attachment, Hammock
from .hang_error import LINES, HangError
from .magnitudes import check_magnitudes
from .narrowing import find_narrowing
from .outline import Outline, draw_outline
from .person import Person
from .side_view import STEEPEST, hang_hammock, reach_of_legs
from .strap_fit import check_straps
from .waist import ARCS, check_waist

_NARROWEST = 1 / 3  # of the breadth of the person that has cloth under it on either side; judgement
_LONGEST_CORD = 1.25  # times the cut edge; beyond, the cord gets no load from the cloth
HANG = ("suspension.hang_angle", "suspension.tree_distance", *LINES)


class HammockError(ValueError):
    """An inconsistent design; ``faults`` has one record for each issue."""

    def __init__(self, faults: list[GeometryIssue]) -> None:
        super().__init__("\n".join(map(str, faults)))
        self.faults = faults


def find_geometry_issues(hammock: Hammock, person: Person | None = None) -> list[GeometryIssue]:
    """Return one issue for everything that keeps a design from being built or hung.

    Parameters
    ----------
    hammock : Hammock
        The design.
    person : Person or None
        Who lies in it.

    Returns
    -------
    list of GeometryIssue
        All issues at once, with the numbers and what to change; empty for a consistent design. Where
        numbers themselves are impossible only those are listed.

    Examples
    --------
    >>> from dataclasses import replace
    >>> from tautlay.hammock import example_hammock
    >>> hammock = example_hammock()
    >>> long_bar = replace(hammock, head_bar=replace(hammock.head_bar, length=1.5))
    >>> print(find_geometry_issues(long_bar)[0])
    The head bar is 150.0 cm long but the body is only 116.0 cm wide there. Shorten the bar or widen the body.
    """
    numbers = [*check_magnitudes(hammock, "hammock"), *(check_magnitudes(person, "person") if person else ())]
    if numbers:
        return numbers
    try:
        outline = draw_outline(hammock.body)
    except ValueError as error:
        return [GeometryIssue(error.args[0], ARCS)]
    sewn = [*check_waist(hammock.body, outline), *_check_bars(hammock), *_check_parts(hammock)]
    sewn += _check_channel(hammock, outline)
    if not sewn:
        sewn = list(check_extensions(hammock))
    hung = [*_check_suspension(hammock), *check_straps(hammock)]
    if not hung and not sewn:
        hung = list(_check_hang(hammock))
    return [*sewn, *hung, *(_check_person(person, hammock, outline) if person else ())]


def _check_bars(hammock: Hammock) -> Iterator[GeometryIssue]:
    """Yield issues of bars and legs."""
    for name, bar, width, hung in hammock.ends:
        if bar.length >= width:
            sentence = make_sentence(
                "The {name} bar is {bar:length.4} long but the body is only {width:length.4} wide there. "
                "Shorten the bar or widen the body.",
                name=name,
                bar=bar.length,
                width=width,
            )
            yield GeometryIssue(sentence, (f"{name}_bar.length", f"body.{name}_width"))
        leg = hung.leg_length
        reach = reach_of_legs(leg, bar.length)
        if reach == 0:
            sentence = make_sentence(
                "The {name} legs of {leg:length.4} cannot meet beyond a bar of {bar:length.4}. "
                "Make each leg longer than half the bar, {half:length.4}.",
                name=name,
                leg=leg,
                bar=bar.length,
                half=bar.length / 2,
            )
            yield GeometryIssue(sentence, (f"suspension.{name}.leg_length", f"{name}_bar.length"))
        elif bar.set_in >= reach:
            sentence = make_sentence(
                "The {name} bar is set in {set_in:length.4} but its legs reach only {reach:length.4} beyond it. "
                "Reduce set_in or lengthen the legs.",
                name=name,
                set_in=bar.set_in,
                reach=reach,
            )
            yield GeometryIssue(sentence, (f"{name}_bar.set_in", f"suspension.{name}.leg_length"))


def _check_parts(hammock: Hammock) -> Iterator[GeometryIssue]:
    """Yield bars that cannot be assembled."""
    for name, bar, _, _ in hammock.ends:
        if isinstance(bar.section, tuple):
            for fault in find_bar_issues(bar.build, bar.length):
                inner = fault.key if fault.part is None else f"part.{fault.part}.{fault.key}"
                yield GeometryIssue(
                    make_sentence("The {name} bar: {what}", name=name, what=fault.sentence), (f"{name}_bar.{inner}",)
                )


def _check_channel(hammock: Hammock, outline: Outline) -> Iterator[GeometryIssue]:
    """Yield issues of side cords and anchored lengths."""
    channel = hammock.channel
    for name, edge in (("left", outline.left), ("right", outline.right)):
        cord = channel.cord_length
        if cord is not None and cord < edge.chord:
            sentence = make_sentence(
                "The side cord of {cord:length.4} is shorter than the straight {name} side, {edge.chord:length.4}. "
                "Make it about as long as the finished edge, {edge.length:length.4}.",
                name=name,
                cord=cord,
                edge=edge,
            )
            yield GeometryIssue(sentence, ("channel.cord_length",))
        if cord is not None and cord > _LONGEST_CORD * edge.length:
            sentence = make_sentence(
                "The side cord of {cord:length.4} is more than {most:g} times the {name} edge of "
                "{edge.length:length.4} and would stay slack. Shorten it.",
                name=name,
                cord=cord,
                edge=edge,
                most=_LONGEST_CORD,
            )
            yield GeometryIssue(sentence, ("channel.cord_length",))
        if channel.attachment is Attachment.LOCKED and not 0 < channel.lock_length < edge.length / 2:
            sentence = make_sentence(
                "The lock length of {lock:length.4} must be above zero and under half the {name} edge, "
                "{half:length.4}.",
                name=name,
                lock=channel.lock_length,
                half=edge.length / 2,
            )
            yield GeometryIssue(sentence, ("channel.lock_length",))


def _check_suspension(hammock: Hammock) -> Iterator[GeometryIssue]:
    """Yield issues of hang angle and tree distance."""
    s = hammock.suspension
    if (s.hang_angle is None) == (s.tree_distance is None):
        yield GeometryIssue("Give either hang_angle or tree_distance, not both.", HANG[:2])
    if s.hang_angle is not None and not 0 < s.hang_angle <= STEEPEST:
        yield GeometryIssue(
            f"The hang angle of {degrees(s.hang_angle):.1f} degrees must be above 0 and at most "
            f"{degrees(STEEPEST):.0f} degrees.",
            ("suspension.hang_angle",),
        )


def _check_hang(hammock: Hammock) -> Iterator[GeometryIssue]:
    """Yield issues of trees and lines."""
    try:
        hang = hang_hammock(hammock)
    except HangError as error:
        yield GeometryIssue(error.sentence, error.keys)
        return
    mean = (hang.head_angle + hang.foot_angle) / 2
    if mean > STEEPEST:
        sentence = make_sentence(
            "With the trees {distance:length} apart the line angle would be {angle:.0f} degrees, more than {most:.0f}. "
            "Shorten the lines or choose trees farther apart.",
            distance=hang.tree_distance,
            angle=degrees(mean),
            most=degrees(STEEPEST),
        )
        yield GeometryIssue(sentence, HANG)
    lines = (hammock.suspension.head.line_length, hammock.suspension.foot.line_length)
    apex = [hang.trace_rope(head=head, distance=line)[0] for head, line in zip((True, False), lines, strict=True)]
    bars = [float(hang.trace_body(np.array(place))[0]) for place in (0.0, hang.length)]
    if not apex[0] < bars[0] < bars[1] < apex[1]:
        sentence = make_sentence(
            "The apexes, {apex[0]:length} and {apex[1]:length} from the middle, must be outside the bars at "
            "{bars[0]:length} and {bars[1]:length}. Choose trees farther apart.",
            apex=apex,
            bars=bars,
        )
        yield GeometryIssue(sentence, HANG)


def _refuse_crown(head_from_bar: float, set_in: float) -> GeometryIssue:
    """Return the issue of a head that would lie beyond all cloth."""
    sentence = make_sentence(
        "The crown lies {past:length} beyond the head bar, but {cloth}. Increase head_from_bar, or set the bar in.",
        past=-head_from_bar,
        cloth=make_sentence("the cloth runs on only {set_in:length} there", set_in=set_in)
        if set_in
        else "there is no cloth beyond it",
    )
    return GeometryIssue(sentence, ("person.head_from_bar", "head_bar.set_in"))


def _refuse_soles(person: Person, hammock: Hammock) -> GeometryIssue:
    """Return the issue of feet that would lie beyond all cloth."""
    set_in = hammock.foot_bar.set_in
    sentence = make_sentence(
        "A person of {person.stature:length.4} lying {person.head_from_bar:length} from the head bar needs "
        "{need:length.4}, but the body is {body.length:length.4} long{more}. Lengthen the body or move the head closer "
        "to the bar.",
        person=person,
        need=person.head_from_bar + person.stature,
        body=hammock.body,
        more=make_sentence(" and the cloth runs on only {set_in:length} beyond the foot bar", set_in=set_in)
        if set_in
        else "",
    )
    keys = ("person.stature", "person.head_from_bar", "body.length", *(("foot_bar.set_in",) if set_in else ()))
    return GeometryIssue(sentence, keys)


def _check_person(person: Person, hammock: Hammock, outline: Outline) -> Iterator[GeometryIssue]:
    """Yield issues of the person."""
    bar = hammock.head_bar
    if -person.head_from_bar > bar.set_in:
        yield _refuse_crown(person.head_from_bar, bar.set_in)
        return
    if find_foot_room(hammock, person) < 0.0:
        yield _refuse_soles(person, hammock)
        return
    squeeze, where = find_narrowing(person, outline)
    if squeeze < _NARROWEST:
        place = np.array(where)
        room = {"left": float(outline.left.place(place)), "right": -float(outline.right.place(place))}
        side = min(room, key=room.__getitem__)
        reaches = "comes within {room:length} of" if room[side] > 0 else "crosses"
        sentence = make_sentence(
            f"The {{side}} edge {reaches} the middle line of the body, {{where:length}} from the head bar, where the "
            "person is {breadth:length} broad to that side. Cut that side less deep, or widen the body.",
            side=side,
            room=room[side],
            where=where,
            breadth=room[side] / squeeze,
        )
        yield GeometryIssue(sentence, ARCS)
