"""Sideways stability of a person who lies in the middle, and how far all swings over: records and words."""

from dataclasses import dataclass
from math import degrees
from typing import NamedTuple

from ....materials import Sentence, make_sentence
from ...record import Joules, Metres, Newtons, NewtonsPerMetre, Radians, Record
from .swing import Swing

_HARDLY, _SOFTLY = 0.01, 0.03  # of the weight for a centimetre; engineering judgement, no source
_SHOWN = {"hardly": "Barely", "softly": "Moderately", "firmly": "Firmly"}
_CENTIMETRE = 0.01


class SidePush(NamedTuple):
    """What it takes to move a lying person sideways, with some friction.

    Parameters
    ----------
    force : float
        Sideways force between person and side cords, N; negative where it keeps the person from rolling further.
    work : float
        Of that force on the way, J.
    end : str or None
        Why there is no equilibrium so far off the middle, as the end of a sentence; force and work are then invalid.
    """

    force: float
    work: float
    end: str | None = None

    @property
    def holds(self) -> bool:
        """Whether the person comes back."""
        return self.end is None and self.force > 0.0 and self.work > 0.0

    @property
    def ending(self) -> str:
        """What becomes of who does not come back, as the end of a sentence on the person."""
        return self.end or ("is held, but rolls there from the middle" if self.force > 0.0 else "keeps rolling")


@dataclass(frozen=True)
class SideStability:
    """Force and work needed to move a lying person sideways.

    Parameters
    ----------
    falling : int
        Negative-curvature directions of the energy at the found shape, on smooth cloth.
    shift : float
        Off the middle, m.
    weight : float
        Of the person, N.
    friction : float
        Coefficient of clothing on cloth.
    clothed : SidePush
        With that friction; in a sweep no better than ``slippery``, which is quicker to find.
    smooth : SidePush or None
        On perfectly smooth cloth; None where that was not looked for, as in a sweep.
    slippery : SidePush
        In slippery clothing; the same as ``smooth`` for who is held there already.
    swing : Swing or None
        What happens when the person pushes without a moment from outside, clothed; None where that was not looked for,
        as in a sweep where no leg and no side cord is near its factor.
    """

    falling: int
    shift: float
    weight: float
    friction: float
    clothed: SidePush
    smooth: SidePush | None
    slippery: SidePush
    swing: Swing | None = None

    @property
    def word(self) -> str:
        """Stability as it is stored: ``not`` (also for who rolls if slippery), ``hardly``, ``softly`` or ``firmly``."""
        if not (self.clothed.holds and self.slippery.holds):
            return "not"
        share = self.clothed.force / self.weight * _CENTIMETRE / self.shift
        return "hardly" if share < _HARDLY else "softly" if share < _SOFTLY else "firmly"

    @property
    def sentence(self) -> Sentence:
        """The same in a sentence: clothed, and on smooth cloth."""
        if self.word == "not":
            worst = self.slippery if self.clothed.holds else self.clothed
            return make_sentence(
                "UNSTABLE sideways{how}: {shift:length} off centre the person {end}.",
                how=" in slippery clothing" if self.clothed.holds else "",
                shift=self.shift,
                end=worst.ending,
            )
        if self.friction == 0.0:
            return make_sentence(
                "{word} stable sideways: {push:force} moves the person {shift:length}.",
                word=_SHOWN[self.word],
                push=self.clothed.force,
                shift=self.shift,
            )
        smooth = ""
        if self.smooth is not None:
            told = "{smooth:force} would do" if self.smooth.holds else f"the person {self.smooth.ending}"
            smooth = f"; on perfectly smooth cloth {told}"
        return make_sentence(
            f"{{word}} stable sideways: {{push:force}} moves the person {{shift:length}} (friction of clothing "
            f"{{friction:g}}{smooth}).",
            word=_SHOWN[self.word],
            push=self.clothed.force,
            shift=self.shift,
            friction=self.friction,
            smooth=0.0 if self.smooth is None else self.smooth.force,
        )

    @property
    def swing_sentence(self) -> Sentence | None:
        """How far hammock and person swing over, in a sentence; None where that was not looked for."""
        swing = self.swing
        if swing is None:
            return None
        if swing.end is not None:
            return make_sentence(
                "Who shifts {shift:length} aside in it, with nobody pushing from outside, {end}.",
                shift=self.shift,
                end=swing.end,
            )
        return make_sentence(
            "Who shifts {shift:length} aside in it, with nobody pushing from outside, {does} {push:force} and swings "
            "over with the hammock: side cords tilt {tilt:.1f} deg (by hand {tilt_by_hand:.1f}) and go {aside:length} "
            "the other way (by hand {aside_by_hand:length}), hips roll {roll:.0f} deg. On that side a leg pulls up to "
            "{leg:.1%} harder, the side cord {cord:.1%}.",
            shift=self.shift,
            does="needs" if swing.push >= 0.0 else "is held back by",
            push=abs(swing.push),
            tilt=degrees(swing.tilt),
            tilt_by_hand=degrees(swing.tilt_by_hand),
            aside=swing.aside,
            aside_by_hand=swing.aside_by_hand,
            roll=degrees(swing.roll),
            leg=swing.pull.leg - 1.0,
            cord=swing.pull.cord - 1.0,
        )


def note_side_stability(stability: SideStability | None) -> list[Sentence]:
    """Return a note for an unstable position; none for any other."""
    if stability is None or stability.word != "not":
        return []
    return [
        make_sentence(
            "{held} All results describe a balance in which nobody can lie, like a ball on a ridge. Increase "
            "hang_angle or raise the straps.",
            held=stability.sentence,
        )
    ]


@dataclass(frozen=True, repr=False)
class StabilityRecord(Record):
    r"""How hard a person is held against rolling, as a result keeps it.

    Parameters
    ----------
    words : str
        In a sentence; a ``Sentence``.
    held : str
        In a word: not, hardly, softly or firmly.
    falling_directions : int
        Directions in which the energy falls from the found shape, to second order.
    side_shift : float
        How far the person was moved off the middle, s, m.
    side_push : float or None
        Sideways force that it takes, P, N; None, as what follows, where there is no rest so far off the middle.
    side_work : float or None
        What the push has done on the way, J.
    side_stiffness : float or None
        :math:`P / s`, N/m.
    friction : float
        Coefficient of clothing on cloth with which all this was found.
    smooth_push : float or None
        P on perfectly smooth cloth, N, the cautious end; None where there is no rest so far off the middle.
    swing_words : str or None
        How far hammock and person swing over together when the person shifts by s, in a sentence; a ``Sentence``. None,
        as what follows, where that was not looked for.
    swing_push : float or None
        Force between person and side cords that this takes, N. Unlike P it acts along the line from cord to cord, so
        that it takes no moment from outside; None, as what follows but by hand, where the person finds no rest so far
        off the middle.
    swing_tilt : float or None
        By which the line between both side cords tilts towards the side to which the person moves, rad.
    swing_tilt_by_hand : float or None
        The same by :func:`~tautlay.cases.judging.comfort.swing.swing_by_hand`, rad.
    swing_aside : float or None
        By which the middle between both side cords goes the other way, m.
    swing_aside_by_hand : float or None
        The same by hand, m.
    swing_roll : float or None
        Of the person's hips, with the hammock and in the cloth, rad.
    swing_leg_pull, swing_side_cord_pull : float or None
        How hard leg and side cord that bear more then pull, over how hard the same pull in the middle; legs and cords
        are checked with it too.
    """

    words: str
    held: str
    falling_directions: int
    side_shift: Metres
    side_push: Newtons | None
    side_work: Joules | None
    side_stiffness: NewtonsPerMetre | None
    friction: float = 0.0
    smooth_push: Newtons | None = None
    swing_words: str | None = None
    swing_push: Newtons | None = None
    swing_tilt: Radians | None = None
    swing_tilt_by_hand: Radians | None = None
    swing_aside: Metres | None = None
    swing_aside_by_hand: Metres | None = None
    swing_roll: Radians | None = None
    swing_leg_pull: float | None = None
    swing_side_cord_pull: float | None = None


def record_stability(stability: SideStability | None) -> StabilityRecord | None:
    """Return the stability in plain numbers and words; None where it was not judged.

    Parameters
    ----------
    stability : SideStability or None
        From :func:`~tautlay.cases.studies.lying.side_stability.assess_side_stability`.

    Examples
    --------
    >>> push = SidePush(20.0, 0.3)
    >>> found = record_stability(SideStability(0, 0.04, 630.0, 0.0, push, push, push))
    >>> found.side_stiffness, str(found.words)
    (500.0, 'Barely stable sideways: 20.0 N moves the person 4.00 cm.')
    """
    if stability is None:
        return None
    push, smooth = stability.clothed, stability.smooth
    rest, swing = push.end is None, stability.swing
    found = swing if swing is not None and swing.end is None else None
    return StabilityRecord(
        words=stability.sentence,
        held=stability.word,
        falling_directions=stability.falling,
        side_shift=stability.shift,
        side_push=push.force if rest else None,
        side_work=push.work if rest else None,
        side_stiffness=push.force / stability.shift if rest else None,
        friction=stability.friction,
        smooth_push=None if smooth is None or smooth.end else smooth.force,
        swing_words=stability.swing_sentence,
        swing_push=found.push if found else None,
        swing_tilt=found.tilt if found else None,
        swing_tilt_by_hand=swing.tilt_by_hand if swing else None,
        swing_aside=found.aside if found else None,
        swing_aside_by_hand=swing.aside_by_hand if swing else None,
        swing_roll=found.roll if found else None,
        swing_leg_pull=found.pull.leg if found else None,
        swing_side_cord_pull=found.pull.cord if found else None,
    )
