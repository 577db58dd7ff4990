"""Sitting across in words."""

from math import degrees

from ....materials import Sentence, make_sentence
from ...judging.comfort.gauge import SQUARE
from .sitting_across import SittingAcross

TENS = -4  # digits to which a pressure of the rim repeats on a finer mesh: 10 kPa


def make_across_sentences(found: SittingAcross) -> list[Sentence]:
    """Return in words how a person sits across, what holds the seat, and where all turns over.

    Parameters
    ----------
    found : SittingAcross
        From :func:`~tautlay.cases.studies.lying.sitting_across.sit_across`.

    Examples
    --------
    >>> from ...judging.comfort.rim import RimPush
    >>> from .seat_stage import SeatStage
    >>> rim = RimPush(252.0, 906.0)
    >>> stage = SeatStage(0.1, -0.08, 404.0, 274.0, rim, 79e3, 0.569, 0.53, 0.55, 0.17, 0.08, 0.19)
    >>> across = SittingAcross((stage,), "turns over", None, 0.35, 374.0, 0.473, 1.2, 0.003)
    >>> for sentence in make_across_sentences(across)[:3]:
    ...     print(sentence)
    Feet off the ground, hips 10.0 cm left of the middle: the left side cord pulls 404 N, 374 N under the spread weight.
    The rim presses each thigh with 906 N/m, at most with about 80 kPa on squares of 5 cm.
    The rim hangs 56.9 cm above ground, 9.60 cm above the knees. The side cords tilt by 30 deg, 32 by hand.
    """
    told = (_say_cord, _say_rim, _say_height, _say_hold, _say_front)
    return [*(say(found) for say in told), *_say_back(found)]


def _say_place(place: float) -> Sentence:
    """Return where the hips are."""
    side = "left" if place >= 0.0 else "right"
    return make_sentence("{place:length} {side} of the middle", place=abs(place), side=side)


def _say_cord(found: SittingAcross) -> Sentence:
    """Return what the side cord bears under the legs."""
    seat = found.seat
    return make_sentence(
        "Feet {feet}, hips {place}: the left side cord pulls {cord:force}, {spread:force} under the spread weight.",
        feet="off the ground" if seat.soles > 0.0 else "drawn up, since they reach the ground",
        place=_say_place(seat.place),
        cord=seat.near_cord,
        spread=found.spread_cord,
    )


def _say_rim(found: SittingAcross) -> Sentence:
    """Return what the rim presses."""
    return make_sentence(
        "The rim presses each thigh with {line:line_load}, at most with about {pressure:stress.1} on squares of "
        "{square:length.1}.",
        line=found.seat.rim.line_load,
        pressure=round(found.seat.pressure, TENS),
        square=SQUARE,
    )


def _say_height(found: SittingAcross) -> Sentence:
    """Return how high the rim hangs, and how far all swings."""
    seat = found.seat
    return make_sentence(
        "The rim hangs {high:length} above ground, {gap:length} {side} the knees. The side cords tilt by {tilt:.0f} "
        "deg, {hand:.0f} by hand.",
        high=seat.rim_height,
        gap=abs(seat.rim_height - found.knees),
        side="above" if seat.rim_height > found.knees else "below",
        tilt=degrees(seat.tilt),
        hand=degrees(seat.tilt_by_hand),
    )


def _say_hold(found: SittingAcross) -> Sentence:
    """Return between which places clothing holds."""
    held = found.find_range(found.friction)
    if held is None:
        return make_sentence(
            "Clothing with a friction of {friction:g} holds the seat nowhere: it takes {least:.2f}. Hold on to the "
            "cords.",
            friction=found.friction,
            least=found.steadiest.friction,
        )
    let_go = (
        "slides off all the same" if found.moved is None else make_sentence("slips {moved:length.1}", moved=found.moved)
    )
    return make_sentence(
        "Clothing (friction {friction:g}) holds the hips from {back} to {front}. Let go where you sit, the seat "
        "{let_go}.",
        friction=found.friction,
        back=_say_place(held[0]),
        front=_say_place(held[1]),
        let_go=let_go,
    )


def _say_front(found: SittingAcross) -> Sentence:
    """Return where all turns over to the front."""
    last = found.stages[-1]
    if found.front is None:
        return make_sentence("Nothing turns over up to {far}.", far=_say_place(last.place))
    return make_sentence(
        "With the hips beyond {place} (within {within:length.1}) the person {end}. There the cords tilt by {tilt:.0f} "
        "deg, by hand {hand:.0f} at most, and the centre of mass is {behind:length.2} behind the rim. Whoever moves "
        "tips sooner.",
        place=_say_place(last.place),
        within=found.resolution,
        end=found.front,
        tilt=degrees(last.tilt),
        hand=degrees(found.last_tilt),
        behind=last.centre_behind,
    )


def _say_back(found: SittingAcross) -> list[Sentence]:
    """Return what ends the way to the back, where clothing still holds."""
    if found.back is None:
        return []
    return [
        make_sentence(
            "With the hips {place} the person {end}.", place=_say_place(found.stages[0].place), end=found.back
        )
    ]
