"""Sideways stability of a person who lies in the middle: the record and its words."""

from dataclasses import dataclass
from typing import NamedTuple

from ....materials import Sentence, make_sentence
from ...record import Joules, Metres, Newtons, NewtonsPerMetre, Record

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
    clothed, smooth, slippery : SidePush
        With that friction; on perfectly smooth cloth; and in slippery clothing, the same as ``smooth`` for who is held
        there already.
    """

    falling: int
    shift: float
    weight: float
    friction: float
    clothed: SidePush
    smooth: SidePush
    slippery: SidePush

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
                end=worst.end or "keeps rolling",
            )
        if self.friction == 0.0:
            return make_sentence(
                "{word} stable sideways: {push:force} moves the person {shift:length}.",
                word=_SHOWN[self.word],
                push=self.clothed.force,
                shift=self.shift,
            )
        smooth = "{smooth:force} would do" if self.smooth.holds else f"the person {self.smooth.end or 'keeps rolling'}"
        return make_sentence(
            "{word} stable sideways: {push:force} moves the person {shift:length} (friction of clothing {friction:g}; "
            f"on perfectly smooth cloth {smooth}).",
            word=_SHOWN[self.word],
            push=self.clothed.force,
            shift=self.shift,
            friction=self.friction,
            smooth=self.smooth.force,
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
    rest = push.end is None
    return StabilityRecord(
        words=stability.sentence,
        held=stability.word,
        falling_directions=stability.falling,
        side_shift=stability.shift,
        side_push=push.force if rest else None,
        side_work=push.work if rest else None,
        side_stiffness=push.force / stability.shift if rest else None,
        friction=stability.friction,
        smooth_push=smooth.force if smooth.end is None else None,
    )
