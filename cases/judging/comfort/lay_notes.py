"""What somebody who lies in it ought to know besides the numbers, in sentences."""

from math import degrees

from ....hammock import LyingSide
from ....materials import Sentence, make_sentence
from ....meshing import HammockModel
from .comfort import Comfort

_ON_SIDE = (45.0, 135.0)  # degrees of the hips that count as lying on the side
_SLIPPERY = 0.1  # of the weight: friction of cloth on cloth is some 0.2 to 0.5 (from memory), less when it is damp
NO_SLIDE = 5e-4  # of the weight, which is written as 0.0 %
_STRAIGHT = -0.5  # degrees; less is written as 0


def note_lay(model: HammockModel, comfort: Comfort | None) -> list[str]:
    """Return a sentence for what a person ought to know before using the measures; none without contact."""
    if comfort is None or model.person is None:
        return []
    notes = []
    roll, slide, knees = degrees(comfort.roll), comfort.slide, degrees(comfort.knee_flexion)
    if model.person.posture.lie is LyingSide.SIDE and not _ON_SIDE[0] < roll < _ON_SIDE[1]:
        notes.append(
            f"On smooth cloth the person does not stay on the side but rolls until the hips stand at {roll:.0f} "
            "degrees (0 on the back, 90 on the side, 180 on the belly): the measures are those of that position."
        )
    if abs(slide) > _SLIPPERY:
        towards, end = ("head", "foot") if slide > 0 else ("feet", "head")
        notes.append(
            f"It takes {abs(slide):.0%} of the weight to keep the person from sliding towards the {towards}: lower the "
            f"{end} end, or let `tautlay trim` find how far."
        )
    if knees < _STRAIGHT:
        notes.append(
            f"The knees are bent {-knees:.0f} degrees past straight, which nobody lies in for long: try a pad under "
            "them (knee_pad), the foot strap higher or lower, or another arc."
        )
    return notes


def make_restraint_sentence(slide: float, hold: float) -> Sentence:
    """Return what has to hold the person lengthwise, in words.

    Parameters
    ----------
    slide : float
        What holds the person lengthwise, over the weight; positive towards the feet.
    hold : float
        The same as a force, N.

    Examples
    --------
    >>> str(make_restraint_sentence(0.0, 0.0))
    'Nothing has to hold the person lengthwise: even on smooth cloth he or she stays in place.'
    """
    if abs(slide) < NO_SLIDE:
        return make_sentence(
            "Nothing has to hold the person lengthwise: even on smooth cloth he or she stays in place."
        )
    to, away = ("foot end", "head") if slide < 0 else ("head", "feet")
    return make_sentence(
        "Clothing has to rub by {hold:force}, {share:.1%} of the body weight, which holds the person toward the "
        "{away}; on smooth cloth he or she would slide toward the {to}.",
        share=abs(slide),
        hold=abs(hold),
        to=to,
        away=away,
    )
