"""Designs that can be built and hung but deserve a second look."""

from collections.abc import Iterator
from math import degrees

import numpy as np

from ..materials import make_sentence
from .cross_section import find_sag
from .foot_room import find_foot_room
from .geometry_checks import HammockError, find_geometry_issues
from .hammock import Attachment, Hammock
from .narrowing import find_narrowing
from .outline import Outline, draw_outline
from .person import Person
from .side_view import hang_hammock

_TOE_ROOM = 0.10  # m beyond the soles: pointed toes reach so far, engineering judgement
_NARROW_WAIST = 0.45  # m: under the mean hip breadth plus a hand on each side
_SOFT_SHEAR = 100.0  # N/m: of 200 random designs 42 gathered up on sliding cords, 37 of them with softer cloth
_FLAT, _STEEP = 0.30, 1.05  # rad: about 17 and 60 degrees


def find_design_warnings(hammock: Hammock, person: Person | None = None) -> list[str]:
    """Return one sentence for everything unusual in a design without issues.

    Raises
    ------
    HammockError
        For a design with issues: nothing sensible can be said about it.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock, example_person
    >>> find_design_warnings(example_hammock(), example_person())
    []
    """
    faults = find_geometry_issues(hammock, person)
    if faults:
        raise HammockError(faults)
    outline = draw_outline(hammock.body)
    return [
        *_question_body(hammock, outline),
        *_question_channel(hammock, outline),
        *_question_hang(hammock),
        *(_question_person(person, hammock, outline) if person else ()),
    ]


def _question_body(hammock: Hammock, outline: Outline) -> Iterator[str]:
    """Yield what is unusual about the cloth and its bars."""
    for name, bar, width, _ in hammock.ends:
        if bar.length < 0.5 * width:
            sag = float(find_sag(np.array(width), np.array(bar.length)))
            yield make_sentence(
                "The {name} bar of {bar:length} spans less than half the cloth of {width:length}. In an arc the cloth "
                "would hang {sag:length} below it.",
                name=name,
                bar=bar.length,
                width=width,
                sag=sag,
            )
        if bar.length > 0.97 * width:
            yield f"The {name} bar takes up nearly the whole width of the cloth, which becomes tight as a drum."
    where, waist = outline.waist
    if waist < _NARROW_WAIST:
        yield make_sentence(
            "The body is only {waist:length} wide at {where:length} from the head bar.", waist=waist, where=where
        )


def _question_channel(hammock: Hammock, outline: Outline) -> Iterator[str]:
    """Yield what is unusual about the side cords."""
    cord = hammock.channel.cord_length
    for name, edge in (("left", outline.left), ("right", outline.right)):
        if cord is not None and abs(cord / edge.length - 1) > 0.03:
            effect = "shorter than the edge and gathers the cloth" if cord < edge.length else "longer than the edge"
            yield make_sentence(
                "The side cord of {cord:length.4} on the {name} edge of {edge.length:length.4} is {effect}.",
                cord=cord,
                name=name,
                edge=edge,
                effect=effect,
            )

    shear = hammock.body.fabric.shear * hammock.body.layers
    if hammock.channel.attachment is not Attachment.SEWN and shear < _SOFT_SHEAR:
        yield make_sentence(
            "The cord slides in its channel and the shear stiffness of the cloth is only {shear:line_stiffness.2}. "
            "Without friction the cloth gathers at the deepest point of the cord. Compare with "
            'attachment = "sewn", where it cannot slide at all.',
            shear=shear,
        )


def _question_hang(hammock: Hammock) -> Iterator[str]:
    """Yield what is unusual about the hang."""
    hang = hang_hammock(hammock)
    for name, angle in (("head", hang.head_angle), ("foot", hang.foot_angle)):
        if angle < _FLAT:
            yield (
                f"The {name} line leaves its tree at {degrees(angle):.0f} degrees. A flat hang raises every force: "
                f"each line takes 1/(2 sin a) = {1 / (2 * np.sin(max(angle, 1e-3))):.1f} times the weight."
            )
        if angle > _STEEP:
            yield f"The {name} line leaves its tree at {degrees(angle):.0f} degrees, steeper than usual."


def _question_person(person: Person, hammock: Hammock, outline: Outline) -> Iterator[str]:
    """Yield what is unusual about who lies in it."""
    narrowest, where = find_narrowing(person, outline)
    if narrowest < 1:
        yield make_sentence(
            "The cloth is narrower than the person with arms at the sides: {narrowest:.0%} of the breadth at "
            "{where:length} from the head bar. The person is computed as if squeezed to that.",
            where=where,
            narrowest=narrowest,
        )
    room = find_foot_room(hammock, person)
    if room < _TOE_ROOM:
        yield make_sentence(
            "The body is short for this person: {room:length} of cloth are left beyond the soles, and pointed toes "
            "need {least:length} (engineering judgement). Lengthen the body or move the head closer to the bar.",
            room=room,
            least=_TOE_ROOM,
        )
