"""How hard a person who lies in the middle is held against rolling to the side: the record and its words."""

from dataclasses import dataclass

from ....materials import Sentence, make_sentence
from ...record import Joules, Metres, Newtons, NewtonsPerMetre, Record

_HARDLY, _SOFTLY = 0.01, 0.03  # of the weight for a centimetre; judgement, no source
_CENTIMETRE = 0.01


@dataclass(frozen=True)
class SideStability:
    """What it takes to move a lying person aside.

    Parameters
    ----------
    falling : int
        Directions in which the energy falls from the found shape, to second order.
    shift : float
        Off the middle, m.
    push : float
        Sideways force between person and side cords that it takes, N; negative where it keeps from rolling on.
    work : float
        What the push has done on the way, J.
    end : str or None
        Why there is no rest so far off the middle, as the end of a sentence; push and work then mean nothing.
    weight : float
        Of the person, N.
    """

    falling: int
    shift: float
    push: float
    work: float
    end: str | None
    weight: float

    @property
    def word(self) -> str:
        """How firmly the person is held against rolling: not, hardly, softly or firmly."""
        if self.end is not None or self.push <= 0.0 or self.work <= 0.0:
            return "not"
        share = self.push / self.weight * _CENTIMETRE / self.shift
        return "hardly" if share < _HARDLY else "softly" if share < _SOFTLY else "firmly"

    @property
    def sentence(self) -> Sentence:
        """The same in a sentence."""
        if self.word == "not":
            end = self.end or "rolls on by itself"
            return make_sentence(
                "NOT HELD against rolling: {shift:length} off the middle the sleeper {end}.", shift=self.shift, end=end
            )
        return make_sentence(
            "{word} held against rolling: a push of {push:force} moves the sleeper {shift:length} to the side.",
            word=self.word.capitalize(),
            push=self.push,
            shift=self.shift,
        )


def note_side_stability(stability: SideStability | None) -> list[Sentence]:
    """Return a note for a lie that is not held; none for any other."""
    if stability is None or stability.word != "not":
        return []
    return [
        make_sentence(
            "{held} The shape found is a balance on edge and no place to lie: hang it steeper (a larger hang_angle, or "
            "higher straps). All that is told here is of that balance.",
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
    """

    words: str
    held: str
    falling_directions: int
    side_shift: Metres
    side_push: Newtons | None
    side_work: Joules | None
    side_stiffness: NewtonsPerMetre | None


def record_stability(stability: SideStability | None) -> StabilityRecord | None:
    """Return the stability in plain numbers and words; None where it was not judged.

    Parameters
    ----------
    stability : SideStability or None
        From :func:`~tautlay.cases.studies.lying.side_stability.assess_side_stability`.

    Examples
    --------
    >>> found = record_stability(SideStability(0, 0.04, 20.0, 0.3, None, 630.0))
    >>> found.side_stiffness, str(found.words)
    (500.0, 'Hardly held against rolling: a push of 20.0 N moves the sleeper 4.00 cm to the side.')
    """
    if stability is None:
        return None
    rest = stability.end is None
    return StabilityRecord(
        words=stability.sentence,
        held=stability.word,
        falling_directions=stability.falling,
        side_shift=stability.shift,
        side_push=stability.push if rest else None,
        side_work=stability.work if rest else None,
        side_stiffness=stability.push / stability.shift if rest else None,
    )
